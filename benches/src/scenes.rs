//! What is measured. `peers.py` builds the same closed box from the same numbers.

use dryfit_core::{Assembly, Axis, BoxSpec, Face, Fingers, Fit, FlatBox, Move, Nm, Outline, Point, PrismSpec, Ratio, Tails, Top};

/// Outside size of the closed box along x, y, z, in millimetres.
pub const OUTSIDE: [i64; 3] = [110, 100, 96];
/// Its board, in millimetres.
pub const THICKNESS: i64 = 3;
/// Fingers of each of its runs.
pub const FINGERS: u32 = 11;
/// Vertices of all six outlines.
pub const VERTICES: usize = 504;

/// Vertices of the fourteen outlines of the box with twelve sides.
pub const PRISM_VERTICES: usize = 1512;

/// A length of so many millimetres.
pub fn mm(value: i64) -> Nm {
    nm(value * 1_000_000)
}

/// A length of so many nanometres.
pub fn nm(value: i64) -> Nm {
    Nm::new(value).expect("benchmarks stay within ten metres")
}

/// The closed box as an assembly's recipe.
pub fn closed_box() -> BoxSpec {
    let mut spec = BoxSpec::outside(OUTSIDE.map(mm), mm(THICKNESS));
    spec.fingers = Some(Fingers::count(FINGERS));
    spec
}

/// The closed box without heap.
pub fn flat_box() -> FlatBox {
    FlatBox::new(OUTSIDE.map(mm), mm(THICKNESS), true, Fingers::count(FINGERS)).expect("the box is sound")
}

/// A panel of a box without heap, neither moved nor widened.
pub fn nominal(flat: &FlatBox, face: Face) -> Outline {
    flat.panel(face, Fit::EXACT, Nm::ZERO).expect("no allowance closes a slot").expect("the box is closed")
}

/// A closed cube of 5 m in 3 mm board with so many fingers along every run.
pub fn run_box(fingers: u32) -> BoxSpec {
    let mut spec = BoxSpec::outside([mm(5000); 3], mm(3));
    spec.fingers = Some(Fingers::count(fingers).least(nm(1)));
    spec
}

/// An open drawer of 230 x 160 x 48 mm in 2.5 mm board with a 3 x 2 grid of cells.
pub fn drawer() -> BoxSpec {
    let mut spec = BoxSpec::outside([230, 160, 48].map(mm), nm(2_500_000));
    (spec.top, spec.dividers) = (Top::Open, [2, 1]);
    spec
}

/// An open tray of 2 x 2 m with `n` dividers either way: `2n + 5` boards.
pub fn grid(n: u32) -> Assembly {
    let mut spec = BoxSpec::outside([2000, 2000, 100].map(mm), mm(3));
    (spec.top, spec.dividers) = (Top::Open, [n, n]);
    spec.assembly().expect("the grid is sound")
}

/// Two boards of one plane that reach 8 mm into each other over 10 mm for every tail: by tails, or by as many plain fingers.
pub fn spliced(tails: u32, slanted: bool) -> Assembly {
    let width = mm(10 * i64::from(tails));
    let mut splice = Assembly::new();
    for (name, x) in [("left", 0), ("right", 92)] {
        splice.add(name, Axis::Z, [mm(x), Nm::ZERO, Nm::ZERO], [mm(100), width], mm(3)).expect("the boards are sound");
    }
    let fingers = || Fingers::count(2 * tails + 1).least(nm(1)).into();
    let joint = if slanted { Tails::new(tails, Ratio::EIGHTH).into() } else { fingers() };
    splice.joint("left", "right", joint).expect("they overlap");
    splice
}

/// A closed box with twelve sides of 100 mm, 96 mm high, in the board and with the fingers of the closed box.
pub fn prism12() -> PrismSpec {
    let mut spec = PrismSpec::new(12, mm(100), mm(96), mm(THICKNESS));
    spec.closed = true;
    spec.fingers = Some(Fingers::count(FINGERS));
    spec
}

/// A way of straight moves over a sheet of 1 m, to points of any nanometre.
pub fn zigzag(moves: i64) -> Vec<Move> {
    let at = |n: i64| Point::new(nm(n * 7_919_317 % 1_000_000_000), nm(n * 104_729_351 % 1_000_000_000));
    (0..moves).map(|n| Move { from: at(n), to: at(n + 1), centre: None, clockwise: true }).collect()
}

/// A comb: moves of 10 mm along one axis, then 3 mm along the other, to and fro, over 1 m.
pub fn comb(moves: i64) -> Vec<Move> {
    let at = |n: i64| Point::new(mm(n / 2 % 100 * 10), mm((n + 1) / 2 % 2 * 3));
    (0..moves).map(|n| Move { from: at(n), to: at(n + 1), centre: None, clockwise: true }).collect()
}

/// A circle of quarters, 100 mm to each side of its centre, around and around.
pub fn rounds(moves: i64) -> Vec<Move> {
    let at = |n: i64| [(250, 150), (150, 250), (50, 150), (150, 50)].map(|(x, y)| Point::new(mm(x), mm(y)))[n as usize % 4];
    (0..moves).map(|n| Move { from: at(n), to: at(n + 1), centre: Some(Point::new(mm(150), mm(150))), clockwise: false }).collect()
}
