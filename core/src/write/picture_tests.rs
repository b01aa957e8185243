use std::format;
use std::vec;
use std::vec::Vec;

use proptest::prelude::*;

use super::order::{Block3, paint_order};
use super::{explode, exploded};
use crate::{Axis, BoxSpec, Direction, Nm, Panel, Point, Shape, Step, Top, order};

const MM: i64 = 1_000_000;

fn panels(dividers: [u32; 2], closed: bool) -> Vec<Panel> {
    let mm = |v| Nm::from_mm(v).unwrap();
    let mut spec = BoxSpec::outside([mm(110.0), mm(85.0), mm(60.0)], mm(2.5));
    (spec.dividers, spec.top) = (dividers, if closed { Top::Closed } else { Top::Open });
    spec.assembly().unwrap().panels().unwrap()
}

fn step(board: usize, axis: Axis, upwards: bool) -> Step {
    Step { board, name: "any".into(), direction: Direction { axis, upwards, own: false }, along: vec![] }
}

fn picture(panels: &[Panel], offsets: &[[i64; 3]]) -> std::string::String {
    let shapes: Vec<Shape> = panels.iter().map(|panel| panel.shape().clone()).collect();
    let boards: Vec<_> = panels.iter().map(Panel::board).zip(&shapes).collect();
    exploded(&boards, offsets)
}

#[test]
fn pulled_apart_in_the_order_of_putting_together() {
    for (dividers, closed) in [([0, 0], true), ([1, 0], true), ([2, 2], false)] {
        let panels = panels(dividers, closed);
        let boards: Vec<_> = panels.iter().map(|p| p.board().clone()).collect();
        let steps = order(&panels).unwrap();
        let offsets = explode(&steps, &boards, Nm::raw(30 * MM));
        let blocks: Vec<Block3> = boards
            .iter()
            .zip(&offsets)
            .map(|(b, o)| Block3 { lo: Axis::ALL.map(|a| b.lo(a) + o[a.index()]), hi: Axis::ALL.map(|a| b.hi(a) + o[a.index()]) })
            .collect();
        for (i, a) in blocks.iter().enumerate() {
            assert!(blocks[..i].iter().all(|b| !a.overlaps(b)));
        }
        let first = steps[0].board;
        for (i, offset) in offsets.iter().enumerate() {
            let way = steps.iter().find(|step| step.board == i).unwrap().direction;
            let back = if way.upwards { -offset[way.axis.index()] } else { offset[way.axis.index()] };
            assert!(if i == first { *offset == [0; 3] } else { back >= 30 * MM });
            // Against its move, and upwards with what it is joined to.
            assert!(Axis::ALL.iter().all(|&axis| axis == way.axis || axis == Axis::Z || offset[axis.index()] == 0) && offset[2] >= 0);
        }
        let svg = picture(&panels, &offsets);
        for panel in &panels {
            assert_eq!(svg.matches(&format!(">{}</text>", panel.name())).count(), 1, "{}", panel.name());
            assert_eq!(svg.matches(&format!("<title>{}</title>", panel.name())).count(), 1);
        }
    }
}

#[test]
fn a_lid_is_pulled_apart_by_itself_and_then_off_the_box() {
    for (top, lid, with, axis, sign) in [(Top::lift_off(), "lid", "batten-left", Axis::Z, 1), (Top::sliding(), "lid", "pull", Axis::Y, -1)] {
        let mm = |v| Nm::from_mm(v).unwrap();
        let mut spec = BoxSpec::outside([mm(110.0), mm(85.0), mm(60.0)], mm(2.5));
        spec.top = top;
        let panels = spec.assembly().unwrap().panels().unwrap();
        let boards: Vec<_> = panels.iter().map(|p| p.board().clone()).collect();
        let offsets = explode(&order(&panels).unwrap(), &boards, Nm::raw(30 * MM));
        let place = |i: usize| {
            let (b, o): (&crate::Board, [i64; 3]) = (&boards[i], offsets[i]);
            Block3 { lo: Axis::ALL.map(|a| b.lo(a) + o[a.index()]), hi: Axis::ALL.map(|a| b.hi(a) + o[a.index()]) }
        };
        for (i, board) in boards.iter().enumerate() {
            assert!((0..i).all(|j| !place(i).overlaps(&place(j))), "{}", board.name());
        }
        let number = |name: &str| boards.iter().position(|board| board.name() == name).unwrap();
        let (lid, with) = (offsets[number(lid)], offsets[number(with)]);
        assert!(lid[axis.index()] * sign >= 30 * MM && with[axis.index()] * sign > 0);
        assert!((lid[2] - with[2]).abs() >= 30 * MM);
    }
}

#[test]
fn steps_that_make_no_sense_are_skipped() {
    let panels = panels([0, 0], true);
    let boards: Vec<_> = panels.iter().map(|p| p.board().clone()).collect();
    assert_eq!(explode(&[], &boards, Nm::MAX), vec![[0; 3]; 6]);
    assert_eq!(explode(&[step(99, Axis::X, true)], &boards, Nm::MAX), vec![[0; 3]; 6]);
    let twice = explode(&[step(5, Axis::Z, false), step(5, Axis::X, true)], &boards, Nm::raw(MM));
    assert_eq!(twice[5], [0, 0, 3_500_000]);
    assert_eq!(explode(&[step(0, Axis::X, true)], &[], Nm::raw(MM)), Vec::<[i64; 3]>::new());
}

#[test]
fn any_offset_gives_a_picture() {
    let panels = panels([1, 1], true);
    for offsets in [vec![], vec![[i64::MAX, i64::MIN, 0]; 3], vec![[i64::MIN; 3]; 20]] {
        let svg = picture(&panels, &offsets);
        assert!(svg.starts_with("<svg") && svg.ends_with("</svg>\n"));
    }
    assert!(exploded(&[], &[]).ends_with("</svg>\n"));
    let nothing = Shape::default();
    assert!(exploded(&[(panels[0].board(), &nothing)], &[]).ends_with("</svg>\n"));
    let line = Shape::from_loops([[Point::default(), Point::raw(5, 5)]]);
    assert!(exploded(&[(panels[0].board(), &line)], &[]).ends_with("</svg>\n"));
}

#[test]
fn put_together_no_wall_shows_inside_a_joint() {
    let together = picture(&panels([0, 0], true), &[]);
    // Of all walls that face the viewer only the tips are left.
    let apart = picture(&panels([0, 0], true), &[[0; 3], [0, 200 * MM, 0], [-200 * MM, 0, 0], [200 * MM, 0, 0], [0, 0, -200 * MM], [0, 0, 200 * MM]]);
    assert!(together.matches("<path").count() < apart.matches("<path").count() * 2 / 3);
}

#[test]
fn a_ring_of_things_behind_each_other_ends() {
    assert_eq!(paint_order(3, |i, j| (i + 1) % 3 == j), [0, 1, 2]);
    assert_eq!(paint_order(3, |_, _| true).len(), 3);
    assert_eq!(paint_order(0, |_, _| true), Vec::<usize>::new());
    assert_eq!(paint_order(4, |i, j| i > j), [3, 2, 1, 0]);
}

/// Corners and sizes of a few boxes on a coarse lattice.
fn blocks() -> impl Strategy<Value = Vec<Block3>> {
    let block = (prop::array::uniform3(-8i64..8), prop::array::uniform3(1i64..8));
    let block = block.prop_map(|(lo, size)| Block3 { lo, hi: [lo[0] + size[0], lo[1] + size[1], lo[2] + size[2]] });
    prop::collection::vec(block, 2..7)
}

proptest! {
    /// Along every line of sight, the box that is met later (from the viewer) is behind.
    #[test]
    fn of_two_disjoint_boxes_the_farther_is_behind(blocks in blocks(), x in -20i64..20, y in -20i64..20) {
        let (a, b) = (blocks[0], blocks[1]);
        prop_assume!(!a.overlaps(&b));
        prop_assert!(!(a.behind(&b) && b.behind(&a)));
        // The line through (x + 1/4, y - 1/2, 1/8) towards (1, -1, 1), in eighths: where it is inside each box.
        let through = [8 * x + 2, 8 * y - 4, 1];
        let reach = |block: &Block3| {
            let mut range = (i64::MIN, i64::MAX);
            for ((p, way), (lo, hi)) in through.into_iter().zip([1, -1, 1]).zip(block.lo.into_iter().zip(block.hi)) {
                let (s, e) = ((8 * lo - p) * way, (8 * hi - p) * way);
                range = (range.0.max(s.min(e)), range.1.min(s.max(e)));
            }
            (range.0 < range.1).then_some(range)
        };
        if let (Some(p), Some(q)) = (reach(&a), reach(&b)) {
            prop_assert!(a.overlaps_in_view(&b));
            prop_assert_eq!(a.behind(&b), p.1 <= q.0);
            prop_assert_eq!(b.behind(&a), q.1 <= p.0);
        }
    }

    #[test]
    fn all_are_painted_once(blocks in blocks()) {
        let mut order = paint_order(blocks.len(), |i, j| blocks[i].behind(&blocks[j]));
        order.sort_unstable();
        prop_assert_eq!(order, (0..blocks.len()).collect::<Vec<_>>());
    }
}
