//! The proof of layouts, held against sheets that are cut up without waste (Terashima-Marín and others 2010, in `tests/data/packing`).

use dryfit_core::{BoxSpec, Cutter, Fit, Item, Layout, LayoutReport, LayoutSpec, Nm, Parts, Placement, Point, Shape, Sheet, Stock};
use dryfit_tests::{jigsaws, read_jigsaw};

const MM: i64 = 1_000_000;
/// Nanometres of one unit of the files: their sheets are 1 mm wide.
const UNIT: i64 = 1000;

type Piece = Vec<[i64; 2]>;

fn nm(length: i64) -> Nm {
    Nm::new(length).expect("in range")
}

fn shape(piece: &[[i64; 2]]) -> Shape {
    Shape::from_loops([piece.iter().map(|&[x, y]| Point::new(nm(x), nm(y)))])
}

/// The report on pieces where they lie.
fn report(pieces: &[Piece], size: [i64; 2], gap: i64, share_cuts: bool) -> LayoutReport {
    let stock = Stock::new(nm(MM), size.map(nm), Nm::ZERO, nm(gap)).expect("a sheet");
    let shapes: Vec<Shape> = pieces.iter().map(|piece| shape(piece)).collect();
    let names: Vec<String> = (0..pieces.len()).map(|number| number.to_string()).collect();
    let items: Vec<Item<'_>> = names.iter().zip(&shapes).map(|(name, shape)| Item::new(name, shape)).collect();
    let placements = shapes.iter().enumerate().map(|(part, shape)| Placement { part, at: shape.bounds().0, ..Placement::default() });
    let layout = Layout { sheets: vec![Sheet { stock, placements: placements.collect(), share_cuts }], unplaced: Vec::new() };
    let report = layout.check(&items, &[stock]);
    assert_eq!(layout.shared_length(&items), Ok(report.shared_length));
    report
}

/// Every sheet of every file, in nanometres, with its name and size.
fn sheets() -> Vec<(String, [i64; 2], Vec<Piece>)> {
    let scaled = |piece: &Piece| piece.iter().map(|p| p.map(|v| v * UNIT)).collect();
    let all = jigsaws().into_iter().flat_map(|jigsaw| {
        let size = [jigsaw.width, jigsaw.height].map(|side| side * UNIT);
        let one = move |(number, pieces): (usize, Vec<Piece>)| (format!("{} {}", jigsaw.name, number + 1), size, pieces.iter().map(scaled).collect());
        jigsaw.sheets.into_iter().enumerate().map(one)
    });
    all.collect()
}

#[test]
fn what_fills_a_sheet_overlaps_nowhere_and_shares_every_inner_edge() {
    let sheets = sheets();
    assert_eq!(sheets.len(), 60);
    for (name, size, pieces) in &sheets {
        let report = report(pieces, *size, 0, true);
        assert!(report.ok() && report.gap_min.is_none(), "{name}: {report:?}");
        // Every edge lies on the sheet's edge or is shared by two; rounded down piece by piece.
        let edges: i64 = pieces.iter().map(|piece| shape(piece).length()).sum();
        let both = 2 * report.shared_length + 2 * (size[0] + size[1]);
        let corners = pieces.iter().map(Vec::len).sum::<usize>() as i64;
        assert!((edges - both).abs() <= 2 * corners, "{name}: {edges} and {both}");
        // What is shared keeps any gap.
        assert!(self::report(pieces, *size, UNIT, true).ok(), "{name}");
        // Cut one by one they touch, and keep no gap.
        let alone = self::report(pieces, *size, 0, false);
        assert_eq!((alone.ok(), alone.gap_min, alone.shared_length), (true, Some(Nm::ZERO), 0), "{name}");
        let alone = self::report(pieces, *size, 1, false);
        for number in 0..pieces.len() {
            let told = |problem: &String| problem.contains(&format!("\"{number}\"")) && problem.contains("are 0 mm apart");
            assert!(alone.problems.len() > 100 || alone.problems.iter().any(told), "{name}: {alone:?}");
        }
    }
}

#[test]
fn a_piece_moved_by_one_nanometre_overlaps_or_leaves_the_sheet() {
    for (name, size, pieces) in &sheets() {
        for moved in 0..pieces.len() {
            for by in [[1, 0], [-1, 0], [0, 1], [0, -1]] {
                let mut pieces = pieces.clone();
                pieces[moved].iter_mut().for_each(|p| *p = [p[0] + by[0], p[1] + by[1]]);
                let report = report(&pieces, *size, 0, true);
                let told =
                    |problem: &String| problem.contains(&format!("\"{moved}\"")) && ["overlap", "border"].iter().any(|word| problem.contains(word));
                assert!(!report.ok() && report.problems.iter().all(told), "{name}, piece {moved} by {by:?}: {report:?}");
            }
        }
    }
}

#[test]
fn pieces_drawn_apart_keep_the_gap_that_is_told() {
    for (name, size, pieces) in &sheets() {
        // Convex pieces that do not overlap part where each moves by the way from the corner to its middle.
        let apart: Vec<Piece> = pieces
            .iter()
            .map(|piece| {
                let middle = [0, 1].map(|axis| piece.iter().map(|p| p[axis]).sum::<i64>() / piece.len() as i64);
                piece.iter().map(|p| [p[0] + middle[0], p[1] + middle[1]]).collect()
            })
            .collect();
        let size = size.map(|side| 2 * side);
        let report = report(&apart, size, 0, true);
        let least = report.gap_min.expect("more than one piece").nm();
        assert!(report.ok() && least > 0, "{name}: {report:?}");
        let slow = slowly_apart(&apart);
        assert!((least as f64 - slow).abs() <= 1.0, "{name}: {least} and {slow}");
        assert!(self::report(&apart, size, least, true).ok(), "{name}");
        let near = self::report(&apart, size, least + 1, true);
        assert!(!near.ok() && near.problems.iter().all(|problem| problem.contains("apart")), "{name}: {near:?}");
    }
}

/// The least distance of a corner of one piece from an edge of another, with floats.
fn slowly_apart(pieces: &[Piece]) -> f64 {
    let mut least = f64::INFINITY;
    for (i, a) in pieces.iter().enumerate() {
        for b in pieces.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, b)| b) {
            for p in a {
                for (u, v) in b.iter().zip(b.iter().cycle().skip(1)) {
                    let [x, y] = [0, 1].map(|axis| (v[axis] - u[axis]) as f64);
                    let [px, py] = [0, 1].map(|axis| (p[axis] - u[axis]) as f64);
                    let t = ((x * px + y * py) / (x * x + y * y)).clamp(0.0, 1.0);
                    least = least.min((px - t * x).hypot(py - t * y));
                }
            }
        }
    }
    least
}

#[test]
fn files_that_are_not_what_they_say_are_refused() {
    let refused = |text: &str| read_jigsaw("bad", text).expect_err(text);
    let good = "1 2 10 10 3 0 0 10 0 10 10 3 0 0 10 10 0 10";
    assert_eq!(read_jigsaw("good", good).expect("it is good").sheets[0].len(), 2);
    assert_eq!(refused(""), "the file ends before the number of sheets");
    assert_eq!(refused(good.strip_suffix(" 10").expect("its end")), "the file ends before y");
    assert_eq!(refused(&format!("{good} 7")), "number 19: \"7\" is one too many");
    assert_eq!(refused(&good.replacen("3 0", "2 0", 1)), "number 5: a number of corners is 2, not from 3 to 100");
    assert_eq!(refused(&good.replacen("10 0 10 10", "11 0 10 10", 1)), "number 8: x is 11, not from 0 to 10");
    assert_eq!(refused(&good.replacen("10 0 10 10", "10 1.5 10 10", 1)), "number 9: y is \"1.5\", not a whole number");
    assert_eq!(refused(&good.replacen("10 0 10 10", "10 10 10 0", 1)), "sheet 1, piece 1: not convex at (10, 10), or clockwise");
    assert_eq!(refused(&good.replacen("10 0 10 10", "9 0 10 10", 1)), "sheet 1: the pieces have twice the area 190, the sheet 200");
}

#[test]
fn boxes_that_interlock_are_proved() {
    for (side, share_cuts) in [(80, true), (80, false), (90, true)] {
        let side = nm(side * MM);
        let panels = BoxSpec::outside([side; 3], nm(2 * MM)).assembly().expect("a cube").panels().expect("six panels");
        let parts = Parts::cut(&panels, Cutter::beam(Nm::ZERO).expect("no kerf"), Fit::EXACT, Nm::ZERO).expect("six parts");
        let stock = Stock::new(nm(2 * MM), [Nm::parse("11 in").expect("a length"); 2], nm(6_500_000), nm(MM)).expect("a sheet");
        let items = Item::of(&parts);
        let layout = LayoutSpec { share_cuts, ..LayoutSpec::default() }.lay_out(&items, &[stock], &mut |_| true).expect("they fit");
        let report = layout.check(&items, &[stock]);
        assert!(report.ok(), "{side}, {share_cuts}: {:?}", report.problems);
        assert_eq!(report.shared_length > 0, share_cuts);
        assert_eq!(layout.shared_length(&items), Ok(report.shared_length));
    }
}
