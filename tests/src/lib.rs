//! What the vector tests and the properties share: cases read in place, boards built from them, random scenes, outlines as plain numbers.

mod build;
mod jigsaw;
mod outline;
mod scene;
mod strip;
mod turn;
mod vectors;

pub use build::{assembly, box_spec, fit, flat_box, joint, nm, side, slope, tails};
pub use jigsaw::{Jigsaw, jigsaws, read_jigsaw};
pub use outline::{Loops, areas_doubled, inside, outline_points, shape_loops};
pub use scene::{Scene, Slab, config, scenes};
pub use strip::{Strip, read_strip, strips};
pub use turn::Turn;
pub use vectors::{Case, cases};
