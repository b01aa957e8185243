//! A box as a file: no heap, no formatting machinery.

use dryfit_core::{Error, LineKind, Nm, Point, Sink, Svg};

use crate::boxes::Asked;

/// Counts and mixes what is written.
pub struct Sum(pub i64);

impl Sink for Sum {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        for byte in bytes {
            self.0 = self.0.wrapping_mul(31).wrapping_add(i64::from(*byte));
        }
        Ok(())
    }
}

fn write(asked: &Asked) -> Result<i64, Error> {
    let side = Nm::new(500_000_000)?;
    let mut svg = Svg::begin(Sum(0), side, side, "A box", "One panel over the other")?;
    let corner = Point::new(side, side);
    svg.border(Point::default(), corner)?;
    svg.label("front", corner, Nm::new(4_000_000)?)?;
    svg.line(LineKind::CutShared, [Point::default(), corner])?;
    asked.panels(|_, outline| svg.path(LineKind::CutOuter, outline.map(|vertex| vertex.at)))?;
    svg.end().map(|sum| sum.0)
}

/// A sum over the bytes of the file.
#[unsafe(no_mangle)]
pub extern "C" fn proof_svg(asked: &Asked) -> i64 {
    crate::status(write(asked))
}
