//! Screws and nuts: sizes from published standards.
//!
//! Nuts: ISO 4032:2012, hexagon regular nuts (style 1), greatest width across flats `s` and greatest height `m`. Clearance holes:
//! ISO 273:1979, fine, medium and coarse series. Pitches: ISO 261, coarse series. The figures are from memory and equal those of
//! the parts library bd-warehouse 0.4.0 (its columns iso4032:m, iso4032:s; close, normal and loose holes; pitches in the names of the sizes).

use crate::length::Nm;

/// A metric screw thread with its hexagon nut and clearance holes.
///
/// ```
/// use dryfit_core::{Clearance, Nm, Thread};
/// assert_eq!((Thread::M4.nut_width(), Thread::M4.nut_height()), (Nm::from_mm(7.0)?, Nm::from_mm(3.2)?));
/// assert_eq!(Thread::M4.hole(Clearance::Medium), Nm::from_mm(4.5)?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Thread {
    /// 2 mm.
    M2,
    /// 2.5 mm.
    M2_5,
    /// 3 mm.
    M3,
    /// 4 mm.
    M4,
    /// 5 mm.
    M5,
    /// 6 mm.
    M6,
    /// 8 mm.
    M8,
}

/// The series of a clearance hole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Clearance {
    /// H12.
    Fine,
    /// H13.
    #[default]
    Medium,
    /// H14.
    Coarse,
}

/// A row of the table, in micrometres.
struct Row {
    diameter: i64,
    pitch: i64,
    /// Across flats, and the height.
    nut: (i64, i64),
    /// Fine, medium, coarse.
    holes: [i64; 3],
}

const fn row(diameter: i64, pitch: i64, nut: (i64, i64), holes: [i64; 3]) -> Row {
    Row { diameter, pitch, nut, holes }
}

impl Thread {
    /// All of them, by size.
    pub const ALL: [Thread; 7] = [Thread::M2, Thread::M2_5, Thread::M3, Thread::M4, Thread::M5, Thread::M6, Thread::M8];

    const fn row(self) -> Row {
        match self {
            Thread::M2 => row(2000, 400, (4000, 1600), [2200, 2400, 2600]),
            Thread::M2_5 => row(2500, 450, (5000, 2000), [2700, 2900, 3100]),
            Thread::M3 => row(3000, 500, (5500, 2400), [3200, 3400, 3600]),
            Thread::M4 => row(4000, 700, (7000, 3200), [4300, 4500, 4800]),
            Thread::M5 => row(5000, 800, (8000, 4700), [5300, 5500, 5800]),
            Thread::M6 => row(6000, 1000, (10_000, 5200), [6400, 6600, 7000]),
            Thread::M8 => row(8000, 1250, (13_000, 6800), [8400, 9000, 10_000]),
        }
    }

    /// `"M2.5"` and so on.
    pub const fn name(self) -> &'static str {
        match self {
            Thread::M2 => "M2",
            Thread::M2_5 => "M2.5",
            Thread::M3 => "M3",
            Thread::M4 => "M4",
            Thread::M5 => "M5",
            Thread::M6 => "M6",
            Thread::M8 => "M8",
        }
    }

    /// Nominal diameter.
    pub const fn diameter(self) -> Nm {
        Nm::raw(self.row().diameter * 1000)
    }

    /// Pitch of the coarse series.
    pub const fn pitch(self) -> Nm {
        Nm::raw(self.row().pitch * 1000)
    }

    /// Greatest width of the nut across its flats.
    pub const fn nut_width(self) -> Nm {
        Nm::raw(self.row().nut.0 * 1000)
    }

    /// Greatest height of the nut.
    pub const fn nut_height(self) -> Nm {
        Nm::raw(self.row().nut.1 * 1000)
    }

    /// Diameter of the clearance hole.
    pub const fn hole(self, clearance: Clearance) -> Nm {
        let [fine, medium, coarse] = self.row().holes;
        Nm::raw(
            1000 * match clearance {
                Clearance::Fine => fine,
                Clearance::Medium => medium,
                Clearance::Coarse => coarse,
            },
        )
    }
}
