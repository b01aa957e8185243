//! Kerf and offsets against published or derived figures.
//!
//! * K-11: worked compensation of a fabrication laboratory's note (UCLA): the hole's figures are theirs; the part's figures follow their rule.
//! * K-14, K-15, O-1, O-2: plane geometry. A contour cut on its line leaves `(w - k)(h - k)` and a hole of `(w + k)(h + k)`;
//!   a mitred offset of a polygon has the area `A + P d + d^2` times the sum of `tan(turn / 2)`, an inset the same with `-d`.
//!
//! The kerf is the full width of the cut, so an offset of `d` is a kerf of `2 d`.

use dryfit_core::{Assembly, Axis, Cutter, Fit, Joint, Nm, Part, Parts, Shape, Side};
use dryfit_tests::nm;

fn mm(text: &str) -> Nm {
    Nm::parse(text).unwrap()
}

/// Area in square nanometres.
fn area(shape: &Shape) -> i128 {
    assert_eq!(shape.twice_area() % 2, 0);
    shape.twice_area() / 2
}

fn mm2(text: &str) -> i128 {
    // 1 mm2 is 10^12 nm2: twice the digits of a length.
    i128::from(mm(text).nm()) * 1_000_000
}

/// Width and height of one loop, by its number.
fn extent(shape: &Shape, number: usize) -> (i64, i64) {
    let ring = shape.loops().nth(number).expect("a loop");
    let side = |pick: fn(&dryfit_core::Vertex) -> i64| {
        let values = || ring.iter().map(pick);
        values().max().unwrap_or(0) - values().min().unwrap_or(0)
    };
    (side(|v| v.at.x.nm()), side(|v| v.at.y.nm()))
}

fn cut(assembly: &Assembly, name: &str, kerf: &str) -> Part {
    let panels = assembly.panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::beam(mm(kerf)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    parts.find(name).expect("a part").clone()
}

/// A board alone.
fn board(width: &str, height: &str) -> Assembly {
    let mut assembly = Assembly::new();
    assembly.add("plate", Axis::Z, [Nm::ZERO; 3], [mm(width), mm(height)], mm("3")).unwrap();
    assembly
}

/// A plate of 300 x 300 mm with a hole: a thick board passes through it.
fn plate_with_hole(width: &str, height: &str) -> Assembly {
    let mut assembly = Assembly::new();
    assembly.add("plate", Axis::Z, [nm(0); 3], [mm("300"), mm("300")], mm("3")).unwrap();
    assembly.add("post", Axis::X, [mm("100"), mm("100"), mm("-50")], [mm(height), mm("100")], mm(width)).unwrap();
    assembly
}

/// An L: a plate whose upper right corner a thick board takes whole.
fn ell(outside: (&str, &str), arms: (&str, &str)) -> Assembly {
    let (x, y) = (mm(outside.0), mm(outside.1));
    let (arm_x, arm_y) = (mm(arms.0), mm(arms.1));
    let mut assembly = Assembly::new();
    assembly.add("plate", Axis::Z, [nm(0); 3], [x, y], mm("3")).unwrap();
    assembly.add("block", Axis::X, [arm_x, arm_y, nm(0)], [y - arm_y, mm("20")], x - arm_x).unwrap();
    assembly.joint("block", "plate", Joint::Whole(Side::A)).unwrap();
    assembly
}

#[test]
fn k_11_compensation_of_half_an_inch() {
    // Per side 0.002 in across and 0.004 in along: two kerfs here, since ours is the same in both directions.
    for (kerf, hole, part) in [("0.004 in", "0.496 in", "0.504 in"), ("0.008 in", "0.492 in", "0.508 in")] {
        let inner = cut(&plate_with_hole("0.5 in", "0.5 in"), "plate", kerf);
        assert_eq!(extent(inner.path(), 1), (mm(hole).nm(), mm(hole).nm()), "K-11 hole, kerf {kerf}");
        let outer = cut(&board("0.5 in", "0.5 in"), "plate", kerf);
        assert_eq!(extent(outer.path(), 0), (mm(part).nm(), mm(part).nm()), "K-11 part, kerf {kerf}");
    }
}

#[test]
fn k_14_what_a_contour_of_60_by_40_leaves() {
    let part = cut(&board("59.8", "39.8"), "plate", "0.2");
    assert_eq!(extent(part.path(), 0), (mm("60").nm(), mm("40").nm()));
    assert_eq!(area(part.finished()), mm2("2380.04"));
    let plate = cut(&plate_with_hole("60.2", "40.2"), "plate", "0.2");
    assert_eq!(extent(plate.path(), 1), (mm("60").nm(), mm("40").nm()));
    assert_eq!(area(plate.finished()), i128::from(mm("300").nm()).pow(2) - mm2("2420.04"));
}

#[test]
fn k_15_contours_for_60_by_40() {
    let part = cut(&board("60", "40"), "plate", "0.2");
    assert_eq!(extent(part.path(), 0), (mm("60.2").nm(), mm("40.2").nm()));
    let plate = cut(&plate_with_hole("60", "40"), "plate", "0.2");
    assert_eq!(extent(plate.path(), 1), (mm("59.8").nm(), mm("39.8").nm()));
    assert_eq!(extent(plate.finished(), 1), (mm("60").nm(), mm("40").nm()));
}

#[test]
fn o_1_rectangle_60_by_40_moved_by_3() {
    let out = cut(&board("60", "40"), "plate", "6");
    assert_eq!(area(out.path()), mm2("3036"));
    assert_eq!(area(out.finished()), mm2("2400"));
    // The contour of a hole is its inset.
    let hole = cut(&plate_with_hole("60", "40"), "plate", "6");
    assert_eq!(area(hole.path()), i128::from(mm("306").nm()).pow(2) - mm2("1836"));
    // And taking the kerf off a contour of 60 x 40.
    assert_eq!(area(cut(&board("54", "34"), "plate", "6").finished()), mm2("1836"));
}

#[test]
fn o_2_l_shape_moved_by_2() {
    let out = cut(&ell(("60", "50"), ("20", "20")), "plate", "4");
    assert_eq!(area(out.path()), mm2("2256"));
    assert_eq!(area(out.finished()), mm2("1800"));
    assert_eq!(out.path().vertices().len(), 6);
    // The same L as a contour: what is left inside it.
    let inner = cut(&ell(("56", "46"), ("16", "16")), "plate", "4");
    assert_eq!(area(inner.path()), mm2("1800"));
    assert_eq!(area(inner.finished()), mm2("1376"));
}
