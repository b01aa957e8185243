//! The tip on real panels, and on lines of arcs and edges as they come.

use super::*;
use crate::cut::{Cutter, Parts, Reach, Relief};
use crate::{BoxSpec, Fit, Opening};

const STEP: f64 = 0.02;

/// The rings of a box's parts with round, long and square holes in their faces.
fn rings(relief: Option<Relief>) -> Vec<Vec<Move>> {
    let mm = |value: f64| Nm::from_mm(value).unwrap();
    let mut assembly = BoxSpec::outside([mm(50.0), mm(40.0), mm(30.0)], mm(2.5)).assembly().unwrap();
    let names: Vec<std::string::String> = assembly.boards().iter().map(|board| board.name().into()).collect();
    for name in &names {
        assembly.open(name, Opening::round(at(15.0, 15.0), mm(6.0)).unwrap()).unwrap();
        assembly.open(name, Opening::stadium(at(23.0, 15.0), [mm(6.0), mm(2.0)]).unwrap()).unwrap();
    }
    let cutter = Cutter::blade(Nm::ZERO, mm(L)).unwrap();
    let parts = Parts::cut(&assembly.panels().unwrap(), cutter, Fit::EXACT, Nm::ZERO).unwrap();
    let parts = relief.into_iter().fold(parts, |parts, relief| parts.relieve(relief).unwrap());
    let ring = |ring: crate::Ring| Contour::closed(LineKind::CutOuter, ring.bent()).walk(Entry::Point(0), false).collect();
    parts.iter().flat_map(|part| part.path().rings().map(ring).collect::<Vec<_>>()).collect()
}

#[test]
fn the_tip_follows_panels_with_holes_and_reliefs() {
    for relief in [None, Some(Reach::Diagonal), Some(Reach::Flank)] {
        let relief = relief.map(|reach| Relief::new(Nm::from_mm(0.4).unwrap(), reach).unwrap());
        let rings = rings(relief);
        assert!(
            rings.len() == 18
                && rings.iter().any(|ring| ring.iter().filter(|way| way.centre.is_some()).count() > if relief.is_some() { 8 } else { 1 })
        );
        for ring in rings {
            let (far, missed) = strays(&knife(L), &ring, true, STEP);
            let said = knife(L).deviation(ring.iter().copied(), true).mm();
            assert!(far < 0.0005 && missed < 0.0005, "{far} {missed}");
            assert!(far <= said + 2e-5 && said < 0.001, "{far} measured, {said} said");
        }
    }
}

/// An axis on a circle of radius 10 has its tip on one of sqrt(10² - l²).
#[test]
fn an_unled_tip_settles_inside_the_circle() {
    let round = circle(10.0, false).into_iter().map(|way| AxisMove { way, swivel: false });
    let (x, y) = *track(&round.collect::<Vec<_>>(), L, PI / 2.0, 0.002).last().unwrap();
    assert!((x.hypot(y) - 9.996_874_511_6).abs() < 1e-6);
    // So it does where the circle that is to be followed is that one.
    let led = axis(&knife(L), &circle(9.996_874_512, false), false);
    assert!(led.iter().all(|axis| (mm(axis.way.to).0.hypot(mm(axis.way.to).1) - 10.0).abs() < 2e-6));
}

/// Each move by its length or radius, its turn from the one before, and the angle of an arc; 0 for a straight one.
fn chain(pieces: &[(f64, f64, f64)]) -> Vec<Move> {
    let (mut from, mut heading) = (at(0.0, 0.0), 0.0f64);
    let mut moves = Vec::new();
    for &(size, turn, angle) in pieces {
        heading += turn;
        let (x, y) = mm(from);
        let centre = (angle != 0.0).then(|| at(x - size * angle.signum() * heading.sin(), y + size * angle.signum() * heading.cos()));
        let to = match centre.map(mm) {
            Some((cx, cy)) => at(cx + (x - cx) * angle.cos() - (y - cy) * angle.sin(), cy + (x - cx) * angle.sin() + (y - cy) * angle.cos()),
            None => at(x + size * heading.cos(), y + size * heading.sin()),
        };
        heading += angle;
        moves.push(Move { from, to, centre, clockwise: angle < 0.0 });
        from = to;
    }
    moves
}

fn pieces(most: f64) -> impl Strategy<Value = Vec<(f64, f64, f64)>> {
    let angle = prop_oneof![Just(0.0), 0.1..3.0, -3.0..-0.1];
    let turn = prop_oneof![Just(0.0), -most..most];
    proptest::collection::vec((0.05f64..12.0, turn, angle), 1..7)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn turned_at_every_corner_the_tip_is_on_the_line(pieces in pieces(PI), trail in 0.1f64..1.5) {
        let spec = KnifeSpec { swivel_above: 0, ..KnifeSpec::new(Nm::from_mm(trail).unwrap()) };
        let (turning, moves) = (Knife::new(spec).unwrap(), chain(&pieces));
        let (far, missed) = strays(&turning, &moves, false, STEP);
        prop_assert!(far < 0.0005 && missed < 0.0005, "{} {}", far, missed);
        for (way, led) in moves.iter().zip(axis(&turning, &moves, false).iter().filter(|axis| !axis.swivel && axis.way.length() > 2)) {
            let Some(arc) = way.arc() else { continue };
            let wanted = (arc.radius().nm() as f64).hypot(spec.trail.nm() as f64);
            prop_assert!(led.way.arc().is_some_and(|led| led.centre == arc.centre && (led.radius().nm() as f64 - wanted).abs() < 4.0));
        }
    }

    #[test]
    fn what_bends_cost_is_said(pieces in pieces(0.3), trail in 0.1f64..1.5) {
        let wide = Knife::new(KnifeSpec { swivel_above: 25 * MM, ..KnifeSpec::new(Nm::from_mm(trail).unwrap()) }).unwrap();
        let moves = chain(&pieces);
        let (far, _) = strays(&wide, &moves, false, STEP);
        let said = wide.deviation(moves.iter().copied(), false).mm();
        prop_assert!(far <= said + 3e-5, "{} measured, {} said", far, said);
        prop_assert!(said <= 1.1 * far + 0.0003, "{} measured, {} said", far, said);
    }
}
