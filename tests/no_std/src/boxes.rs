//! Whole boxes.

use dryfit_core::{Error, Face, Fingers, Fit, FlatBox, Nm};

/// A box in plain numbers.
#[repr(C)]
pub struct Asked {
    x: i64,
    y: i64,
    z: i64,
    thickness: i64,
    closed: bool,
    count: u32,
    flank: i64,
    cheek: i64,
    tip: i64,
    kerf: i64,
}

impl Asked {
    fn flat(&self) -> Result<FlatBox, Error> {
        let fingers = if self.count == 0 { Fingers::default() } else { Fingers::count(self.count) };
        FlatBox::new([Nm::new(self.x)?, Nm::new(self.y)?, Nm::new(self.z)?], Nm::new(self.thickness)?, self.closed, fingers)
    }

    fn fit(&self) -> Result<Fit, Error> {
        Fit::new(Nm::new(self.flank)?, Nm::new(self.cheek)?, Nm::new(self.tip)?)
    }

    /// Hands every vertex of every panel over.
    pub(crate) fn panels(&self, mut each: impl FnMut(Face, dryfit_core::Outline) -> Result<(), Error>) -> Result<(), Error> {
        let (flat, fit, kerf) = (self.flat()?, self.fit()?, Nm::new(self.kerf)?);
        for face in Face::ALL {
            if let Some(outline) = flat.panel(face, fit, kerf)? {
                each(face, outline)?;
            }
        }
        Ok(())
    }
}

/// A sum over the vertices of all panels.
#[unsafe(no_mangle)]
pub extern "C" fn proof_box(asked: &Asked) -> i64 {
    let mut sum = 0i64;
    let walked = asked.panels(|_, outline| {
        sum = sum.wrapping_add((outline.twice_area() >> 32) as i64);
        for vertex in outline {
            sum = sum.wrapping_mul(3).wrapping_add(vertex.at.x.nm()).wrapping_add(vertex.at.y.nm());
        }
        Ok(())
    });
    crate::status(walked.map(|()| sum))
}
