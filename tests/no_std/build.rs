//! A shared object may leave symbols undefined unless told otherwise; the proof lives on their being refused.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rustc-cdylib-link-arg=-Wl,-z,defs");
    println!("cargo::rustc-cdylib-link-arg=-lc");
}
