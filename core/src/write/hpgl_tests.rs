use std::string::String;
use std::vec::Vec;

use proptest::prelude::*;

use super::*;
use crate::bounds::MM;
use crate::kind::LineKind;

fn written(actions: &[Action]) -> Result<String, Error> {
    let mut file = Hpgl::begin(Vec::new())?;
    actions.iter().try_for_each(|action| file.act(action))?;
    Ok(String::from_utf8(file.end()?).unwrap())
}

fn straight(from: Point, to: Point) -> Move {
    Move { from, to, centre: None, clockwise: true }
}

const LOWER: Action = Action::Lower { depth: Nm::ZERO, power: 0 };

/// The points of all strokes; the first of each is where the pen went down.
fn read(text: &str) -> Vec<Vec<[i64; 2]>> {
    let drawn = text.rsplit("IN;").next().unwrap();
    let (mut at, mut strokes) = ([0, 0], Vec::new());
    let mut down = false;
    for word in drawn.split(';').map(str::trim).filter(|word| word.starts_with('P')) {
        let (is_down, numbers) = (word.starts_with("PD"), &word[2..]);
        let numbers: Vec<i64> = numbers.split(',').filter(|text| !text.is_empty()).map(|text| text.parse().unwrap()).collect();
        for pair in numbers.chunks(2) {
            if is_down && !down {
                strokes.push(Vec::from([at]));
            }
            down = is_down;
            at = [pair[0], pair[1]];
            if down {
                strokes.last_mut().unwrap().push(at);
            }
        }
        down = is_down;
    }
    strokes
}

/// 100 mm are 4000 units, an inch 1016 (the makers' manuals: 0.025 mm a unit, 40 a millimetre).
#[test]
fn units_are_those_of_the_manuals() {
    let inch = straight(Point::default(), Point::raw(25_400_000, 100 * MM));
    let text = written(&[Action::Travel(inch.from), LOWER, Action::Cut(inch), Action::Lift]).unwrap();
    assert!(text.ends_with("PU0,0;\nPD1016,4000;\nPU;\nPU0,0;\nSP0;\n"));
}

#[test]
fn instructions_stay_short_and_pens_tell_kinds() {
    let mut actions = Vec::from([Action::Line(LineKind::Mark), Action::Travel(Point::default()), LOWER]);
    let points: Vec<Point> = (0..=130).map(|n| Point::raw(n * MM, (n % 2) * MM)).collect();
    actions.extend(points.windows(2).map(|pair| Action::Cut(straight(pair[0], pair[1]))));
    actions.extend([Action::Lift, Action::Line(LineKind::Trim)]);
    let text = written(&actions).unwrap();
    assert!(text.contains("SP1;") && text.contains("SP5;"));
    assert!(text.lines().all(|line| line.matches(',').count() < 2 * POINTS));
    assert_eq!(text.matches("PD").count(), 3);
    assert_eq!(read(&text)[0].len(), 131);
}

#[test]
fn the_cautions_cannot_draw() {
    let text = written(&[]).unwrap();
    let (before, after) = text.split_once("CO").unwrap();
    assert_eq!(before, "IN;SP0;\n");
    let (comments, rest) = after.rsplit_once("IN;").unwrap();
    // Whatever a reader makes of unknown letters, none of them lowers a pen, and there are no numbers to go to.
    assert!(!comments.to_lowercase().contains("pd") && !comments.contains(|letter: char| letter.is_ascii_digit()));
    assert!(comments.lines().all(|line| line.matches('"').count() == 2 && line.ends_with("\";")));
    assert_eq!(rest, "\nPU0,0;\nSP0;\n");
}

#[test]
fn what_is_out_of_order_is_refused() {
    let way = straight(Point::default(), Point::raw(MM, 0));
    for actions in [
        &[Action::Cut(way)][..],
        &[LOWER],
        &[Action::Travel(way.from), Action::Cut(way)],
        &[Action::Travel(way.from), LOWER, Action::Travel(way.to)],
        &[Action::Travel(way.from), LOWER, Action::Line(LineKind::Mark)],
        &[Action::Travel(way.from), LOWER, Action::Pause],
        &[Action::Travel(way.to), LOWER, Action::Cut(way)],
    ] {
        assert_eq!(written(actions).unwrap_err().code, Code::OutOfOrder, "{actions:?}");
    }
    let mut memory = [0; 10];
    assert_eq!(Hpgl::begin(crate::Fixed::new(&mut memory)).unwrap_err().code, Code::SinkFull);
}

proptest! {
    #[test]
    fn points_move_by_half_a_unit_at_most(points in proptest::collection::vec((0i64..2_000_000_000, 0i64..2_000_000_000), 2..80)) {
        let points: Vec<Point> = points.into_iter().map(|(x, y)| Point::raw(x, y)).collect();
        let mut actions = Vec::from([Action::Travel(points[0]), LOWER]);
        actions.extend(points.windows(2).map(|pair| Action::Cut(straight(pair[0], pair[1]))));
        let read = read(&written(&actions).unwrap());
        prop_assert_eq!(read[0].len(), points.len());
        for (point, [x, y]) in points.iter().zip(&read[0]) {
            prop_assert!((point.x.nm() - x * UNIT).abs() <= UNIT / 2 && (point.y.nm() - y * UNIT).abs() <= UNIT / 2);
        }
    }

    #[test]
    fn arcs_are_followed_within_a_unit(radius in 100_000i64..100_000_000, clockwise in any::<bool>()) {
        let (a, b) = (Point::raw(radius, 0), Point::raw(0, radius));
        let (from, to) = if clockwise { (b, a) } else { (a, b) };
        let arc = Move { from, to, centre: Some(Point::default()), clockwise };
        let read = read(&written(&[Action::Travel(from), LOWER, Action::Cut(arc)]).unwrap());
        for pair in read[0].windows(2) {
            for part in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let along = |axis: usize| (pair[0][axis] as f64 * (1.0 - part) + pair[1][axis] as f64 * part) * UNIT as f64;
                // A sixteenth of a unit for the chord, and the rounding of its ends.
                prop_assert!((along(0).hypot(along(1)) - radius as f64).abs() <= UNIT as f64 * 0.78);
            }
        }
    }
}
