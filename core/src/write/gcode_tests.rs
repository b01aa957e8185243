use std::string::{String, ToString};
use std::vec::Vec;

use proptest::prelude::*;

use super::*;
use crate::bounds::MM;
use crate::kind::LineKind;
use crate::write::Fixed;

fn at(x: i64, y: i64) -> Point {
    Point::raw(x, y)
}

fn spec(cutter: Cutter) -> GcodeSpec {
    GcodeSpec { cutter, feed: 10 * MM, plunge: 2 * MM, height: Nm::raw(2 * MM), dynamic: false, speed: 12_000 }
}

fn blade() -> Cutter {
    Cutter::blade(Nm::ZERO, Nm::raw(250_000)).unwrap()
}

fn line(from: Point, to: Point) -> Move {
    Move { from, to, centre: None, clockwise: true }
}

fn lower(depth: i64) -> Action {
    Action::Lower { depth: Nm::raw(depth), power: 800 * MM }
}

/// The lines of a file, without comments.
fn written(spec: &GcodeSpec, title: &str, actions: &[Action]) -> Result<Vec<String>, Error> {
    let mut file = Gcode::begin(Vec::new(), spec, title)?;
    actions.iter().try_for_each(|action| file.act(action))?;
    let text = String::from_utf8(file.end()?).unwrap();
    assert!(text.is_ascii() && text.lines().all(|line| line.len() <= 128));
    Ok(text.lines().filter(|line| !line.starts_with('(') || line.starts_with("(MSG")).map(String::from).collect())
}

/// A move down, along and up.
fn one(way: Move) -> [Action; 4] {
    [Action::Travel(way.from), lower(2 * MM), Action::Cut(way), Action::Lift]
}

#[test]
fn a_blade_goes_down_and_up() {
    let lines = written(&spec(blade()), "t", &one(line(at(0, 0), at(10 * MM, 5_250_000)))).unwrap();
    let wanted =
        ["M5", "G17 G21 G40 G49 G80 G90 G94", "G0 Z2", "G0 X0 Y0", "G1 Z-2 F120", "G1 X10 Y5.25 F600", "G0 Z2", "M5", "G0 Z2", "G0 X0 Y0", "M2"];
    assert_eq!(lines, wanted);
}

#[test]
fn a_beam_has_no_height_and_is_off_in_between() {
    let beam = Cutter::beam(Nm::raw(180_000)).unwrap();
    let way = line(at(MM, MM), at(10 * MM, MM));
    let lines = written(&spec(beam), "t", &one(way)).unwrap();
    assert_eq!(lines[2..], ["G0 X1 Y1", "M3 S800", "G1 X10 F600", "M5", "M5", "G0 X0 Y0", "M2"]);
    let dynamic = GcodeSpec { dynamic: true, ..spec(beam) };
    assert_eq!(written(&dynamic, "t", &one(way)).unwrap()[3], "M4 S800");
}

#[test]
fn a_bit_turns_before_it_moves_and_after_a_pause() {
    let bit = Cutter::bit(Nm::raw(3 * MM)).unwrap();
    let way = line(at(0, 0), at(10 * MM, 0));
    let ramp = Action::Ramp { way, depth: Nm::raw(1_500_000) };
    let lines =
        written(&spec(bit), "t", &[Action::Travel(way.from), lower(0), ramp, Action::Cut(way.reversed()), Action::Lift, Action::Pause]).unwrap();
    assert_eq!(lines[2..5], ["G0 Z2", "M3 S12000", "G4 P2"]);
    assert_eq!(lines[6..10], ["G1 Z0 F120", "G1 X10 Z-1.5", "G1 X0 F600", "G0 Z2"]);
    assert_eq!(lines[10..16], ["M5", "(MSG, look at board and tape, then go on)", "M0", "G0 Z2", "M3 S12000", "G4 P2"]);
}

/// The operator may move the tool out of the way to look at the board.
#[test]
fn after_a_pause_the_tool_goes_to_its_place_again() {
    let way = line(at(10 * MM, 10 * MM), at(20 * MM, 10 * MM));
    let first = [Action::Travel(way.from), lower(MM), Action::Cut(way), Action::Cut(way.reversed()), Action::Lift, Action::Pause];
    let again = [first, first].concat();
    let lines = written(&spec(blade()), "t", &again).unwrap();
    let paused = lines.iter().position(|line| line == "M0").unwrap();
    assert_eq!(lines[paused + 1..paused + 4], ["G0 Z2", "G0 X10 Y10", "G1 Z-1 F120"]);
    // Down it goes nowhere but where it was sent.
    let lost = [&first[..], &[lower(MM)]].concat();
    assert_eq!(written(&spec(blade()), "t", &lost).unwrap_err().code, Code::OutOfOrder);
}

/// G-1 of the report's section 3.5.3.2: from (7, 7) clockwise to (10, 16) about (10, 11), radius 5.
#[test]
fn arcs_are_in_centre_form() {
    let arc = Move { from: at(7 * MM, 7 * MM), to: at(10 * MM, 16 * MM), centre: Some(at(10 * MM, 11 * MM)), clockwise: true };
    let lines = written(&spec(blade()), "t", &one(arc)).unwrap();
    assert_eq!(lines[5], "G2 X10 Y16 I3 J4 F600");
    let back = written(&spec(blade()), "t", &one(arc.reversed())).unwrap();
    assert_eq!(back[5], "G3 X7 Y7 I0 J-5 F600");
}

#[test]
fn small_arcs_never_come_out_as_circles() {
    for (from, to, centre) in [
        // Ends that round to one point, to each other's side, and a tiny circle.
        (at(10 * MM, 0), at(10 * MM, 40), at(0, 0)),
        (at(10 * MM, 0), at(10 * MM, 160), at(0, 0)),
        (at(1_000, 0), at(-1_000, 0), at(0, 0)),
    ] {
        for clockwise in [true, false] {
            let lines = written(&spec(blade()), "t", &one(Move { from, to, centre: Some(centre), clockwise })).unwrap();
            assert!(!lines.iter().any(|line| line.starts_with("G2 ") || line.starts_with("G3 ")), "{lines:?}");
        }
    }
}

#[test]
fn what_is_out_of_order_is_refused() {
    let way = line(at(0, 0), at(MM, 0));
    let elsewhere = line(at(5 * MM, 0), at(MM, 0));
    for actions in [
        &[Action::Cut(way)][..],
        &[lower(MM)],
        &[Action::Travel(way.from), Action::Cut(way)],
        &[Action::Travel(way.from), lower(MM), Action::Travel(way.to)],
        &[Action::Travel(way.from), lower(MM), Action::Cut(elsewhere)],
        &[Action::Travel(way.from), lower(MM), Action::Lift, Action::Cut(way)],
        &[Action::Travel(way.from), lower(MM), Action::Pause],
    ] {
        assert_eq!(written(&spec(blade()), "t", actions).unwrap_err().code, Code::OutOfOrder, "{actions:?}");
    }
    // A tool that was left down goes up before the end.
    let left = written(&spec(blade()), "t", &[Action::Travel(way.from), lower(MM)]).unwrap();
    assert_eq!(left[4..7], ["G1 Z-1 F120", "G0 Z2", "M5"]);
}

#[test]
fn bad_numbers_are_refused() {
    let refused = |spec: GcodeSpec| Gcode::begin(Vec::new(), &spec, "t").unwrap_err().to_string();
    let good = spec(blade());
    assert_eq!(refused(GcodeSpec { feed: 0, ..good }), "feed: 0 mm/s given, allowed 0.001 mm/s to 10000 mm/s");
    assert_eq!(refused(GcodeSpec { plunge: 0, ..good }), "plunge: 0 mm/s given, allowed 0.001 mm/s to 10000 mm/s");
    assert_eq!(refused(GcodeSpec { height: Nm::ZERO, ..good }), "height: 0 mm given, allowed 0.1 mm to 200 mm");
    assert_eq!(refused(GcodeSpec { speed: 0, ..good }), "speed: 0 given, allowed 1 to 1000000");
    let act = |action: Action| {
        let mut file = Gcode::begin(Vec::new(), &spec(Cutter::beam(Nm::ZERO).unwrap()), "t").unwrap();
        file.act(&Action::Travel(at(0, 0))).unwrap();
        file.act(&lower(0)).unwrap();
        file.act(&action).unwrap_err().to_string()
    };
    let way = line(at(0, 0), at(MM, 0));
    assert_eq!(act(Action::Ramp { way, depth: Nm::raw(-1) }), "depth: -0.000001 mm given, allowed 0 mm to 300 mm");
    assert_eq!(act(lower(301 * MM)), "depth: 301 mm given, allowed 0 mm to 300 mm");
    assert_eq!(act(Action::Lower { depth: Nm::ZERO, power: -1 }), "power: -0.000001 given, allowed 0 to 1000000");
    let mut memory = [0; 40];
    assert_eq!(Gcode::begin(Fixed::new(&mut memory), &good, "t").unwrap_err().code, Code::SinkFull);
}

#[test]
fn no_title_and_no_note_breaks_the_file() {
    for title in [
        "]]>",
        "<b>",
        "a\nG0 Z-99",
        "100 % ) G1 X5 (",
        "MSG, x",
        "; G1",
        "stop! ~ ?",
        "#1=2 [5] /",
        "\u{0}\u{7f}",
        "Kästchen 日本",
        &"x".repeat(1000),
    ] {
        let mut file = Gcode::begin(Vec::new(), &spec(blade()), title).unwrap();
        file.note(title).unwrap();
        let text = String::from_utf8(file.end().unwrap()).unwrap();
        let odd = |line: &&str| line.starts_with('(') && !(line.ends_with(')') && line.matches(['(', ')', '%', ';']).count() == 2);
        assert_eq!(text.lines().find(odd), None);
        assert!(!text.contains("(MSG") && !text.contains(['!', '~', '?']) && !text.contains("(x") && text.is_ascii());
        let code: Vec<&str> = text.lines().filter(|line| !line.starts_with('(')).collect();
        assert_eq!(code, ["M5", "G17 G21 G40 G49 G80 G90 G94", "G0 Z2", "M5", "G0 Z2", "G0 X0 Y0", "M2"]);
    }
}

/// The value of a word of a line.
fn word(line: &str, letter: char) -> Option<f64> {
    line.split(' ').find_map(|word| word.strip_prefix(letter)).map(|text| text.parse().unwrap())
}

proptest! {
    /// What is read back lies within 0.08 micrometres of what was given, and both ends of an arc are as far from its centre as the report asks: 0.002 mm.
    #[test]
    fn points_are_read_back(points in proptest::collection::vec((-20_000_000_000i64..20_000_000_000, -20_000_000_000i64..20_000_000_000), 2..20)) {
        let points: Vec<Point> = points.into_iter().map(|(x, y)| at(x / 2, y / 2)).collect();
        let mut actions = Vec::from([Action::Travel(points[0]), lower(MM), Action::Line(LineKind::CutOuter)]);
        actions.extend(points.windows(2).map(|pair| Action::Cut(line(pair[0], pair[1]))));
        let lines = written(&spec(blade()), "t", &actions).unwrap();
        let (mut x, mut y) = (0.0, 0.0);
        let cuts = lines.iter().filter(|line| line.starts_with("G0 X") || line.starts_with("G1 X") || line.starts_with("G1 Y"));
        for (line, point) in cuts.zip(&points) {
            x = word(line, 'X').unwrap_or(x);
            y = word(line, 'Y').unwrap_or(y);
            prop_assert!((x - point.x.mm()).hypot(y - point.y.mm()) < 80e-6);
        }
    }

    #[test]
    fn arcs_keep_their_radius(radius in 6_000i64..500_000_000, start in 0.0f64..6.3, sweep in 0.0001f64..3.1, x in -1_000_000_000i64..1_000_000_000, clockwise in any::<bool>()) {
        let centre = at(x, 777);
        let on = |angle: f64| at(x + (radius as f64 * angle.cos()).round() as i64, 777 + (radius as f64 * angle.sin()).round() as i64);
        let end = if clockwise { start - sweep } else { start + sweep };
        let arc = Move { from: on(start), to: on(end), centre: Some(centre), clockwise };
        let lines = written(&spec(blade()), "t", &one(arc)).unwrap();
        let (begins, cut) = (&lines[3], &lines[5]);
        if cut.starts_with("G2") || cut.starts_with("G3") {
            let (x0, y0) = (word(begins, 'X').unwrap(), word(begins, 'Y').unwrap());
            let (i, j) = (word(cut, 'I').unwrap(), word(cut, 'J').unwrap());
            let (x1, y1) = (word(cut, 'X').unwrap() - x0 - i, word(cut, 'Y').unwrap() - y0 - j);
            prop_assert!((i.hypot(j) - x1.hypot(y1)).abs() < 0.002);
            let turned = (-i * y1 + j * x1).atan2(-i * x1 - j * y1) * if clockwise { -1.0 } else { 1.0 };
            prop_assert!((turned - sweep).abs() < 0.1, "{turned} {sweep}");
        }
    }
}
