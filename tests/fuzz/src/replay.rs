//! `replay TARGET FILE...`: what a target does with the bytes of each file.

fn main() {
    let mut words = std::env::args().skip(1);
    let name = words.next().unwrap_or_default();
    let names: Vec<&str> = dryfit_fuzz::TARGETS.iter().map(|target| target.0).collect();
    let Some(run) = dryfit_fuzz::target(&name) else {
        eprintln!("target: {name:?} given, allowed {}", names.join(", "));
        std::process::exit(2);
    };
    for file in words {
        let bytes = std::fs::read(&file).unwrap_or_else(|error| panic!("{file}: {error}"));
        println!("{file}: {} bytes", bytes.len());
        run(&bytes);
    }
}
