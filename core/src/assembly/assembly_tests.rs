use super::*;
use crate::{Face, Fingers, Fit, FlatBox, Point, Vertex};
use proptest::prelude::*;
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

proptest! {
    /// The box without heap is the assembly's box, vertex for vertex.
    #[test]
    fn flat_box_is_the_assembly(x in 20_000_000i64..300_000_000, y in 20_000_000i64..300_000_000, z in 20_000_000i64..300_000_000, t in 500_000i64..6_000_000, closed: bool, count in prop::option::of(1u32..9)) {
        let fingers = count.map_or(Fingers::default(), |n| Fingers::count(n).least(nm(1000)));
        let outside = [nm(x), nm(y), nm(z)];
        let flat = FlatBox::new(outside, nm(t), closed, fingers).unwrap();
        let mut spec = BoxSpec::outside(outside, nm(t));
        spec.top = if closed { Top::Closed } else { Top::Open };
        spec.fingers = Some(fingers);
        for panel in spec.assembly().unwrap().panels().unwrap() {
            let face = Face::ALL.into_iter().find(|f| f.name() == panel.name()).unwrap();
            let shape = panel.shape();
            prop_assert_eq!(shape.loops().len(), 1);
            let expected: Vec<Vertex> = shape.vertices().to_vec();
            let outline = flat.panel(face, Fit::EXACT, Nm::ZERO).unwrap().unwrap();
            prop_assert_eq!(outline.len(), expected.len());
            let got: Vec<Vertex> = outline.collect();
            prop_assert_eq!(got, expected, "{}", panel.name());
        }
    }

    /// All panels of a box with dividers fill the slabs' union exactly once.
    #[test]
    fn areas_add_up(x in 60_000_000i64..300_000_000, y in 60_000_000i64..300_000_000, z in 20_000_000i64..100_000_000, t in 500_000i64..3_000_000, nx in 0u32..4, ny in 0u32..3, closed: bool, into_base: bool) {
        let mut spec = BoxSpec::outside([nm(x), nm(y), nm(z)], nm(t));
        (spec.top, spec.dividers, spec.into_base) = (if closed { Top::Closed } else { Top::Open }, [nx, ny], into_base);
        let panels = spec.assembly().unwrap().panels().unwrap();
        let filled: i128 = panels.iter().map(|p| p.shape().twice_area() / 2 * i128::from(t)).sum();
        let (x, y, z, t, nx, ny) = (i128::from(x), i128::from(y), i128::from(z), i128::from(t), i128::from(nx), i128::from(ny));
        let (ix, iy, iz) = (x - 2 * t, y - 2 * t, z - t - if closed { t } else { 0 });
        let shell = x * y * z - ix * iy * iz;
        let dividers = nx * t * iy * iz + ny * t * ix * iz - nx * ny * t * t * iz;
        prop_assert_eq!(filled, shell + dividers);
    }
}

#[test]
fn shelves_through_a_corner_keep_every_board_in_one_piece() {
    let mm = |v: i64| nm(v * 1_000_000);
    let mut rack = Assembly::new();
    rack.add("left", Axis::X, [mm(0); 3], [mm(150), mm(300)], nm(2_500_000)).unwrap();
    rack.add("right", Axis::X, [mm(240), mm(0), mm(0)], [mm(150), mm(300)], nm(2_500_000)).unwrap();
    rack.add("back", Axis::Y, [mm(0), nm(147_500_000), mm(0)], [nm(242_500_000), mm(300)], nm(2_500_000)).unwrap();
    for (name, z) in [("low", 0), ("middle", 120), ("high", 240)] {
        rack.add(name, Axis::Z, [mm(0), mm(0), mm(z)], [nm(242_500_000), mm(150)], nm(2_500_000)).unwrap();
    }
    for panel in rack.panels().unwrap() {
        let shape = panel.shape();
        let outers = shape.loops().filter(|ring| !crate::shape::is_hole(ring)).count();
        assert_eq!(outers, 1, "{}", panel.name());
    }
}

#[test]
fn refusals_name_the_boards() {
    let mm = |v: i64| nm(v * 1_000_000);
    let mut a = Assembly::new();
    a.add("left", Axis::X, [mm(0); 3], [mm(100), mm(100)], mm(3)).unwrap();
    let said = |f: Failure| std::string::ToString::to_string(&f);
    assert_eq!(
        said(a.add("twin", Axis::X, [mm(1), mm(0), mm(0)], [mm(9), mm(9)], mm(3)).unwrap_err()),
        "boards \"left\" and \"twin\": at: two boards in one plane overlap other than end to end"
    );
    assert_eq!(a.add("left", Axis::Z, [mm(0); 3], [mm(9), mm(9)], mm(3)).unwrap_err().error.code, Code::NameTaken);
    a.add("far", Axis::Z, [mm(50), mm(0), mm(0)], [mm(9), mm(9)], mm(3)).unwrap();
    assert_eq!(a.joint("left", "far", Fingers::default().into()).unwrap_err().error.code, Code::DoNotMeet);
    assert_eq!(a.joint("left", "nobody", Fingers::default().into()).unwrap_err().error.code, Code::NoSuchBoard);
    assert_eq!(said(a.panels().unwrap_err()), "board \"left\": at, size: the slab overlaps no other; extend it into its neighbours");
    let mut b = Assembly::new();
    b.add("side", Axis::X, [mm(0); 3], [mm(100), mm(100)], mm(3)).unwrap();
    b.add("shelf", Axis::Z, [mm(1), mm(0), mm(50)], [mm(90), mm(100)], mm(3)).unwrap();
    assert_eq!(b.panels().unwrap_err().error.code, Code::Blind);
}

#[test]
fn places_beyond_all_bounds_are_refused() {
    let far = (0..100).fold(Nm::MAX, |sum, _| sum + sum);
    for at in [[far, nm(0), nm(0)], [nm(0), Nm::ZERO - far, nm(0)], [nm(0), nm(0), Nm::MAX]] {
        assert_eq!(Assembly::new().add("far", Axis::X, at, [nm(1000); 2], nm(10_000)).unwrap_err().error.code, Code::OutOfRange);
    }
}

#[test]
fn a_slot_has_the_mates_thickness() {
    let mm = |v: i64| nm(v * 1_000_000);
    let mut stand = Assembly::new();
    stand.add("long", Axis::Y, [mm(0), mm(50), mm(0)], [mm(120), mm(80)], mm(3)).unwrap();
    stand.add("short", Axis::X, [mm(60), mm(0), mm(0)], [mm(100), mm(80)], mm(2)).unwrap();
    let panels = stand.panels().unwrap();
    let points: Vec<(i64, i64)> = panels[0].shape().vertices().iter().map(|v| (v.at.x.nm() / 1_000_000, v.at.y.nm() / 1_000_000)).collect();
    assert_eq!(points, [(0, 0), (120, 0), (120, 80), (62, 80), (62, 40), (60, 40), (60, 80), (0, 80)]);
    assert_eq!(panels[1].shape().bounds(), (Point::default(), Point::new(mm(100), mm(80))));
}

/// The tab of "shelf" through "back" stands on the slot that "rail" has cut right in front of it: it hangs by two points only.
#[test]
fn a_piece_that_hangs_by_points_is_a_piece_of_its_own() {
    let um = |v: i64| nm(v * 1_000);
    let mut stand = Assembly::new();
    stand.add("back", Axis::Y, [um(-30), um(260), um(-110)], [um(50), um(70)], um(20)).unwrap();
    stand.add("shelf", Axis::Z, [um(-70), um(10), um(-60)], [um(60), um(270)], um(10)).unwrap();
    stand.add("rail", Axis::Y, [um(-30), um(250), um(-80)], [um(20), um(30)], um(10)).unwrap();
    let panels = stand.panels().unwrap();
    let loops: Vec<bool> = panels[1].shape().loops().map(crate::shape::is_hole).collect();
    assert_eq!(loops, [false, false], "the shelf and a loose tab, no hole");
    assert_eq!(crate::dry_fit(&panels).loose_pieces, 1);
}
