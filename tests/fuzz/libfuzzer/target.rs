//! libFuzzer drives the target that this binary is named after.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| dryfit_fuzz::target(env!("CARGO_BIN_NAME")).expect("a target of this name")(data));
