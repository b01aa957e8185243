//! Lengths from text, from floats and back.

use std::ffi::c_char;

use dryfit::*;

use crate::contract::call;
use crate::source::Source;

const UNITS: [(&str, i128); 8] = [
    ("", 1_000_000),
    ("mm", 1_000_000),
    ("um", 1_000),
    ("cm", 10_000_000),
    ("m", 1_000_000_000),
    ("in", 25_400_000),
    ("\"", 25_400_000),
    ("ft", 304_800_000),
];
const REACH: i128 = 10_000_000_000;
const UNTOUCHED: i64 = 0x5A5A_5A5A;

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    match s.below(4) {
        0 | 1 => written(s),
        2 => anything(s),
        _ => float(s),
    }
}

fn parse(s: &mut Source<'_>, text: &[u8]) -> (i32, i64) {
    // On the heap and without a zero, so that a sanitizer sees who reads on.
    let (text, mut out) = (text.to_vec().into_boxed_slice(), UNTOUCHED);
    let status = call(s, "dryfit_length_parse", &[], |s, error| {
        let empty = text.is_empty();
        let pointer = if !empty && s.null() { std::ptr::null() } else { text.as_ptr().cast::<c_char>() };
        let to = if s.null() { std::ptr::null_mut() } else { &raw mut out };
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_length_parse(pointer, text.len(), to, error) }
    });
    assert!(status == DRYFIT_OK || out == UNTOUCHED, "refused, but out was written");
    (status, out)
}

/// A text of the grammar against a reading of its own.
fn written(s: &mut Source<'_>) {
    let digits = |s: &mut Source<'_>| {
        let count = if s.one_in(8) { 1 + s.below(17) } else { 1 + s.below(4) };
        (0..count).map(|_| s.below(10).to_string()).collect::<String>()
    };
    let (whole, part) = (digits(s), digits(s));
    let (unit, scale) = s.pick(&UNITS);
    let (text, num, den) = match s.below(4) {
        0 => (whole.clone(), number(&whole), 1),
        1 => (format!("{whole}.{part}"), number(&format!("{whole}{part}")), 10i128.pow(part.len() as u32)),
        2 if number(&part) > 0 => (format!("{whole}/{part}"), number(&whole), number(&part)),
        3 if number(&part) > 0 => {
            let above = digits(s);
            (format!("{whole} {above}/{part}"), number(&whole) * number(&part) + number(&above), number(&part))
        }
        _ => (format!("{whole}."), number(&whole), 1),
    };
    let sign = s.pick(&["", "-", "+"]);
    let text = format!("{}{sign}{text}{}{unit}{}", s.pick(&["", " "]), s.pick(&["", " "]), s.pick(&["", " ", "\t"]));
    let (status, out) = parse(s, text.as_bytes());
    if s.nulls > 0 {
        return;
    }
    // Halves away from zero; a number that does not fit is far beyond the range.
    let magnitude = num.checked_mul(2 * scale).map_or(i128::MAX, |twice| (twice + den) / (2 * den));
    if magnitude > REACH {
        assert_eq!(status, DRYFIT_OUT_OF_RANGE, "{text:?}");
    } else {
        let expected = if sign == "-" { -magnitude } else { magnitude };
        assert_eq!((status, i128::from(out)), (DRYFIT_OK, expected), "{text:?}");
    }
}

fn number(digits: &str) -> i128 {
    digits.parse().expect("digits")
}

/// Any bytes: what is taken is in range, what is no text is told apart.
fn anything(s: &mut Source<'_>) {
    let text = s.text();
    let (status, out) = parse(s, &text);
    match status {
        DRYFIT_OK => assert!(i128::from(out).abs() <= REACH),
        _ if s.nulls > 0 => {}
        _ => assert_eq!(status == DRYFIT_NOT_TEXT, std::str::from_utf8(&text).is_err()),
    }
    // SAFETY: a length that memory cannot have is refused before anything is read.
    let status = call(s, "dryfit_length_parse", &[], |_, error| unsafe { dryfit_length_parse(text.as_ptr().cast(), usize::MAX, &mut 0, error) });
    assert_ne!(status, DRYFIT_OK);
}

fn float(s: &mut Source<'_>) {
    let (millimetres, mut out) = (s.double(), UNTOUCHED);
    // SAFETY: the pointers lead to what they should.
    let status = call(s, "dryfit_length_from_mm", &[], |_, error| unsafe { dryfit_length_from_mm(millimetres, &mut out, error) });
    if !millimetres.is_finite() {
        assert_eq!(status, DRYFIT_NOT_FINITE);
    }
    if status == DRYFIT_OK {
        assert!(i128::from(out).abs() <= REACH && (out as f64 - millimetres * 1e6).abs() <= 0.501, "{millimetres} mm is {out}");
        let back = dryfit_length_to_mm(out);
        let mut again = 0;
        // SAFETY: the pointers lead to what they should.
        assert_eq!(unsafe { dryfit_length_from_mm(back, &mut again, std::ptr::null_mut()) }, DRYFIT_OK);
        assert_eq!(again, out, "there and back");
    } else {
        assert_eq!(out, UNTOUCHED, "refused, but out was written");
    }
    assert!(dryfit_length_to_mm(s.any()).is_finite());
}
