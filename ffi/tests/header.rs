//! The header is what cbindgen makes of the source. `DRYFIT_WRITE=1 cargo test -p dryfit-ffi` writes it anew.

#![allow(clippy::expect_used)]

use std::path::Path;

#[test]
fn the_header_is_made_of_the_source() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let config = cbindgen::Config::from_file(folder.join("cbindgen.toml")).expect("the settings are readable");
    let made = cbindgen::Builder::new().with_crate(folder).with_config(config).generate().expect("the source is readable");
    let mut bytes = Vec::new();
    made.write(&mut bytes);
    let made = String::from_utf8(bytes).expect("a header is text");
    let path = folder.join("include/dryfit.h");
    if std::env::var_os("DRYFIT_WRITE").is_some() {
        std::fs::write(&path, &made).expect("the header can be written");
    }
    let kept = std::fs::read_to_string(&path).expect("the header is there");
    assert!(kept == made, "include/dryfit.h is not what the source makes: DRYFIT_WRITE=1 cargo test -p dryfit-ffi, and commit it");
}

/// What the header says in words of its own is what the library says.
#[test]
fn the_headers_own_numbers_are_the_librarys() {
    let header = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("include/dryfit.h")).expect("the header is there");
    let version = dryfit::DRYFIT_VERSION.to_str().expect("a version is text");
    for line in [
        format!("#define DRYFIT_VERSION \"{version}\""),
        format!("#define DRYFIT_ABI_VERSION {}", dryfit::dryfit_abi_version()),
        format!("#define DRYFIT_MM INT64_C({})", dryfit::DRYFIT_MM),
        format!("#define DRYFIT_INCH INT64_C({})", dryfit::DRYFIT_INCH),
        format!("#define DRYFIT_DEGREE INT64_C({})", dryfit::DRYFIT_DEGREE),
    ] {
        assert!(header.lines().any(|kept| kept == line), "{line}");
    }
}
