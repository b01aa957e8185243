//! What cuts, and how wide.

use crate::bounds::{DIAMETER, KERF, TRAIL, within};
use crate::error::Error;
use crate::length::Nm;

/// A cutting tool. Kerf is the full width of the cut.
///
/// Blades, beams and bits injure, beams also give fumes and start fires: follow the machine maker's rules.
///
/// ```
/// use dryfit_core::{Cutter, Nm};
/// let beam = Cutter::beam(Nm::parse("0.18 mm")?)?;
/// assert_eq!(beam.kerf(), Nm::parse("0.18 mm")?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cutter {
    /// A blade that trails behind its axis.
    Blade {
        /// Full width of the cut; 0 for a thin blade.
        kerf: Nm,
        /// How far the tip lags behind the axis.
        trail: Nm,
    },
    /// A beam.
    Beam {
        /// Full width of the cut.
        kerf: Nm,
    },
    /// A turning bit.
    Bit {
        /// Its diameter: the full width of the cut.
        diameter: Nm,
    },
}

impl Cutter {
    /// A trailing blade.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for kerf or trail.
    pub const fn blade(kerf: Nm, trail: Nm) -> Result<Cutter, Error> {
        within!(KERF, kerf.nm());
        within!(TRAIL, trail.nm());
        Ok(Cutter::Blade { kerf, trail })
    }

    /// A beam.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the kerf.
    pub const fn beam(kerf: Nm) -> Result<Cutter, Error> {
        within!(KERF, kerf.nm());
        Ok(Cutter::Beam { kerf })
    }

    /// A round bit.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the diameter.
    pub const fn bit(diameter: Nm) -> Result<Cutter, Error> {
        within!(DIAMETER, diameter.nm());
        Ok(Cutter::Bit { diameter })
    }

    /// Full width of the cut.
    pub const fn kerf(&self) -> Nm {
        match *self {
            Cutter::Blade { kerf, .. } | Cutter::Beam { kerf } => kerf,
            Cutter::Bit { diameter } => diameter,
        }
    }

    /// Radius of the fillet that a round cutter leaves in every inner corner of a part; a blade leaves none.
    pub const fn corner_radius(&self) -> Nm {
        match *self {
            Cutter::Blade { .. } => Nm::ZERO,
            Cutter::Beam { .. } | Cutter::Bit { .. } => Nm::raw(crate::round::half(self.kerf().nm())),
        }
    }
}
