use std::string::ToString;
use std::vec::Vec;

use proptest::prelude::*;

use super::*;
use crate::assembly::BoxSpec;
use crate::bounds::MM;
use crate::cut::Entry;
use crate::shape::Shape;

fn at(x: i64, y: i64) -> Point {
    Point::raw(x * MM, y * MM)
}

fn mm(length: f64) -> Nm {
    Nm::from_mm(length).unwrap()
}

fn spec(count: i64) -> BridgeSpec {
    BridgeSpec { many: Many::Count(count), width: mm(0.5), bed: None }
}

/// The lines of a shape as those of a part.
fn lines(shape: &Shape, part: usize) -> Vec<Contour> {
    let kind = |hole| if hole { LineKind::CutInner } else { LineKind::CutOuter };
    shape.rings().map(|ring| Contour::closed(kind(ring.is_hole()), ring.bent()).of_part(part)).collect()
}

fn plate(w: i64, h: i64) -> Vec<Contour> {
    lines(&Shape::from_loops([[at(0, 0), at(w, 0), at(w, h), at(0, h)]]), 0)
}

fn gaps(bridges: &Bridges) -> Vec<(usize, Move)> {
    bridges
        .lines
        .iter()
        .enumerate()
        .flat_map(|(number, line)| line.edges().map(move |edge| (number, edge)))
        .filter(|(_, edge)| bridges.is_gap(edge))
        .collect()
}

#[test]
fn one_bridge_is_in_the_middle_of_the_longest_edge() {
    let bridges = Bridges::place(plate(60, 40), &spec(1), mm(0.2)).unwrap();
    let gap = gaps(&bridges)[0].1;
    assert_eq!((gap.from, gap.to), (Point::raw(29_650_000, 0), Point::raw(30_350_000, 0)));
    assert!(bridges.is_gap(&gap.reversed()) && bridges.bare.is_empty());
}

#[test]
fn more_are_spread_evenly() {
    let bridges = Bridges::place(plate(60, 40), &spec(4), Nm::ZERO).unwrap();
    let middles: Vec<Point> = gaps(&bridges).iter().map(|(_, gap)| gap.middle().unwrap()).collect();
    // 200 mm round: every 50 mm from the middle of the lower edge.
    assert_eq!(middles, [at(30, 0), at(60, 20), at(30, 40), at(0, 20)]);
    let spaced = BridgeSpec { many: Many::Spacing(mm(66.0)), ..spec(0) };
    assert_eq!(Bridges::place(plate(60, 40), &spaced, Nm::ZERO).unwrap().count(), 4);
    assert_eq!(Bridges::place(plate(60, 40), &spec(0), Nm::ZERO).unwrap(), Bridges { lines: plate(60, 40), ..Bridges::default() });
}

#[test]
fn parts_that_rest_on_the_bed_need_none() {
    let bed = |bed: f64| BridgeSpec { bed: Some(mm(bed)), ..spec(1) };
    // The centre of 60 x 40 is 20 from two sides.
    assert_eq!(Bridges::place(plate(60, 40), &bed(20.0), Nm::ZERO).unwrap().count(), 0);
    assert_eq!(Bridges::place(plate(60, 40), &bed(20.1), Nm::ZERO).unwrap().count(), 1);
    // An angle's centre lies nearer to its corner: 14 legs of 10 (by hand: (60·10·30 + 30·10·5) / 900 = 21.67, (60·10·5 + 30·10·25) / 900 = 11.67).
    let angle = Shape::from_loops([[at(0, 0), at(60, 0), at(60, 10), at(10, 10), at(10, 40), at(0, 40)]]);
    assert_eq!(Bridges::place(lines(&angle, 0), &bed(11.6), Nm::ZERO).unwrap().count(), 0);
    assert_eq!(Bridges::place(lines(&angle, 0), &bed(11.7), Nm::ZERO).unwrap().count(), 1);
}

#[test]
fn a_part_without_room_is_told() {
    // 3 mm of board and 0.5 mm of bridge with as much on both sides: too short for 2 mm.
    let tiny = lines(&Shape::from_loops([[at(0, 0), at(1, 0), at(1, 1), at(0, 1)]]), 7);
    let bridges = Bridges::place(tiny, &spec(1), Nm::ZERO).unwrap();
    assert_eq!((bridges.count(), &bridges.bare[..]), (0, &[7][..]));
}

#[test]
fn fingers_get_theirs_on_tips_and_never_on_flanks() {
    let size = [mm(110.0), mm(85.0), mm(60.0)];
    let panels = BoxSpec::outside(size, mm(3.0)).assembly().unwrap().panels().unwrap();
    for (part, panel) in panels.iter().enumerate() {
        let bridges = Bridges::place(lines(panel.shape(), part), &spec(3), mm(0.2)).unwrap();
        assert_eq!(bridges.count(), 3);
        for line in &bridges.lines {
            for (edge, (vertex, _)) in line.points.iter().enumerate() {
                if line.edge(edge).is_some_and(|edge| bridges.is_gap(&edge)) {
                    assert_eq!(vertex.role, Role::Tip);
                }
            }
        }
    }
}

#[test]
fn where_another_cut_is_too_near_there_is_none() {
    let beside = |gap: i64| {
        let right = Shape::from_loops([[at(60, 0), at(90, 0), at(90, 40), at(60, 40)].map(|p| Point::new(p.x + Nm::raw(gap), p.y))]);
        [plate(60, 40), lines(&right, 1)].concat()
    };
    // Where 0.2 + 0.5 mm are not there, no bridge is on the sides that face each other while others have room.
    for (gap, facing) in [(0, 0), (100_000, 0), (324_000, 0), (326_000, 0), (710_000, 2)] {
        let bridges = Bridges::place(beside(gap), &spec(4), mm(0.2)).unwrap();
        assert_eq!((bridges.count(), bridges.bare.len()), (8, 0));
        let found = gaps(&bridges)
            .iter()
            .filter(|(_, way)| [at(60, 0).x, at(60, 0).x + Nm::raw(gap)].contains(&way.from.x) && way.from.x == way.to.x)
            .count();
        assert_eq!(found, facing, "{gap}");
    }
    // All round: with a strip of 0.2 mm, and with none.
    let framed = |gap: i64| {
        let [lo, hi] = [at(10, 10), at(50, 30)].map(|p| [p.x.nm(), p.y.nm()]);
        let [x0, y0, x1, y1] = [lo[0] - gap, lo[1] - gap, hi[0] + gap, hi[1] + gap];
        let hole = [Point::raw(x0, y0), Point::raw(x0, y1), Point::raw(x1, y1), Point::raw(x1, y0)];
        let frame = Shape::from_loops([[at(0, 0), at(60, 0), at(60, 40), at(0, 40)], hole]);
        [lines(&frame, 0), lines(&Shape::from_loops([[at(10, 10), at(50, 10), at(50, 30), at(10, 30)]]), 1)].concat()
    };
    let placed = |gap: i64| Bridges::place(framed(gap), &spec(2), mm(0.2)).unwrap();
    assert_eq!((placed(400_000).count(), placed(300_000).count(), placed(300_000).bare), (4, 2, std::vec![1]));
}

#[test]
fn a_count_is_kept_on_tips_where_free_edges_are_full() {
    let mut narrow = plate(3, 60);
    for (vertex, _) in narrow[0].points.iter_mut().skip(1).step_by(2) {
        vertex.role = Role::Tip;
    }
    // Two short free sides with room for one in the middle, or for two towards the ends; the long ones are tips.
    let bridges = Bridges::place(narrow.clone(), &spec(5), Nm::ZERO).unwrap();
    assert_eq!(bridges.count(), 5);
    let free = bridges.lines[0]
        .points
        .iter()
        .enumerate()
        .filter(|&(edge, (vertex, _))| vertex.role == Role::Free && bridges.lines[0].edge(edge).is_some_and(|way| bridges.is_gap(&way)));
    assert_eq!(free.count(), 3);
    let spaced = BridgeSpec { many: Many::Spacing(mm(20.0)), ..spec(0) };
    assert_eq!(Bridges::place(narrow, &spaced, Nm::ZERO).unwrap().count(), 3);
}

#[test]
fn a_part_with_shared_cuts_all_round_is_told() {
    use crate::{Cutter, Item, MotionSpec, Placement, Sheet, Stock};
    let square = |x: i64, y: i64| Shape::from_loops([[at(x, y), at(x + 10, y), at(x + 10, y + 10), at(x, y + 10)]]);
    let shapes: Vec<Shape> = (0..9).map(|n| square(20 + n % 3 * 10, 20 + n / 3 * 10)).collect();
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("p", shape)).collect();
    let placements = shapes.iter().enumerate().map(|(part, shape)| Placement { part, at: shape.bounds().0, ..Placement::default() }).collect();
    let stock = Stock::new(mm(1.0), [mm(100.0); 2], Nm::ZERO, Nm::ZERO).unwrap();
    let sheet = Sheet { stock, placements, share_cuts: true };
    let plan = sheet.plan(&items, Cutter::beam(mm(0.2)).unwrap(), &MotionSpec::default()).unwrap();
    assert_eq!((plan.bridges(), plan.bare()), (8, &[4][..]));
    let blade = sheet.plan(&items, Cutter::blade(Nm::ZERO, Nm::ZERO).unwrap(), &MotionSpec::default()).unwrap();
    assert_eq!((blade.bridges(), blade.bare()), (0, &[][..]));
}

#[test]
fn bad_numbers_are_refused() {
    let refused = |spec| Bridges::place(Vec::new(), &spec, Nm::ZERO).unwrap_err().to_string();
    assert_eq!(refused(spec(101)), "bridges: 101 given, allowed 0 to 100");
    assert_eq!(refused(BridgeSpec { width: Nm::ZERO, ..spec(1) }), "bridge width: 0 mm given, allowed 0.05 mm to 50 mm");
    assert_eq!(refused(BridgeSpec { many: Many::Spacing(Nm::ZERO), ..spec(1) }), "bridge spacing: 0 mm given, allowed 1 mm to 10000 mm");
    assert_eq!(refused(BridgeSpec { bed: Some(Nm::ZERO), ..spec(1) }), "bed: 0 mm given, allowed 1 mm to 1000 mm");
}

proptest! {
    #[test]
    fn gaps_are_as_wide_as_asked_and_keep_off_corners(w in 2i64..200, h in 2i64..200, count in 1i64..12, width in 50_000i64..3_000_000, kerf in 0i64..500_000) {
        let before = plate(w, h);
        let length = before[0].length();
        let spec = BridgeSpec { width: Nm::raw(width), ..spec(count) };
        let bridges = Bridges::place(before.clone(), &spec, Nm::raw(kerf)).unwrap();
        let gap = width + kerf;
        prop_assert_eq!(bridges.lines[0].length(), length);
        prop_assert!(bridges.count() as i64 <= count);
        // With room for all of them there are all.
        prop_assert!(bridges.count() as i64 == count || 2 * gap * count > w * MM / 2);
        prop_assert_eq!(bridges.bare.is_empty(), bridges.count() > 0);
        for (_, edge) in gaps(&bridges) {
            prop_assert_eq!(edge.length(), gap);
            for (vertex, _) in &before[0].points {
                for end in [edge.from, edge.to] {
                    let far = (end.x - vertex.at.x).nm().abs().max((end.y - vertex.at.y).nm().abs());
                    prop_assert!(far >= gap, "{}", far);
                }
            }
        }
        let walked: Vec<Move> = bridges.lines[0].walk(Entry::Point(0), false).filter(|way| !bridges.is_gap(way)).collect();
        prop_assert_eq!(walked.iter().map(Move::length).sum::<i64>(), length - gap * bridges.count() as i64);
    }
}
