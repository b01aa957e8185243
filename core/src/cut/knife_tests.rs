use std::vec::Vec;

use proptest::prelude::*;

use super::*;

#[path = "knife_panels_tests.rs"]
mod panels;

use crate::cut::{Contour, Entry};
use crate::joint::{Role, Vertex};
use crate::kind::LineKind;

const L: f64 = 0.25;

fn knife(trail: f64) -> Knife {
    Knife::new(KnifeSpec::new(Nm::from_mm(trail).unwrap())).unwrap()
}

fn at(x: f64, y: f64) -> Point {
    Point::new(Nm::from_mm(x).unwrap(), Nm::from_mm(y).unwrap())
}

/// The straight line through these points in mm; round to the first again if it is closed.
fn line(points: &[(f64, f64)], closed: bool) -> Vec<Move> {
    let mut points: Vec<Point> = points.iter().map(|&(x, y)| at(x, y)).collect();
    if closed {
        points.push(points[0]);
    }
    points.windows(2).map(|ends| Move { from: ends[0], to: ends[1], centre: None, clockwise: false }).collect()
}

fn circle(radius: f64, clockwise: bool) -> Vec<Move> {
    let half = |from: f64| Move { from: at(from, 0.0), to: at(-from, 0.0), centre: Some(at(0.0, 0.0)), clockwise };
    Vec::from([half(radius), half(-radius)])
}

fn axis(knife: &Knife, moves: &[Move], closed: bool) -> Vec<AxisMove> {
    let list: Vec<AxisMove> = knife.follow(moves.iter().copied(), closed, None).collect();
    assert!(list.windows(2).all(|pair| pair[0].way.to == pair[1].way.from));
    assert!(list.iter().all(|axis| axis.way.from != axis.way.to));
    list
}

fn mm(point: Point) -> (f64, f64) {
    (point.x.mm(), point.y.mm())
}

/// Where a move is after this part of it.
fn place(way: &Move, part: f64) -> (f64, f64) {
    let ((x0, y0), (x1, y1)) = (mm(way.from), mm(way.to));
    let Some(centre) = way.centre.map(mm) else { return (x0 + part * (x1 - x0), y0 + part * (y1 - y0)) };
    let (a, b) = ((y0 - centre.1).atan2(x0 - centre.0), (y1 - centre.1).atan2(x1 - centre.0));
    let full = 2.0 * PI;
    let sweep = if way.clockwise { -((a - b).rem_euclid(full)) } else { (b - a).rem_euclid(full) };
    let radius = (x0 - centre.0).hypot(y0 - centre.1);
    (centre.0 + radius * (a + part * sweep).cos(), centre.1 + radius * (a + part * sweep).sin())
}

/// The tip's track by a fourth-order Runge-Kutta integration of what a rod does whose rear end cannot move sideways: `θ' = (-sin θ X' + cos θ Y') / l`.
fn track(moves: &[AxisMove], trail: f64, heading: f64, step: f64) -> Vec<(f64, f64)> {
    let mut theta = heading;
    let mut tips = Vec::new();
    for axis in moves {
        let count = (axis.way.length() as f64 / 1e6 / step).ceil().max(1.0) as usize;
        for number in 0..count {
            let part = |more: f64| place(&axis.way, (number as f64 + more) / count as f64);
            let speed = |more: f64| {
                let (e, (a, b)) = (1e-3, (part(more - 5e-4), part(more + 5e-4)));
                ((b.0 - a.0) / e, (b.1 - a.1) / e)
            };
            let turn = |theta: f64, (x, y): (f64, f64)| (-theta.sin() * x + theta.cos() * y) / trail;
            let (v0, v1, v2) = (speed(0.0), speed(0.5), speed(1.0));
            let k1 = turn(theta, v0);
            let k2 = turn(theta + k1 / 2.0, v1);
            let k3 = turn(theta + k2 / 2.0, v1);
            let k4 = turn(theta + k3, v2);
            theta += (k1 + 2.0 * k2 + 2.0 * k3 + k4) / 6.0;
            let (x, y) = part(1.0);
            tips.push((x - trail * theta.cos(), y - trail * theta.sin()));
        }
    }
    tips
}

/// How far a point is from the nearest of the moves.
fn away(moves: &[Move], (x, y): (f64, f64)) -> f64 {
    let one = |way: &Move| {
        let ((x0, y0), (x1, y1)) = (mm(way.from), mm(way.to));
        let ends = (x - x0).hypot(y - y0).min((x - x1).hypot(y - y1));
        if let Some((cx, cy)) = way.centre.map(mm) {
            let radius = (x0 - cx).hypot(y0 - cy);
            return ends.min(((x - cx).hypot(y - cy) - radius).abs());
        }
        let (dx, dy) = (x1 - x0, y1 - y0);
        let part = ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy);
        if (0.0..=1.0).contains(&part) { ends.min((x - x0 - part * dx).hypot(y - y0 - part * dy)) } else { ends }
    };
    moves.iter().map(one).fold(f64::INFINITY, f64::min)
}

/// How far the tip gets from the line, and how near it comes to the corner that it misses most, by steps of so many millimetres.
fn strays(knife: &Knife, moves: &[Move], closed: bool, step: f64) -> (f64, f64) {
    let trail = knife.spec().trail.mm();
    let list = axis(knife, moves, closed);
    let ways: Vec<Move> = moves.iter().copied().filter(|way| way.from != way.to).collect();
    let first = Heading::at(&ways[0], ways[0].from);
    let tips = track(&list, trail, first.y.atan2(first.x), step);
    let far = tips.iter().map(|&tip| away(&ways, tip)).fold(0.0, f64::max);
    let missed = ways.iter().map(|way| {
        let (x, y) = mm(way.to);
        tips.iter().map(|tip| (tip.0 - x).hypot(tip.1 - y)).fold(f64::INFINITY, f64::min)
    });
    (far, missed.fold(0.0, f64::max))
}

/// Dunbar, Bosman, Nooij, "The Track of a Bicycle Back Tire": a rear wheel on a circle of radius r has its front wheel on one of sqrt(r² + l²).
#[test]
fn a_circle_is_led_from_a_larger_one() {
    for clockwise in [false, true] {
        let list = axis(&knife(L), &circle(10.0, clockwise), false);
        assert_eq!(list.len(), 2);
        for end in [list[0].way.from, list[0].way.to, list[1].way.to] {
            let (x, y) = mm(end);
            assert!((x.hypot(y) - 10.003_124_511_6).abs() < 1e-6);
        }
        assert!(list.iter().all(|axis| axis.way.centre == Some(at(0.0, 0.0)) && axis.way.clockwise == clockwise && !axis.swivel));
    }
}

/// The arc about a corner of 90 degrees at a trail of 0.25 is 0.3926990817 mm long, and a square's four add 1.5707963268 mm (arithmetic: l φ).
#[test]
fn corners_are_turned_about_the_tip() {
    let square = line(&[(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)], true);
    let list = axis(&knife(L), &square, true);
    let turns: Vec<&AxisMove> = list.iter().filter(|axis| axis.swivel).collect();
    assert_eq!(turns.len(), 4);
    assert!(turns.iter().all(|axis| (axis.way.length() - 392_699).abs() <= 1 && !axis.way.clockwise));
    let total: i64 = list.iter().map(|axis| axis.way.length()).sum();
    assert_eq!(total, 80_000_000 + 4 * 392_699 + 500_000);
}

/// Mamikon: the area between the tracks of front and rear wheel over a whole turn is that of the circle of the bicycle's length: π l².
#[test]
fn the_area_between_axis_and_tip_is_that_of_a_circle() {
    let convex: [&[(f64, f64)]; 4] = [
        &[(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)],
        &[(0.0, 0.0), (30.0, 0.0), (7.0, 19.0)],
        &[(0.0, 0.0), (11.0, -3.0), (19.0, 4.0), (17.5, 13.0), (6.0, 17.0), (-3.0, 8.0)],
        &[(0.0, 0.0), (0.1, 0.0), (0.15, 0.05), (0.1, 0.1), (0.0, 0.1)],
    ];
    let spec = KnifeSpec { overcut: Nm::raw(1), swivel_above: 0, ..KnifeSpec::new(Nm::from_mm(L).unwrap()) };
    let turning = Knife::new(spec).unwrap();
    for points in convex {
        let list = axis(&turning, &line(points, true), true);
        // The corner at the start is turned at the end.
        let area: f64 = list.iter().map(|axis| swept(&axis.way)).sum();
        let inside: f64 = line(points, true).iter().map(swept).sum();
        assert!((area - inside - PI * L * L).abs() < 5e-5, "{} {points:?}", area - inside);
    }
}

/// The area under a move as seen from the origin.
fn swept(way: &Move) -> f64 {
    let points: Vec<(f64, f64)> = (0..=200).map(|step| place(way, f64::from(step) / 200.0)).collect();
    let chords: f64 = points.windows(2).map(|pair| (pair[0].0 * pair[1].1 - pair[1].0 * pair[0].1) / 2.0).sum();
    let sagittas = way.centre.map_or(0.0, |_| {
        let (arc, count) = (way.arc().unwrap(), 200.0);
        let (radius, angle) = (arc.radius().mm(), arc.angle());
        count * radius * radius * (angle / count - (angle / count).sin()) / 2.0 * if way.clockwise { -1.0 } else { 1.0 }
    });
    chords + sagittas
}

#[test]
fn the_tip_follows_all_kinds_of_lines() {
    let finger = [(0.0, 0.0), (8.0, 0.0), (8.0, 2.5), (16.0, 2.5), (16.0, 0.0), (24.0, 0.0), (24.0, 30.0), (0.0, 30.0)];
    let slanted = [(0.0, 0.0), (8.0, 0.0), (7.5, 4.0), (16.0, 4.0), (15.5, 0.0), (24.0, 0.0), (24.0, 30.0), (0.0, 30.0)];
    // Into a relief and back by the same way.
    let relief = [(0.0, 0.0), (10.0, 0.0), (9.0, 1.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];
    // Steps shorter than the trail.
    let steps = [(0.0, 0.0), (5.0, 0.0), (5.0, 0.1), (5.1, 0.1), (5.1, 0.2), (5.2, 0.2), (5.2, 5.0), (0.0, 5.0)];
    for points in [&finger[..], &slanted, &relief, &steps] {
        for trail in [0.25, 0.9] {
            let (far, missed) = strays(&knife(trail), &line(points, true), true, 0.002);
            assert!(far < 0.001 && missed < 0.003, "{far} {missed} {points:?}");
        }
    }
    for clockwise in [false, true] {
        let (far, missed) = strays(&knife(L), &circle(2.0, clockwise), true, 0.002);
        assert!(far < 0.0005 && missed < 0.003, "{far} {missed}");
    }
}

#[test]
fn what_is_taken_in_passing_costs_what_is_said() {
    for (sides, radius, trail) in [(40, 10.0, 0.25), (72, 10.0, 0.25), (72, 3.0, 0.25), (40, 0.5, 0.9), (200, 5.0, 0.25)] {
        let corner = |number: i32| {
            let angle = 2.0 * PI * f64::from(number) / f64::from(sides);
            (radius * angle.cos(), radius * angle.sin())
        };
        let points: Vec<(f64, f64)> = (0..sides).map(corner).collect();
        let moves = line(&points, true);
        let said = knife(trail).deviation(moves.iter().copied(), true).mm();
        let (far, _) = strays(&knife(trail), &moves, true, 0.002);
        assert!(axis(&knife(trail), &moves, true).iter().all(|axis| !axis.swivel));
        assert!(far <= said + 2e-6 && said < 0.02, "{sides}: {far} measured, {said} said");
        assert!(said < 0.0005 || said < 20.0 * far, "{sides}: {far} measured, {said} said");
    }
    let bend = line(&[(0.0, 0.0), (10.0, 0.0), (17.0, 7.0)], false);
    let wide = Knife::new(KnifeSpec { swivel_above: 60 * MM, ..KnifeSpec::new(Nm::from_mm(1.0).unwrap()) }).unwrap();
    let (said, (far, _)) = (wide.deviation(bend.iter().copied(), false).mm(), strays(&wide, &bend, false, 0.002));
    assert!(far > 0.01 && far <= said && said < 2.5 * far, "{far} measured, {said} said");
    assert_eq!(knife(L).deviation(line(&[(0.0, 0.0), (10.0, 0.0), (10.0, 7.0)], true).into_iter(), true), Nm::ZERO);
}

#[test]
fn a_closed_line_is_overcut() {
    let short = line(&[(0.0, 0.0), (0.2, 0.0), (0.2, 0.2), (10.0, 0.2), (10.0, 10.0), (0.0, 10.0)], true);
    let list = axis(&knife(L), &short, true);
    // 0.5 mm from the start: 0.2, 0.2 and 0.1.
    let tail: Vec<(i64, bool)> = list[list.len() - 6..].iter().map(|axis| (axis.way.length(), axis.swivel)).collect();
    assert_eq!(tail, [(392_699, true), (200_000, false), (392_699, true), (200_000, false), (392_699, true), (100_000, false)]);
    assert!(list[list.len() - 2].way.clockwise);
    // Along an arc.
    let list = axis(&knife(L), &circle(2.0, true), true);
    assert_eq!(list.len(), 3);
    assert!((list[2].way.length() - (0.5e6 / 2.0 * 2.0f64.hypot(L)) as i64).abs() < 10);
    // Of a line shorter than the overcut it ends at its end.
    let tiny = line(&[(0.0, 0.0), (0.1, 0.0), (0.0, 0.1)], true);
    assert_eq!(axis(&knife(L), &tiny, true).last().unwrap().way.to, axis(&knife(L), &tiny, false).last().unwrap().way.to);
    // Without one the blade stays as it arrived, and open lines have none.
    let none = Knife::new(KnifeSpec { overcut: Nm::ZERO, ..knife(L).spec() }).unwrap();
    assert_eq!(axis(&none, &short, true), axis(&knife(L), &short, false));
    assert_eq!(axis(&knife(L), &short, false).last().unwrap().way.to, at(0.0, -0.25));
}

#[test]
fn the_blade_is_turned_into_the_first_direction() {
    let moves = line(&[(0.0, 0.0), (0.0, 10.0)], false);
    let mut follow = knife(L).follow(moves.iter().copied(), false, Some(at(L, 0.0)));
    assert_eq!(follow.start(), Some(at(0.25, 0.0)));
    let turn = follow.next().unwrap();
    assert_eq!((turn.way.from, turn.way.to, turn.way.centre, turn.swivel), (at(0.25, 0.0), at(0.0, 0.25), Some(at(0.0, 0.0)), true));
    assert_eq!(follow.next().unwrap().way.to, at(0.0, 10.25));
    assert_eq!((follow.next(), follow.offset()), (None, Some(at(0.0, 0.25))));
    // Told nothing, it points there already.
    assert_eq!(knife(L).follow(moves.iter().copied(), false, None).start(), Some(at(0.0, 0.25)));
}

#[test]
fn without_a_trail_the_axis_is_the_tip() {
    let mut moves = line(&[(0.0, 0.0), (5.0, 0.0), (5.0, 0.0), (5.0, 5.0)], false);
    let list = axis(&knife(0.0), &moves, false);
    moves.remove(1);
    assert_eq!(list.iter().map(|axis| axis.way).collect::<Vec<_>>(), moves);
    assert_eq!(knife(0.0).follow(core::iter::empty(), true, None).start(), None);
}

#[test]
fn bad_numbers_are_refused() {
    let spec = KnifeSpec::new(Nm::from_mm(0.25).unwrap());
    let refused = |spec| std::string::ToString::to_string(&Knife::new(spec).unwrap_err());
    assert_eq!(refused(KnifeSpec { trail: Nm::from_mm(21.0).unwrap(), ..spec }), "trail: 21 mm given, allowed 0 mm to 20 mm");
    assert_eq!(refused(KnifeSpec { overcut: Nm::from_mm(-1.0).unwrap(), ..spec }), "overcut: -1 mm given, allowed 0 mm to 20 mm");
    assert_eq!(refused(KnifeSpec { swivel_above: 91 * MM, ..spec }), "swivel above: 91 deg given, allowed 0 deg to 90 deg");
}

proptest! {
    #[test]
    fn the_tip_is_where_it_should_be_at_every_corner(points in proptest::collection::vec((0i64..40, 0i64..40), 2..12), trail in 0.0f64..3.0, reversed in any::<bool>()) {
        let vertex = |&(x, y): &(i64, i64)| (Vertex { at: Point::raw(x * MM / 2, y * MM / 2), role: Role::Free }, None);
        let line = Contour::closed(LineKind::CutOuter, points.iter().map(vertex));
        let moves: Vec<Move> = line.walk(Entry::Point(0), reversed).collect();
        let list = axis(&knife(trail), &moves, true);
        // What is no turn runs parallel to the line, a trail ahead of it.
        let ways: Vec<&Move> = moves.iter().filter(|way| way.from != way.to).collect();
        let straight: Vec<&AxisMove> = list.iter().filter(|axis| axis.way.centre.is_none()).collect();
        let chord = |axis: &&&AxisMove| ways.iter().any(|way| (way.length() - axis.way.length()).abs() <= 2);
        prop_assert!(ways.is_empty() || straight.iter().filter(chord).count() >= ways.len());
        for axis in list.iter().filter(|axis| axis.swivel) {
            let centre = axis.way.centre.unwrap();
            prop_assert!(moves.iter().any(|way| way.to == centre));
            for end in [axis.way.from, axis.way.to] {
                let distance = (end.x - centre.x).mm().hypot((end.y - centre.y).mm());
                prop_assert!((distance - knife(trail).spec().trail.mm()).abs() < 2e-6);
            }
        }
    }
}
