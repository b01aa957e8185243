use crate::{Angle, Assembly, Axis, Board, Nm, Point, PrismSpec, Role, Shape, dry_fit_shapes};
use proptest::prelude::*;
use std::string::String;
use std::vec::Vec;

type Loops = Vec<Vec<(i64, i64)>>;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

fn prism(sides: u32) -> Assembly {
    let mut spec = PrismSpec::new(sides, mm(60.0), mm(50.0), mm(3.0));
    spec.closed = true;
    spec.assembly().unwrap()
}

fn cross() -> Assembly {
    let mut cross = Assembly::new();
    cross.add("long", Axis::Y, [mm(0.0), mm(48.5), Nm::ZERO], [mm(100.0), mm(60.0)], mm(3.0)).unwrap();
    let turn = (Axis::Z, Angle::degrees(35.0).unwrap());
    cross.add_turned("slanted", Axis::X, [mm(48.5), Nm::ZERO, Nm::ZERO], [mm(100.0), mm(60.0)], mm(3.0), turn).unwrap();
    cross
}

/// The problems of an assembly of which one board's loops (in nanometres) are changed.
fn problems(assembly: &Assembly, board: usize, change: impl Fn(&mut Loops)) -> Vec<String> {
    let mut shapes: Vec<Shape> = assembly.panels().unwrap().iter().map(|panel| panel.shape().clone()).collect();
    let mut loops: Loops = shapes[board].loops().map(|ring| ring.iter().map(|v| (v.at.x.nm(), v.at.y.nm())).collect()).collect();
    change(&mut loops);
    shapes[board] = Shape::from_loops(loops.iter().map(|ring| ring.iter().map(|&(x, y)| Point::raw(x, y))));
    dry_fit_shapes(&assembly.boards().iter().collect::<Vec<&Board>>(), &shapes).problems
}

/// Moves edge `index` of the outer loop square to itself, outwards by `by`, where both its neighbours are square to it.
fn push(loops: &mut Loops, index: usize, by: i64) -> bool {
    let ring = &mut loops[0];
    let (count, next) = (ring.len(), (index + 1) % ring.len());
    let ((x0, y0), (x1, y1)) = (ring[index], ring[next]);
    let (before, after) = (ring[(index + count - 1) % count], ring[(next + 1) % count]);
    let (dx, dy) = ((x1 - x0) as f64, (y1 - y0) as f64);
    let square = |p: (i64, i64), q: (i64, i64)| {
        let (ex, ey) = ((q.0 - p.0) as f64, (q.1 - p.1) as f64);
        ((dx * ex + dy * ey) / (dx.hypot(dy) * ex.hypot(ey))).abs() < 1e-5
    };
    if !square(before, (x0, y0)) || !square((x1, y1), after) {
        return false;
    }
    let far = dx.hypot(dy);
    let (mx, my) = ((dy / far * by as f64).round() as i64, (-dx / far * by as f64).round() as i64);
    ring[index] = (x0 + mx, y0 + my);
    ring[next] = (x1 + mx, y1 + my);
    true
}

proptest! {
    /// Whatever edge of whatever board of a prism is moved by a tenth of a micrometre or more either way, the dry fit notices; but an edge
    /// that meets nobody may stand proud.
    #[test]
    fn every_edge_counts(sides in 3u32..13, board in 0usize..14, edge in 0usize..400, by in 100i64..500_000, outwards: bool) {
        let made = prism(sides);
        let panels = made.panels().unwrap();
        let shape = panels[board % panels.len()].shape();
        let ring = shape.loops().next().unwrap();
        let edge = edge % ring.len();
        let mut moved: Loops = shape.loops().map(|ring| ring.iter().map(|v| (v.at.x.nm(), v.at.y.nm())).collect()).collect();
        prop_assume!(push(&mut moved, edge, if outwards { by } else { -by }));
        let said = problems(&made, board % panels.len(), |loops| *loops = moved.clone());
        let proud = outwards && matches!(ring[edge].role, Role::Tip | Role::Free);
        prop_assert!(proud || !said.is_empty(), "{} edge {edge}", panels[board % panels.len()].name());
    }
}

#[test]
fn holes_and_slots_of_another_width_are_noticed() {
    let six = prism(6);
    let hole = |x: i64, y: i64| [(x, y), (x, y + 500_000), (x + 500_000, y + 500_000), (x + 500_000, y)].to_vec();
    for (board, x, y) in [(0, 30, 25), (3, 30, 25), (6, 50, 50), (7, 60, 40)] {
        assert!(!problems(&six, board, |loops| loops.push(hole(x * 1_000_000, y * 1_000_000))).is_empty(), "{board}");
    }
    for by in [100, 10_000, 1_000_000] {
        for board in [0, 1] {
            let slot = |sign: i64| {
                problems(&cross(), board, |loops| {
                    let ring = &mut loops[0];
                    let right = ring.iter().filter(|p| p.1 == 30_000_000).map(|p| p.0).max().unwrap();
                    ring.iter_mut().filter(|p| p.0 == right).for_each(|p| p.0 += sign * by);
                })
            };
            assert!(!slot(1).is_empty(), "wider by {by}");
            assert!(!slot(-1).is_empty(), "narrower by {by}");
        }
    }
}

#[test]
fn upright_edges_that_slant_are_not_judged() {
    let said = problems(&cross(), 0, |loops| loops[0][0].0 += 5_000_000);
    assert_eq!(said.len(), 1, "{said:?}");
}
