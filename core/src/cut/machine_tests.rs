use std::vec::Vec;

use proptest::prelude::*;

use super::{Machine, MachineSpec, corner_speed, trapezoid};
use crate::cut::contour::Contour;
use crate::cut::moves::Move;
use crate::cut::route::{Route, RouteSpec};
use crate::joint::{Role, Vertex};
use crate::{Code, LineKind, Nm, Point, bounds};

const MM: i64 = 1_000_000;

fn spec(feed: i64, acceleration: i64, deviation_um: i64) -> MachineSpec {
    let deviation = Nm::raw(deviation_um * 1000);
    MachineSpec { feed: feed * MM, travel: 2 * feed * MM, acceleration: acceleration * MM, deviation, lift: 0, swivel: 0 }
}

fn near(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance, "{a} {b}");
}

fn chain(points: &[(i64, i64)], closed: bool) -> Contour {
    let points = points.iter().map(|&(x, y)| (Vertex { at: Point::raw(x, y), role: Role::Free }, None));
    Contour { closed, ..Contour::closed(LineKind::CutOuter, points) }
}

fn straight(mm: i64) -> [Move; 1] {
    [Move { from: Point::raw(0, 0), to: Point::raw(mm * MM, 0), centre: None, clockwise: true }]
}

/// Kinematics: t = d/v + v/a where d >= v^2/a, else 2 sqrt(d/a). Derived from the phases that linearmotiontips.com and firgelliauto.com state.
#[test]
fn straight_moves_are_trapezoids() {
    let seconds = |d, v, a| Machine::new(spec(v, a, 0)).unwrap().seconds_along(straight(d).into_iter());
    near(seconds(100, 50, 500), 2.1, 1e-9);
    near(seconds(4, 50, 500), 0.178885438, 1e-9);
    near(seconds(5, 50, 500), 0.2, 1e-9);
    near(seconds(300, 400, 3000), 0.883333, 5e-7);
    near(seconds(10, 400, 3000), 0.115470, 5e-7);
    // Peaks of the short ones: the limit that just does not matter.
    for (d, a, peak) in [(4.0, 500.0, 44.7213595), (10.0, 3000.0, 173.205081)] {
        near(trapezoid(d, [0.0; 2], peak * (1.0 + 1e-8), a), trapezoid(d, [0.0; 2], f64::MAX, a), 1e-12);
        assert!(trapezoid(d, [0.0; 2], peak * 0.999, a) > trapezoid(d, [0.0; 2], f64::MAX, a));
    }
}

/// The circle that touches both edges and comes within 0.01 mm of the corner; v^2 = a R.
#[test]
fn corners_have_a_speed() {
    let table = [
        (60.0, 0.01, 2.236068),
        (90.0, 0.0241421, 3.474344),
        (120.0, 0.0646410, 5.685113),
        (135.0, 0.1213707, 7.790081),
        (150.0, 0.2834773, 11.905406),
    ];
    for (degrees, radius, speed) in table {
        let found = corner_speed(f64::to_radians(degrees), 0.01, 500.0);
        near(found, speed, 5e-7);
        near(found * found / 500.0, radius, 2e-7);
    }
    assert_eq!(corner_speed(0.0, 0.01, 500.0), 0.0, "back the same way");
    assert_eq!(corner_speed(core::f64::consts::PI, 0.01, 500.0), f64::INFINITY, "straight on");
}

#[test]
fn a_right_angle_in_a_line_is_taken_at_its_speed() {
    let machine = Machine::new(spec(50, 500, 10)).unwrap();
    let line = chain(&[(0, 0), (100 * MM, 0), (100 * MM, 100 * MM)], false);
    // Each leg from rest to 50 mm/s and down to the corner's 3.474344 mm/s.
    let v: f64 = 3.474344;
    let leg = (50.0 + 50.0 - v) / 500.0 + (100.0 - (2.0 * 2500.0 - v * v) / 1000.0) / 50.0;
    near(machine.seconds_along(line.edges()), 2.0 * leg, 1e-6);
    // A machine that stops there.
    near(Machine::new(spec(50, 500, 0)).unwrap().seconds_along(line.edges()), 4.2, 1e-9);
    // Half a second for the blade to turn.
    let machine = Machine::new(MachineSpec { swivel: 500_000, ..spec(50, 500, 10) }).unwrap();
    near(machine.seconds_along(line.edges()), 4.7, 1e-9);
}

#[test]
fn points_along_a_straight_way_cost_nothing() {
    let machine = Machine::new(spec(50, 500, 0)).unwrap();
    let line = chain(&[(0, 0), (10 * MM, 0), (10 * MM, 0), (11 * MM, 1), (100 * MM, 0)], false);
    near(machine.seconds_along(line.edges()), 2.1, 1e-6);
}

/// AILU application note 2010: 10.2 m/min around 320 mm is 1.88 s. Without the time to speed up, that is.
#[test]
fn feed_alone_is_length_by_speed() {
    let machine = Machine::new(MachineSpec { feed: 170 * MM, ..spec(170, 1_000_000, 0) }).unwrap();
    near(machine.seconds_along(straight(320).into_iter()), 1.88, 0.01);
}

#[test]
fn a_sheet_is_the_sum_of_its_lines() {
    let machine = Machine::new(MachineSpec { lift: 250_000, ..spec(50, 500, 0) }).unwrap();
    let square = chain(&[(30, 40), (130, 40), (130, 140), (30, 140)].map(|(x, y)| (x * MM, y * MM)), true);
    let open = chain(&[(30, 200), (130, 200)].map(|(x, y)| (x * MM, y * MM)), false);
    let contours = [square, open];
    let route = Route::new(&contours, &RouteSpec::default());
    let travel = |nm| machine.travel_seconds(nm);
    let ways: f64 = route.legs().iter().map(|&leg| travel(leg)).sum();
    near(machine.seconds(&contours, &route, 1).unwrap(), 5.0 * 2.1 + 2.0 * 0.25 + ways, 1e-9);
    near(machine.seconds(&contours, &route, 3).unwrap(), 3.0 * (5.0 * 2.1 + 2.0 * 0.25) + ways + 2.0 * travel(100 * MM), 1e-9);
    for passes in [0, -1, 1001] {
        let error = machine.seconds(&contours, &route, passes).unwrap_err();
        assert_eq!((error.code, error.parameter), (Code::OutOfRange, "passes"));
    }
}

#[test]
fn what_is_no_machine_is_named() {
    let good = spec(50, 500, 10);
    let refused = |spec| Machine::new(spec).unwrap_err().parameter;
    assert_eq!(refused(MachineSpec { feed: 0, ..good }), "feed");
    assert_eq!(refused(MachineSpec { travel: -1, ..good }), "travel speed");
    assert_eq!(refused(MachineSpec { acceleration: 0, ..good }), "acceleration");
    assert_eq!(refused(MachineSpec { deviation: Nm::raw(-1), ..good }), "deviation");
    assert_eq!(refused(MachineSpec { lift: -1, ..good }), "lift");
    assert_eq!(refused(MachineSpec { swivel: i64::MAX, ..good }), "swivel");
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let error = bounds::FEED.from_float(value).unwrap_err();
        assert_eq!(std::string::ToString::to_string(&error), "feed, allowed 0.001 mm/s to 10000 mm/s: NaN and infinity are no amounts");
    }
    for value in [0.0, -1e-12, -5.0, 1e300] {
        assert_eq!(bounds::ACCELERATION.from_float(value).unwrap_err().code, Code::OutOfRange, "{value}");
    }
    assert!(bounds::LIFT.from_float(-1e-12).is_err() && bounds::LIFT.from_float(-0.0).is_ok());
}

/// The same by small steps: the greatest speed at every place along the line, then what can be gained and slowed down from step to step.
fn by_steps(moves: &[Move], feed: f64, acceleration: f64, deviation: f64, steps: usize) -> f64 {
    let way = |edge: &Move, at: Point| {
        let (x, y) = match edge.centre {
            None => ((edge.to.x - edge.from.x).mm(), (edge.to.y - edge.from.y).mm()),
            Some(c) if edge.clockwise => ((at.y - c.y).mm(), (c.x - at.x).mm()),
            Some(c) => ((c.y - at.y).mm(), (at.x - c.x).mm()),
        };
        y.atan2(x)
    };
    let mut speeds = std::vec![0.0];
    let mut widths = Vec::new();
    for (index, edge) in moves.iter().enumerate() {
        let radius = edge.centre.map(|c| (edge.from.x - c.x).mm().hypot((edge.from.y - c.y).mm()));
        let length = match edge.centre {
            None => (edge.to.x - edge.from.x).mm().hypot((edge.to.y - edge.from.y).mm()),
            Some(_) => {
                let swept = (way(edge, edge.to) - way(edge, edge.from)) * if edge.clockwise { -1.0 } else { 1.0 };
                radius.unwrap() * swept.rem_euclid(std::f64::consts::TAU)
            }
        };
        let limit = radius.map_or(feed, |r| feed.min((acceleration * r).sqrt()));
        if index > 0 {
            let turn = (way(edge, edge.from) - way(&moves[index - 1], edge.from)).rem_euclid(std::f64::consts::TAU);
            let turn = turn.min(std::f64::consts::TAU - turn);
            let s = (turn / 2.0).cos();
            let corner = if turn < 0.0175 { f64::MAX } else { (acceleration * deviation * s / (1.0 - s)).sqrt() };
            let last = speeds.last_mut().unwrap();
            *last = f64::min(*last, corner.min(limit));
        }
        for _ in 0..steps {
            widths.push(length / steps as f64);
            speeds.push(limit);
        }
    }
    *speeds.last_mut().unwrap() = 0.0;
    for k in 1..speeds.len() {
        speeds[k] = f64::min(speeds[k], (speeds[k - 1] * speeds[k - 1] + 2.0 * acceleration * widths[k - 1]).sqrt());
    }
    for k in (1..speeds.len()).rev() {
        speeds[k - 1] = f64::min(speeds[k - 1], (speeds[k] * speeds[k] + 2.0 * acceleration * widths[k - 1]).sqrt());
    }
    widths.iter().zip(speeds.windows(2)).map(|(width, pair)| 2.0 * width / (pair[0] + pair[1])).sum()
}

/// Straight edges and arcs one after the other; arcs of a quarter or half a circle.
fn walks() -> impl Strategy<Value = Vec<Move>> {
    prop::collection::vec((-40i64..40, -40i64..40, 0usize..4), 1..15).prop_map(|steps| {
        let mut at = Point::raw(0, 0);
        let mut moves = Vec::new();
        for (dx, dy, kind) in steps {
            let (dx, dy) = (dx * MM / 2, if dx == 0 && dy == 0 { MM } else { dy * MM / 2 });
            // The way from the start to the centre is half the chord, or the chord turned by 45 degrees and shortened.
            let (cx, cy) = if kind == 1 { (dx / 2, dy / 2) } else { ((dx + dy) / 2, (dy - dx) / 2) };
            let centre = (kind == 1 || kind == 2).then_some(Point::raw(at.x.nm() + cx, at.y.nm() + cy));
            let to = Point::raw(at.x.nm() + dx, at.y.nm() + dy);
            moves.push(Move { from: at, to, centre, clockwise: true });
            at = to;
        }
        moves
    })
}

proptest! {
    /// Within a thousandth of what small steps add up to, forwards and backwards.
    #[test]
    fn small_steps_agree(moves in walks(), feed in 1i64..400, acceleration in 10i64..5000, deviation in 0i64..200) {
        let machine = Machine::new(spec(feed, acceleration, deviation)).unwrap();
        for moves in [moves.clone(), moves.iter().rev().map(|edge| edge.reversed()).collect()] {
            let steps = by_steps(&moves, feed as f64, acceleration as f64, deviation as f64 / 1000.0, 2000);
            let seconds = machine.seconds_along(moves.iter().copied());
            prop_assert!((seconds - steps).abs() <= 1e-3 * steps, "{} {}", seconds, steps);
        }
    }

    /// Faster machines take no longer, and no machine is faster than its feed.
    #[test]
    fn more_is_never_slower(moves in walks(), feed in 1i64..400, acceleration in 10i64..5000, deviation in 0i64..200) {
        let seconds = |spec| Machine::new(spec).unwrap().seconds_along(moves.iter().copied());
        let own = seconds(spec(feed, acceleration, deviation));
        for better in [spec(feed + 10, acceleration, deviation), spec(feed, acceleration + 10, deviation), spec(feed, acceleration, deviation + 10)] {
            prop_assert!(seconds(better) <= own * (1.0 + 1e-12));
        }
        let length: i64 = moves.iter().map(|edge| edge.length()).sum();
        prop_assert!(own >= length as f64 / (feed * MM) as f64);
    }
}
