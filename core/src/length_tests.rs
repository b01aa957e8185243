use super::*;
use proptest::prelude::*;
use std::format;
use std::string::ToString;

#[test]
fn reads_what_a_maker_writes() {
    for (text, nm) in [
        ("11 in", 279_400_000),
        ("3/32 in", 2_381_250),
        ("1 1/2 in", 38_100_000),
        ("0.1 mm", 100_000),
        ("2 cm", 20_000_000),
        ("80", 80_000_000),
        ("13 3/4 in", 349_250_000),
        ("1/64in", 396_875),
        ("-.5mm", -500_000),
        ("5.", 5_000_000),
        ("12\"", 304_800_000),
        ("10 m", 10_000_000_000),
    ] {
        assert_eq!(Nm::parse(text).map(Nm::nm), Ok(nm), "{text}");
    }
}

#[test]
fn refuses_what_is_not_a_length() {
    for text in ["", " ", "mm", "1,5", "1e3", "nan", "inf", "1/0", "1 2", "1 mm mm", "1 1/2/3", "--1", "1.2.3", "1/2.5", "0x10", "é"] {
        assert_eq!(Nm::parse(text).unwrap_err().code, Code::NotALength, "{text}");
    }
    assert_eq!(Nm::parse("10.001 m").unwrap_err().code, Code::OutOfRange);
    assert_eq!(Nm::parse("999999999999999999 ft").unwrap_err().code, Code::OutOfRange);
    assert_eq!(Nm::parse("1234567890123456789").unwrap_err().code, Code::NotALength);
}

#[test]
fn floats_are_refused_at_the_door() {
    assert_eq!(Nm::from_mm(f64::NAN).unwrap_err().code, Code::NotFinite);
    assert_eq!(Nm::from_mm(f64::NEG_INFINITY).unwrap_err().code, Code::NotFinite);
    assert_eq!(Nm::from_mm(1e300).unwrap_err().code, Code::OutOfRange);
    assert_eq!(Nm::from_mm(-10_000.000_001).unwrap_err().code, Code::OutOfRange);
}

#[test]
fn enormous_numbers_are_out_of_range() {
    for text in [
        "999999999999999999.999999999999999999 ft",
        "999999999999999999 1/999999999999999999 ft",
        "999999999999999999 999999999999999999/999999999999999999",
    ] {
        assert_eq!(Nm::parse(text).unwrap_err().code, Code::OutOfRange, "{text}");
    }
}

#[test]
fn sums_end_far_beyond_the_range() {
    let most = (0..100).fold(Nm::MAX, |sum, _| sum + sum);
    assert_eq!(most, most + Nm::MAX);
    assert_eq!(most, Nm::ZERO - (Nm::ZERO - most));
}

proptest! {
    #[test]
    fn shown_and_read_back_is_the_same(nm in -10_000_000_000i64..=10_000_000_000) {
        let length = Nm::new(nm).unwrap();
        prop_assert_eq!(Nm::parse(&length.to_string()), Ok(length));
        prop_assert_eq!(Nm::from_mm(length.mm()), Ok(length));
    }

    #[test]
    fn any_text_gives_a_value_or_an_error(text in "\\PC*") {
        let _ = Nm::parse(&text);
    }

    #[test]
    fn numbers_of_all_lengths_give_a_value_or_an_error(a in "[0-9]{1,19}", b in "[0-9]{1,19}", form in 0usize..4, unit in prop::sample::select(&["um", "", "m", "ft", "in"])) {
        let text = [format!("{a}.{b}{unit}"), format!("{a}/{b}{unit}"), format!("{a} {b}/{a}{unit}"), format!("{a} 1/{b}{unit}")];
        if let Ok(length) = Nm::parse(&text[form]) {
            prop_assert!(length >= Nm::MIN && length <= Nm::MAX);
        }
    }

    #[test]
    fn sixty_fourths_of_an_inch_are_exact(n in 0i64..1000) {
        prop_assert_eq!(Nm::parse(&format!("{n}/64 in")).unwrap().nm(), n * 396_875);
    }
}
