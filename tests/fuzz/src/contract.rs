//! What the header promises of every call, read from the header itself.

use std::collections::HashMap;
use std::ffi::{CStr, c_char};
use std::sync::OnceLock;

use dryfit::*;

use crate::source::Source;

const HEADER: &str = include_str!("../../../ffi/include/dryfit.h");

/// How a function is declared, and which statuses its comment states.
#[derive(Clone, Default)]
struct Stated {
    declaration: &'static str,
    errors: Vec<i32>,
    /// Whether it returns what a callback returned.
    callback: bool,
}

fn stated(name: &str) -> &'static Stated {
    static ALL: OnceLock<HashMap<&'static str, Stated>> = OnceLock::new();
    ALL.get_or_init(read).get(name).unwrap_or_else(|| panic!("the header has no function {name}"))
}

/// All functions of the header, in its order: "as `...`" may stand before or after what it leads to.
fn read() -> HashMap<&'static str, Stated> {
    let mut all: HashMap<&str, Stated> = HashMap::new();
    let mut as_another = Vec::new();
    for block in HEADER.split("/**").skip(1) {
        let Some((comment, code)) = block.split_once("*/") else { continue };
        let declaration = code.split(';').next().unwrap_or("");
        let Some((before, _)) = declaration.split_once('(') else { continue };
        let Some(name) = before.split_whitespace().last().map(|word| word.trim_start_matches('*')) else { continue };
        let errors = comment.split("Errors:").nth(1).and_then(|rest| rest.split("Ownership:").next()).unwrap_or("");
        let words: Vec<&str> = errors.split([' ', ',', '.', ';', '\n', '*']).filter(|word| !word.is_empty()).collect();
        let mut stated = Stated { declaration, callback: errors.contains("returns"), errors: Vec::new() };
        for (at, word) in words.iter().enumerate() {
            if let Ok(number) = word.parse::<i32>() {
                let first = if at > 1 && words[at - 1] == "to" { words[at - 2].parse().unwrap_or(number) } else { number };
                stated.errors.extend(first..=number);
            }
            if *word == "as" && words.get(at + 1).is_some_and(|next| next.starts_with('`')) {
                as_another.push((name, words[at + 1].trim_matches('`')));
            }
        }
        all.insert(name, stated);
    }
    for (name, other) in as_another {
        let more = all.get(other).map(|other| other.errors.clone()).unwrap_or_default();
        if let Some(stated) = all.get_mut(name) {
            stated.errors.extend(more);
        }
    }
    all
}

/// The parameter of an error that is a callback's own number.
const CALLBACK: &str = "callback";

/// Memory as it is before a call.
const CANARY: u8 = 0xA5;

fn untold() -> dryfit_error {
    let word = u32::from_ne_bytes([CANARY; 4]);
    let long = i64::from_ne_bytes([CANARY; 8]);
    dryfit_error {
        status: word as i32,
        given_unit: word,
        range_unit: word,
        given: long,
        least: long,
        most: long,
        parameter: [CANARY as c_char; DRYFIT_PARAMETER_SIZE],
        place: [CANARY as c_char; DRYFIT_PLACE_SIZE],
    }
}

/// Makes a call, and holds status and error against what the header says of them. `own` is what callbacks of this call may have returned.
pub fn call(s: &mut Source<'_>, name: &str, own: &[i32], work: impl FnOnce(&mut Source<'_>, *mut dryfit_error) -> i32) -> i32 {
    s.nulls = 0;
    let mut error = untold();
    let unwanted = s.one_in(8);
    let status = work(s, if unwanted { std::ptr::null_mut() } else { &mut error });
    is_stated(s, name, own, status);
    if unwanted {
        let untouched = untold();
        assert_eq!((error.status, error.parameter, error.place), (untouched.status, untouched.parameter, untouched.place));
        return status;
    }
    assert_eq!(error.status, status, "{name}: the error's status is not what was returned");
    if status == DRYFIT_OK {
        let untouched = untold();
        assert_eq!(
            (error.given, error.least, error.most),
            (untouched.given, untouched.least, untouched.most),
            "{name}: ok, but the error was written"
        );
        assert_eq!((error.parameter, error.place), (untouched.parameter, untouched.place), "{name}: ok, but the error was written");
    } else {
        tells(name, &error);
    }
    status
}

/// Holds the status of a call without an error against the header.
pub fn is_stated(s: &Source<'_>, name: &str, own: &[i32], status: i32) {
    let stated = stated(name);
    assert_ne!(status, DRYFIT_PANICKED, "{name}: a panic");
    let known = status == DRYFIT_OK || stated.errors.contains(&status) || (stated.callback && own.contains(&status));
    assert!(known, "{name}: {status} is not among its errors {:?}", stated.errors);
    if s.nulls > 0 {
        assert_ne!(status, DRYFIT_OK, "{name} took NULL");
    }
}

/// An error names a parameter and makes a sentence.
pub fn tells(name: &str, error: &dryfit_error) {
    let parameter = words(&error.parameter);
    assert!(!parameter.is_empty(), "{name}: {} without a parameter", error.status);
    words(&error.place);
    if error.status == DRYFIT_NULL_POINTER {
        assert!(stated(name).declaration.contains(parameter), "{name}: NULL for {parameter}, which it does not have");
    }
    if error.status == DRYFIT_OUT_OF_RANGE && parameter != CALLBACK {
        assert_ne!(error.range_unit, DRYFIT_UNIT_NONE, "{name}: {parameter} out of no range");
        assert_eq!(error.given_unit, error.range_unit, "{name}: {parameter} and its range have different units");
        let inside = error.least <= error.given && error.given <= error.most;
        assert!(!inside, "{name}: {parameter} = {} is refused, but allowed {} to {}", error.given, error.least, error.most);
    }
    let sentence = message(error);
    if is_known(error.status) {
        assert!(sentence.contains(parameter), "{name}: {sentence:?} does not name {parameter}");
    } else {
        assert_eq!(sentence, returned(error.status), "{name}");
    }
}

/// Whether the table has the status of an error.
pub fn is_known(status: i32) -> bool {
    status != DRYFIT_OK && !dryfit_status_name(status).is_null()
}

/// What is said of a callback's own number.
pub fn returned(number: i32) -> String {
    if number == DRYFIT_OK { String::new() } else { format!("a callback returned {number}") }
}

/// Asks a file what it refused as a callback, and whether it knew.
pub fn completed(name: &str, file: &dryfit_file, status: i32) -> bool {
    let mut error = dryfit_error { status, parameter: [0; DRYFIT_PARAMETER_SIZE], place: [0; DRYFIT_PLACE_SIZE], ..untold() };
    for (to, byte) in error.parameter.iter_mut().zip(CALLBACK.bytes()) {
        *to = byte as c_char;
    }
    // SAFETY: both lead to what they should.
    assert_eq!(unsafe { dryfit_file_error(file, &mut error) }, DRYFIT_OK);
    assert_eq!(error.status, status, "{name}: another status");
    let told = words(&error.parameter) != CALLBACK;
    if told {
        tells(name, &error);
    }
    told
}

/// What stands before the zero, which there must be.
fn words(room: &[c_char]) -> &str {
    let bytes: &[u8] = unsafe { std::slice::from_raw_parts(room.as_ptr().cast(), room.len()) };
    CStr::from_bytes_until_nul(bytes).expect("no zero at the end").to_str().expect("not UTF-8")
}

/// The sentence of an error, asked for as a host does.
pub fn message(error: &dryfit_error) -> String {
    let (mut needed, mut again) = (usize::MAX, 0);
    // SAFETY: the pointers lead to what they should.
    unsafe {
        assert_eq!(dryfit_error_message(error, std::ptr::null_mut(), 0, &mut needed), DRYFIT_OK);
        assert!(needed > 0 && needed < 2000, "a sentence of {needed} bytes");
        let mut room = vec![CANARY; needed].into_boxed_slice();
        assert_eq!(dryfit_error_message(error, room.as_mut_ptr().cast(), needed - 1, &mut again), DRYFIT_BUFFER_TOO_SMALL);
        assert!(room.iter().all(|byte| *byte == CANARY), "too little room, but written");
        assert_eq!(dryfit_error_message(error, room.as_mut_ptr().cast(), needed, &mut again), DRYFIT_OK);
        assert_eq!(needed, again);
        let text = CStr::from_bytes_with_nul(&room).expect("one zero, at the end");
        text.to_str().expect("not UTF-8").to_owned()
    }
}
