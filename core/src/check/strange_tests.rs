use crate::{Board, BoxSpec, Nm, Point, Shape, dry_fit_shapes};
use std::string::String;
use std::vec::Vec;

type Loops = Vec<Vec<(i64, i64)>>;

/// The problems of a closed box of which the front's loops (in nanometres) are changed.
fn problems(change: impl Fn(&mut Loops)) -> Vec<String> {
    let mm = |v: f64| Nm::from_mm(v).unwrap();
    let assembly = BoxSpec::outside([mm(100.0), mm(80.0), mm(60.0)], mm(3.0)).assembly().unwrap();
    let mut shapes: Vec<Shape> = assembly.panels().unwrap().iter().map(|panel| panel.shape().clone()).collect();
    let mut loops: Loops = shapes[0].loops().map(|ring| ring.iter().map(|v| (v.at.x.nm(), v.at.y.nm())).collect()).collect();
    change(&mut loops);
    shapes[0] = Shape::from_loops(loops.iter().map(|ring| ring.iter().map(|&(x, y)| Point::raw(x, y))));
    let report = dry_fit_shapes(&assembly.boards().iter().collect::<Vec<_>>(), &shapes);
    assert_eq!(report.ok(), report.problems.is_empty());
    report.problems
}

#[test]
fn outlines_that_are_not_understood_do_not_pass() {
    let mm = 1_000_000;
    assert!(problems(|_| ()).is_empty());
    // A rhombus whose edges cancel in any sum along one axis.
    let rhombus = problems(|loops| loops.push([(50, 30), (55, 35), (60, 30), (55, 25)].map(|(x, y)| (x * mm, y * mm)).to_vec()));
    assert_eq!(rhombus, ["panel \"front\": an edge along neither axis near (55, 25) mm: nothing was judged"]);
    for change in [
        |loops: &mut Loops| loops[0][2].0 += 1,
        |loops: &mut Loops| loops.push(Vec::new()),
        |loops: &mut Loops| loops.push([(1, 1), (2, 1)].to_vec()),
        |loops: &mut Loops| loops[0].insert(3, (0, 0)),
        |loops: &mut Loops| {
            let first = loops[0][0];
            loops[0].push(first);
        },
        |loops: &mut Loops| {
            let (x, y) = loops[0][0];
            loops[0].splice(0..1, [(x, y), (x - 5, y), (x, y)]);
        },
        |loops: &mut Loops| loops[0].iter_mut().for_each(|p| p.0 *= 1 << 15),
    ] {
        let said = problems(change);
        assert!(said.len() == 1 && said[0].ends_with("nothing was judged"), "{said:?}");
    }
    assert!(!problems(|loops| loops[0].reverse()).is_empty(), "an outer loop that runs clockwise");
}

#[test]
fn every_board_needs_its_outline() {
    let mm = |v: f64| Nm::from_mm(v).unwrap();
    let assembly = BoxSpec::outside([mm(100.0), mm(80.0), mm(60.0)], mm(3.0)).assembly().unwrap();
    let boards: Vec<&Board> = assembly.boards().iter().collect();
    assert_eq!(dry_fit_shapes(&boards, &[]).problems, ["6 boards but 0 outlines: nothing was judged"]);
    let many: Vec<&Board> = boards.iter().copied().cycle().take(2001).collect();
    assert!(!dry_fit_shapes(&many, &std::vec![Shape::default(); 2001]).ok());
}
