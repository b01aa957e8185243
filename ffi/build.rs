//! Tells the linker the name that the loader looks for, and that C's own library is needed.

use std::env;

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    let (Ok(os), Ok(major)) = (env::var("CARGO_CFG_TARGET_OS"), env::var("CARGO_PKG_VERSION_MAJOR")) else { return };
    if os == "linux" {
        println!("cargo::rustc-cdylib-link-arg=-Wl,-soname,libdryfit.so.{major}");
        // Without std nothing else asks for it, and malloc would be found only where the program brings it.
        println!("cargo::rustc-cdylib-link-arg=-lc");
    }
}
