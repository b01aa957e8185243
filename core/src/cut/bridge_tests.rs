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
