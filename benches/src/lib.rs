//! The scenes that are measured: one closed box, boxes of any finger count, grids of dividers.

mod lost;
mod rectangles;
mod scenes;

pub use lost::{Lost, Rect, cells};
pub use rectangles::{laid_out, rectangle, rectangles};
pub use scenes::{
    FINGERS, OUTSIDE, PRISM_VERTICES, THICKNESS, VERTICES, closed_box, comb, drawer, flat_box, grid, mm, nm, nominal, prism12, rounds, run_box,
    spliced, zigzag,
};
