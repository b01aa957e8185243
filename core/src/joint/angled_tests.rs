use crate::{Angle, Code, Nm};
use std::string::ToString;

fn deg(value: f64) -> Angle {
    Angle::degrees(value).unwrap()
}

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

/// Sines and tangents to six places, from memory of the tables.
#[test]
fn slots_are_as_wide_as_the_shadow() {
    let board = nm(1_000_000);
    for (angle, sine, tangent) in [(30.0, 0.5, 0.577_350), (40.0, 0.642_788, 0.839_100), (60.0, 0.866_025, 1.732_051), (75.0, 0.965_926, 3.732_051)] {
        let expected = 1e6 / sine + 1e6 / tangent;
        for same in [angle, 180.0 - angle, -angle, 180.0 + angle] {
            let width = deg(same).slot_width(board, board).unwrap().nm() as f64;
            assert!((width - expected).abs() < 4.0, "{same}: {width}, not {expected}");
        }
    }
    assert_eq!(deg(270.0).slot_width(nm(2_999_999), nm(5_000_000)), Ok(nm(2_999_999)));
}

#[test]
fn shoulders_and_tips() {
    let board = nm(3_000_000);
    // Three, four, six and twelve sides.
    for (angle, shoulder, tip) in [(60.0, 5_196_153, 1_732_051), (90.0, 3_000_000, 0), (120.0, 2_598_077, 0), (150.0, 1_500_000, 0)] {
        assert_eq!((deg(angle).shoulder(board), deg(angle).tip(board)), (Ok(nm(shoulder)), Ok(nm(tip))), "{angle}");
    }
}

#[test]
fn flat_crossings_and_strange_angles_are_refused() {
    let board = nm(3_000_000);
    let error = deg(14.9).slot_width(board, board).unwrap_err();
    assert_eq!(error.to_string(), "angle between boards: 14.9 deg given, allowed 15 deg to 90 deg");
    assert!(deg(165.0).slot_width(board, board).is_ok() && deg(166.0).shoulder(board).is_err());
    assert_eq!(deg(45.0).slot_width(Nm::ZERO, board).unwrap_err().code, Code::OutOfRange);
    assert_eq!(Angle::degrees(361.0).unwrap_err().to_string(), "turn: 361 deg given, allowed -360 deg to 360 deg");
    assert_eq!(Angle::degrees(f64::INFINITY).unwrap_err().code, Code::NotFinite);
    assert_eq!(Angle::degrees(1e300).unwrap_err().code, Code::OutOfRange);
}

#[test]
fn quarter_turns_are_exact_and_parts_add_up() {
    assert_eq!([0.0, 90.0, 180.0, 270.0, 360.0].map(|d| deg(d).cos_sin()), [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)]);
    for parts in 3..=12 {
        let part = Angle::part(1, parts);
        let sum = (0..parts).fold(Angle::default(), |sum, _| sum - part);
        assert_eq!(sum, Angle::default(), "{parts}");
    }
}
