//! Errors that a host has made or damaged itself, as sentences; names of numbers.

use std::ffi::{CStr, c_char};

use dryfit::*;

use crate::contract::{is_known, message, returned};
use crate::source::Source;

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let mut error = dryfit_error {
        status: if s.below(4) == 0 { s.any() as i32 } else { s.number(95..=815, dryfit_core::bounds::RUN) as i32 },
        given_unit: s.choice(9),
        range_unit: s.choice(9),
        given: s.number(0..=100_000_000, dryfit_core::bounds::LENGTH),
        least: s.number(0..=100_000_000, dryfit_core::bounds::LENGTH),
        most: s.number(0..=100_000_000, dryfit_core::bounds::LENGTH),
        parameter: [0; DRYFIT_PARAMETER_SIZE],
        place: [0; DRYFIT_PLACE_SIZE],
    };
    if s.one_in(4) {
        (error.given, error.least, error.most) = (s.any(), s.any(), s.any());
    }
    scribble(s, &mut error.parameter);
    scribble(s, &mut error.place);
    version();
    let sentence = message(&error);
    let (name, text) = (dryfit_status_name(error.status), dryfit_status_text(error.status));
    assert_eq!(name.is_null(), text.is_null());
    assert!(is_known(error.status) || sentence == returned(error.status), "{} says {sentence:?}", error.status);
    for words in [name, text, dryfit_face_name(s.choice(DRYFIT_FACE_COUNT))] {
        // SAFETY: static text with a zero at its end.
        assert!(words.is_null() || !unsafe { CStr::from_ptr(words) }.to_str().expect("UTF-8").is_empty());
    }
}

/// What is asked for first of all.
fn version() {
    assert_eq!(dryfit_abi_version(), DRYFIT_ABI_VERSION);
    // SAFETY: static text with a zero at its end.
    assert!(!unsafe { CStr::from_ptr(dryfit_version()) }.is_empty());
}

/// Text that may fill all of its room, zero and all.
fn scribble(s: &mut Source<'_>, room: &mut [c_char]) {
    for (to, byte) in room.iter_mut().zip(s.text()) {
        *to = byte as c_char;
    }
}
