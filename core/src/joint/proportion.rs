//! Handbook proportions of joints that are set out by hand: how thick, how wide, how deep.
//!
//! ```text
//!     _________                        ____________________
//!    |  cheek  |__________            |                    |  thickness
//!    |_________|          | T         |____            ____|
//!    |  tenon  |  tenon   | / 3            |__________|       housing: a third of it
//!    |_________|__________|
//!    |  cheek  |
//! ```
//!
//! Fairham: William Fairham, *Woodwork Joints*; Noyes: William Noyes, *Handwork in Wood* (1910); Griffith: Ira S. Griffith, *Essentials of
//! Woodworking* (1908). Sharp tools: follow their makers' instructions.

use crate::bounds::{LAP, SIZE, THICKNESS};
use crate::error::Error;
use crate::length::Nm;
use crate::round::{half, nearest};

/// What Fairham lets a through tenon stand proud, to be trimmed: 1/4 in ("The two cross rails", Fig. 177).
const PROUD: i64 = 6_350_000;

/// A board's thickness in three: cheek, tenon and cheek of a mortise and tenon (Fairham, "General rule"; Noyes No. 42), or the laps of three
/// boards that cross at one line (Fairham, "The Halved Joint", Figs 45-46). Each is a third, and together they are the thickness, to the nanometre.
///
/// # Errors
/// [`crate::Code::OutOfRange`] for a thickness outside [`THICKNESS`].
///
/// ```
/// use dryfit_core::{Nm, proportion::thirds};
/// let [cheek, tenon, other] = thirds(Nm::from_mm(18.0)?)?;
/// assert_eq!((cheek, tenon, other), (Nm::from_mm(6.0)?, Nm::from_mm(6.0)?, Nm::from_mm(6.0)?));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn thirds(thickness: Nm) -> Result<[Nm; 3], Error> {
    let whole = THICKNESS.check(thickness.nm())?;
    let place = |i: i128| nearest(i * i128::from(whole), 3);
    Ok([place(1), place(2) - place(1), whole - place(2)].map(Nm::raw))
}

/// The width of a haunched tenon on a grooved rail: half the rail less the groove's depth (Noyes No. 42).
///
/// # Errors
/// [`crate::Code::OutOfRange`] for a rail outside [`SIZE`], or a groove that leaves no tenon.
///
/// ```
/// use dryfit_core::{Nm, proportion::haunched_tenon};
/// assert_eq!(haunched_tenon(Nm::from_mm(90.0)?, Nm::from_mm(6.0)?)?, Nm::from_mm(39.0)?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn haunched_tenon(rail: Nm, groove: Nm) -> Result<Nm, Error> {
    let room = half(SIZE.named("rail width").check(rail.nm())?);
    let groove = LAP.named("groove depth").most(room - 1).check(groove.nm())?;
    Ok(Nm::raw(room - groove))
}

/// The length of a through tenon before it is trimmed: the mortised member's thickness (Noyes No. 31) and 1/4 in (Fairham, Fig. 177).
///
/// # Errors
/// [`crate::Code::OutOfRange`] for a thickness outside [`THICKNESS`].
///
/// ```
/// use dryfit_core::{Nm, proportion::through_tenon};
/// assert_eq!(through_tenon(Nm::from_mm(20.0)?)?, Nm::from_mm(26.35)?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn through_tenon(mortised: Nm) -> Result<Nm, Error> {
    Ok(Nm::raw(THICKNESS.check(mortised.nm())? + PROUD))
}

/// How far the inner side of a keyed tenon's key hole lies from the shoulder: `less` than the mortised member's thickness, so that the key
/// draws the joint together. 1/16 in by Noyes (No. 39), 1/32 in by Griffith (section 91).
///
/// # Errors
/// [`crate::Code::OutOfRange`] for a thickness outside [`THICKNESS`], or for `less` of 0 or beyond it.
///
/// ```
/// use dryfit_core::{Nm, proportion::key_hole};
/// assert_eq!(key_hole(Nm::parse("1 in")?, Nm::parse("1/16 in")?)?, Nm::parse("15/16 in")?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn key_hole(mortised: Nm, less: Nm) -> Result<Nm, Error> {
    let thickness = THICKNESS.check(mortised.nm())?;
    let less = SIZE.named("draw").most(thickness - 1).check(less.nm())?;
    Ok(Nm::raw(thickness - less))
}

/// How deep a housing (dado) goes into a board: a third of its thickness. From memory: a common trade rule, in none of the three books.
///
/// # Errors
/// [`crate::Code::OutOfRange`] for a thickness outside [`THICKNESS`].
///
/// ```
/// use dryfit_core::{Nm, proportion::housing_depth};
/// assert_eq!(housing_depth(Nm::parse("1 1/8 in")?)?, Nm::parse("3/8 in")?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn housing_depth(thickness: Nm) -> Result<Nm, Error> {
    thirds(thickness).map(|[depth, ..]| depth)
}

/// Where a dovetailed housing begins to taper: its first 3/4 are parallel (Fairham, frame dovetails, Fig. 284C).
///
/// # Errors
/// [`crate::Code::OutOfRange`] for a width outside [`SIZE`].
///
/// ```
/// use dryfit_core::{Nm, proportion::housing_parallel};
/// assert_eq!(housing_parallel(Nm::from_mm(200.0)?)?, Nm::from_mm(150.0)?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn housing_parallel(width: Nm) -> Result<Nm, Error> {
    Ok(Nm::raw(nearest(3 * i128::from(SIZE.named("width").check(width.nm())?), 4)))
}
