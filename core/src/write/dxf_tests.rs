use std::string::String;
use std::vec::Vec;

use super::*;
use crate::bounds::MM;

fn at(x: i64, y: i64) -> Point {
    Point::raw(x * MM, y * MM)
}

fn written(draw: impl Fn(&mut Dxf<Vec<u8>>)) -> String {
    let mut file = Dxf::begin(Vec::new(), "t").unwrap();
    draw(&mut file);
    String::from_utf8(file.end().unwrap()).unwrap()
}

/// The pairs of group code and value.
fn pairs(text: &str) -> Vec<(i32, &str)> {
    let lines: Vec<&str> = text.split("\r\n").collect();
    lines.chunks(2).filter(|pair| pair.len() == 2).map(|pair| (pair[0].parse().unwrap(), pair[1])).collect()
}

#[test]
fn lines_are_polylines_on_the_layer_of_their_kind() {
    let square = [at(0, 0), at(10, 0), at(10, 10), at(0, 10), at(0, 0)];
    let moves: Vec<Move> = square.windows(2).map(|ends| Move { from: ends[0], to: ends[1], centre: None, clockwise: true }).collect();
    let closed = written(|file| file.line(LineKind::CutOuter, true, moves.iter().copied()).unwrap());
    let open = written(|file| file.line(LineKind::CutShared, false, moves[..3].iter().copied()).unwrap());
    for (text, flag, layer) in [(&closed, "1", "cut-outer"), (&open, "0", "cut-shared")] {
        let list = pairs(text);
        let start = list.iter().position(|pair| *pair == (0, "POLYLINE")).unwrap();
        assert_eq!(list[start + 1..start + 7], [(8, layer), (66, "1"), (10, "0"), (20, "0"), (30, "0"), (70, flag)]);
        assert_eq!(list.iter().filter(|pair| **pair == (0, "VERTEX")).count(), 4);
        assert_eq!(list[list.len() - 2..], [(0, "ENDSEC"), (0, "EOF")]);
    }
    let none = written(|file| file.line(LineKind::Mark, true, []).unwrap());
    assert!(!none.contains("POLYLINE"));
}

/// The bulge is the tangent of a quarter of the angle: 1 for half a circle, sqrt(2) - 1 for a quarter (the format's reference; from memory).
#[test]
fn arcs_are_bulges() {
    let quarter = Move { from: at(5, 0), to: at(0, 5), centre: Some(at(0, 0)), clockwise: false };
    let half = Move { from: at(5, 0), to: at(-5, 0), centre: Some(at(0, 0)), clockwise: true };
    for (arc, bulge) in [(quarter, 2f64.sqrt() - 1.0), (quarter.reversed(), 1.0 - 2f64.sqrt()), (half, -1.0), (half.reversed(), 1.0)] {
        let text = written(|file| file.line(LineKind::CutInner, false, [arc]).unwrap());
        let written: f64 = pairs(&text).into_iter().find(|pair| pair.0 == 42 && pair.1 != "3").unwrap().1.parse().unwrap();
        assert!((written - bulge).abs() < 1e-11, "{written} {bulge}");
    }
}

#[test]
fn no_label_and_no_title_breaks_the_file() {
    for label in ["]]>", "<b>", "a\r\n0\r\nEOF", "50 %", "%%d", "^M", "a\\Pb", "Käse", "日本", "🙂", "\u{0}", &"x".repeat(5000)] {
        let mut file = Dxf::begin(Vec::new(), label).unwrap();
        file.label(label, at(1, 2), Nm::raw(5 * MM)).unwrap();
        let text = String::from_utf8(file.end().unwrap()).unwrap();
        assert!(text.is_ascii() && text.matches("EOF").count() <= 3 && text.ends_with("0\r\nENDSEC\r\n0\r\nEOF\r\n"));
        let list = pairs(&text);
        assert_eq!(list.iter().filter(|pair| **pair == (0, "EOF")).count(), 1);
        assert_eq!(list.iter().filter(|pair| **pair == (0, "TEXT")).count(), 1);
        assert!(text.split("\r\n").all(|line| !line.contains(['\r', '\n'])));
    }
    let text = written(|file| file.label("50 %%d é", at(1, 2), Nm::raw(5 * MM)).unwrap());
    assert!(text.contains("\r\n1\r\n50 %%%%%%d \\U+00E9\r\n"));
}

#[test]
fn a_full_sink_is_told() {
    let mut memory = [0; 100];
    assert_eq!(Dxf::begin(crate::Fixed::new(&mut memory), "t").unwrap_err().code, crate::Code::SinkFull);
}
