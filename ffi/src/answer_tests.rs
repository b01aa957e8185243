use super::*;
use std::ffi::CStr;

fn empty() -> dryfit_error {
    dryfit_error { status: 77, given_unit: 9, range_unit: 9, given: 9, least: 9, most: 9, parameter: [9; 48], place: [9; 144] }
}

fn words(room: &[c_char]) -> &str {
    // Ended by a zero, which `copy` promises.
    unsafe { CStr::from_ptr(room.as_ptr()) }.to_str().unwrap()
}

#[test]
fn success_leaves_all_but_the_status() {
    let mut error = empty();
    assert_eq!(unsafe { call(&mut error, |_| Ok(())) }, DRYFIT_OK);
    assert_eq!((error.status, error.given, error.place[3]), (0, 9, 9));
    assert_eq!(unsafe { call(core::ptr::null_mut(), |_| Ok(())) }, DRYFIT_OK);
}

#[test]
fn a_refusal_is_told_whole() {
    let mut error = empty();
    let refused = Error::length(Code::SlotCloses, "span width", -5, 1, 70);
    assert_eq!(unsafe { call(&mut error, |given| Err(given.refuse(&refused))) }, 401);
    assert_eq!((error.status, error.given, error.least, error.most), (401, -5, 1, 70));
    assert_eq!((error.given_unit, error.range_unit), (DRYFIT_UNIT_LENGTH, DRYFIT_UNIT_LENGTH));
    assert_eq!((words(&error.parameter), words(&error.place)), ("span width", ""));
}

#[test]
fn a_callbacks_number_comes_back_as_it_was() {
    for number in [1, -1, 101, i32::MIN, i32::MAX] {
        let mut error = empty();
        assert_eq!(unsafe { call(&mut error, |given| Err(given.stop(number))) }, number);
        assert_eq!((error.status, error.given_unit, error.given), (number, DRYFIT_UNIT_NONE, 0));
        #[cfg(feature = "host")]
        assert_eq!(unsafe { answer(core::ptr::null_mut(), || Err(stopped(number).into())) }, number);
    }
}

#[test]
fn text_is_shortened_by_whole_letters() {
    let mut room = [9; 6];
    copy(&mut room, "abcdä");
    assert_eq!(words(&room), "abcd");
    copy(&mut room, "abä");
    assert_eq!((words(&room), room[4]), ("abä", 0));
    copy(&mut [], "a");
}

/// Every unit goes out and comes back.
#[test]
fn units_go_both_ways() {
    for unit in 0..=9 {
        let (back, n) = amount(unit, 5).parts();
        assert_eq!((super::unit(back), n), if (1..=8).contains(&unit) { (unit, 5) } else { (0, 0) });
    }
}

#[cfg(feature = "std")]
#[test]
fn a_panic_is_a_status() {
    let mut error = empty();
    std::panic::set_hook(Box::new(|_| ()));
    let status = unsafe { answer(&mut error, || panic!("on purpose")) };
    let _ = std::panic::take_hook();
    assert_eq!((status, words(&error.parameter)), (Code::Panicked.number(), "library"));
}

#[cfg(feature = "host")]
#[test]
fn a_failures_place_comes_along() {
    let mut error = empty();
    let failure = Failure { error: Error::bare(Code::Blind, "joint"), place: "x".repeat(200) };
    assert_eq!(unsafe { answer(&mut error, || Err(failure.into())) }, 304);
    assert_eq!(words(&error.place).len(), DRYFIT_PLACE_SIZE - 1);
}
