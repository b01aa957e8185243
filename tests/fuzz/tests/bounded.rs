//! The bounded run: every kept find and all of the corpus once, then new bytes for a while. `DRYFIT_FUZZ_SECONDS` (a target's share, 2 by default) and
//! `DRYFIT_FUZZ_SEED` (1 by default) change it. What fails is made smaller and written to `found/`.

use std::any::Any;
use std::cell::Cell;
use std::panic::{catch_unwind, set_hook, take_hook};
use std::path::{Path, PathBuf};
use std::sync::Once;
use std::time::{Duration, Instant};

use dryfit_fuzz::{TARGETS, target};

/// New bytes are no more than this.
const MOST: u64 = 600;
/// So often a failure is tried to be made smaller.
const TRIES: usize = 3_000;

/// Numbers of a seed (Steele, Lea, Flood, "Fast Splittable Pseudorandom Number Generators": SplitMix64).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.roll() % count.max(1) as u64) as usize
    }

    /// Bytes of any kind, or those of the corpus with some of them changed, left out, put in or joined to others.
    fn bytes(&mut self, corpus: &[Vec<u8>]) -> Vec<u8> {
        if corpus.is_empty() || self.below(4) == 0 {
            return (0..self.roll() % MOST).map(|_| self.roll() as u8).collect();
        }
        let mut bytes = corpus[self.below(corpus.len())].clone();
        if self.below(3) == 0 {
            let other = &corpus[self.below(corpus.len())];
            bytes.truncate(self.below(bytes.len() + 1));
            bytes.extend_from_slice(&other[self.below(other.len() + 1)..]);
        }
        for _ in 0..self.below(8) {
            let (at, byte) = (self.below(bytes.len()), self.roll() as u8);
            match self.below(4) {
                0 => bytes.insert(at, byte),
                1 if at < bytes.len() => drop(bytes.remove(at)),
                _ => bytes.iter_mut().skip(at).take(1).for_each(|old| *old = byte),
            }
        }
        bytes
    }
}

thread_local! {
    /// Whether panics are nobody's to read: a failure is found, or made smaller.
    static QUIET: Cell<bool> = const { Cell::new(false) };
}

/// Why a target fails on these bytes, if it does.
fn failure(run: fn(&[u8]), bytes: &[u8]) -> Option<String> {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let usual = take_hook();
        set_hook(Box::new(move |info| {
            if !QUIET.get() {
                usual(info);
            }
        }));
    });
    QUIET.set(true);
    let end = catch_unwind(|| run(bytes));
    QUIET.set(false);
    end.err().map(|why: Box<dyn Any + Send>| match why.downcast::<String>() {
        Ok(text) => *text,
        Err(other) => other.downcast_ref::<&str>().map_or("a panic", |text| text).to_owned(),
    })
}

/// Leaves out pieces, then makes bytes 0, as long as the target still fails.
fn smaller(run: fn(&[u8]), mut bytes: Vec<u8>) -> Vec<u8> {
    let mut tries = 0..TRIES;
    let mut piece = bytes.len() / 2;
    while piece > 0 {
        let mut at = 0;
        while at + piece <= bytes.len() && tries.next().is_some() {
            let less = [&bytes[..at], &bytes[at + piece..]].concat();
            if failure(run, &less).is_some() { bytes = less } else { at += piece }
        }
        piece /= 2;
    }
    for at in 0..bytes.len() {
        let old = std::mem::replace(&mut bytes[at], 0);
        if old != 0 && (tries.next().is_none() || failure(run, &bytes).is_none()) {
            bytes[at] = old;
        }
    }
    bytes
}

fn folder(kind: &str, name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(kind).join(name)
}

/// The files of a folder, in the order of their names.
fn files_of(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("a readable folder").path()).collect();
    paths.sort();
    paths.into_iter().map(|path| (path.clone(), std::fs::read(&path).expect("a readable file"))).collect()
}

fn number(name: &str, usual: u64) -> u64 {
    std::env::var(name).map_or(usual, |text| text.parse().unwrap_or_else(|_| panic!("{name}: {text:?} given, a whole number is wanted")))
}

/// Runs a target until its time is over. Runs of one seed make the same bytes in the same order; how far they come depends on the machine.
fn bounded(name: &str) {
    let run = target(name).expect("a target of this name");
    let corpus = files_of(&folder("corpus", name));
    for (path, bytes) in files_of(&folder("regressions", name)).iter().chain(&corpus) {
        if let Some(why) = failure(run, bytes) {
            panic!("{}: {why}", path.display());
        }
    }
    let corpus: Vec<Vec<u8>> = corpus.into_iter().map(|(_, bytes)| bytes).collect();
    let seed = number("DRYFIT_FUZZ_SEED", 1);
    let end = Instant::now() + Duration::from_secs(number("DRYFIT_FUZZ_SECONDS", 2));
    let (mut dice, mut cases) = (Dice(seed), 0);
    while Instant::now() < end {
        let bytes = dice.bytes(&corpus);
        cases += 1;
        if failure(run, &bytes).is_none() {
            continue;
        }
        let bytes = smaller(run, bytes);
        let found = folder("found", name).join(format!("{seed}-{cases}"));
        std::fs::create_dir_all(folder("found", name)).expect("a folder that can be made");
        std::fs::write(&found, &bytes).expect("a file that can be written");
        let why = failure(run, &bytes).unwrap_or_default();
        panic!("{name}, seed {seed}, case {cases}: {why}\nthe bytes are in {}", found.display());
    }
    println!("{name}: seed {seed}, {cases} cases");
}

/// All that stands in the targets' sources.
fn sources(folder: &Path) -> String {
    let entries = std::fs::read_dir(folder).expect("a readable folder").map(|entry| entry.expect("a readable folder").path());
    entries.map(|path| if path.is_dir() { sources(&path) } else { std::fs::read_to_string(path).expect("a readable file") }).collect()
}

#[test]
fn every_function_of_the_header_is_called() {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let header = std::fs::read_to_string(here.join("../../ffi/include/dryfit.h")).expect("a readable file");
    let (sources, mut count) = (sources(&here.join("src")), 0);
    let names = header.split_terminator('(').filter_map(|before| before.split([' ', '\n', '*']).next_back());
    for name in names.filter(|name| name.starts_with("dryfit_") && !name.ends_with(')')) {
        assert!(sources.contains(&format!("{name}(")) || sources.contains(&format!("=> {name},")), "{name} is called by no target");
        count += 1;
    }
    assert!(count > 70, "{count} functions in the header");
}

macro_rules! targets {
    ($($name:ident),*) => {
        $(#[test]
        fn $name() {
            bounded(stringify!($name));
        })*

        #[test]
        fn every_target_is_run() {
            let names: Vec<&str> = TARGETS.iter().map(|target| target.0).collect();
            assert_eq!(names, [$(stringify!($name)),*]);
        }
    };
}

targets!(blades, boxes, edges, files, host, lengths, messages, patterns);
