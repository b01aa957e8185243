//! The formula against the dry fit of what comes out: paths made for one board and cut, cut with the other, put together of the other board.

use std::vec::Vec;

use proptest::prelude::*;

use super::super::offset::offset;
use super::*;
use crate::bounds::MM;
use crate::joint::{Fingers, Halves, Joint};
use crate::{Assembly, Axis, Board, BoxSpec, Cutter, Panel, Parts, Point, Report, Shape, Top, dry_fit_shapes};

/// What the real cut leaves of the paths, in panels whose walls stand out by `more` than was meant.
fn cut(panels: &[Panel], fit: Fit, meant: Making, real: Making, more: i64) -> Option<Vec<Shape>> {
    let parts = Parts::cut(panels, Cutter::beam(meant.kerf).ok()?, fit, Nm::ZERO).ok()?;
    let further = |at: Point| Point::raw(at.x.nm() + more, at.y.nm() + more);
    let loops = |shape: &Shape| shape.loops().map(|ring| ring.iter().map(|vertex| further(vertex.at)).collect::<Vec<_>>()).collect::<Vec<_>>();
    Some(parts.iter().map(|part| Shape::from_loops(loops(&offset(part.path(), -half(real.kerf.nm()))))).collect())
}

fn fitted(assembly: &Assembly, shapes: &[Shape]) -> Report {
    dry_fit_shapes(&assembly.boards().iter().collect::<Vec<&Board>>(), shapes)
}

fn making() -> impl Strategy<Value = Making> {
    (2_500_000i64..3_500_000, 0i64..400_001).prop_map(|(thickness, kerf)| Making { thickness: Nm::raw(thickness), kerf: Nm::raw(kerf) })
}

fn fit() -> impl Strategy<Value = Fit> {
    let allowance = || (-150_000i64..150_000).prop_map(Nm::raw);
    (allowance(), allowance(), allowance()).prop_map(|(flank, cheek, tip)| Fit::new(flank, cheek, tip).unwrap())
}

proptest! {
    #[test]
    fn corners_of_a_box(
        inside in [30 * MM..90 * MM, 30 * MM..90 * MM, 30 * MM..90 * MM], closed: bool, meant in making(), real in making(), fit in fit(),
    ) {
        let spec = |thickness| {
            let mut spec = BoxSpec::inside(inside.map(Nm::raw), thickness);
            spec.top = if closed { Top::Closed } else { Top::Open };
            spec.fingers = Some(Fingers::width(Nm::raw(8 * MM)));
            spec.assembly().unwrap()
        };
        let more = real.thickness.nm() - meant.thickness.nm();
        let panels = spec(meant.thickness).panels().unwrap();
        let shapes = cut(&panels, fit, meant, real, more);
        prop_assume!(shapes.is_some());
        let shapes = shapes.unwrap();
        let (report, gaps) = (fitted(&spec(real.thickness), &shapes), Gaps::of(fit, meant, real));
        prop_assert_eq!((report.gap_min, report.gap_max), (gaps.flank.min(gaps.shoulder), gaps.flank.max(gaps.shoulder)), "{:?}", report.problems);
        // The front's fingers reach through the left wall, whose outer face is where its slab begins.
        let (lowest, _) = shapes[0].bounds();
        prop_assert_eq!(-lowest.x.nm(), gaps.tip.nm());
    }

    #[test]
    fn slots_of_boards_that_cross(meant in making(), real in making(), fit in fit()) {
        let stand = |thickness: Nm| {
            // The middles stay where they are, so a slot's two cheeks are seen together.
            let mut stand = Assembly::new();
            let at = |middle: i64| middle * MM - half(thickness.nm());
            let size = [100 * MM, 60 * MM].map(Nm::raw);
            stand.add("long", Axis::Y, [0, at(50), 0].map(Nm::raw), size, thickness).unwrap();
            stand.add("short", Axis::X, [at(50), 0, 0].map(Nm::raw), size, thickness).unwrap();
            stand.joint("long", "short", Joint::Halves(Halves::default())).unwrap();
            stand
        };
        let shapes = cut(&stand(meant.thickness).panels().unwrap(), fit, meant, real, 0).unwrap();
        let (report, gaps) = (fitted(&stand(real.thickness), &shapes), Gaps::of(fit, meant, real));
        prop_assert_eq!((report.gap_min, report.gap_max), (gaps.flank.min(gaps.cheek), gaps.flank.max(gaps.cheek)), "{:?}", report.problems);
    }
}

#[test]
fn as_meant_the_gaps_are_those_of_the_fit() {
    let fit = Fit::new(Nm::raw(10), Nm::raw(-30), Nm::raw(7)).unwrap();
    let meant = Making { thickness: Nm::raw(3 * MM), kerf: Nm::raw(180_001) };
    let gaps = Gaps::of(fit, meant, meant);
    assert_eq!(gaps, Gaps { flank: fit.flank(), shoulder: fit.cheek(), cheek: fit.cheek(), tip: fit.tip() });
    assert_eq!((gaps.least(), gaps.most()), (fit.cheek(), fit.flank()));
}
