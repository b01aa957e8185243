//! What the handbooks advise against.

use core::fmt;

use super::layout::DovetailWidths;
use crate::length::Nm;
use crate::ratio::Ratio;

/// A proportion outside a handbook's range. Texts disagree, so none of these is an error. (What comes of it is common practice, no source.)
///
/// ```
/// use dryfit_core::{DovetailCorner, Nm, Ratio};
/// let mm = Nm::from_mm;
/// let layout = DovetailCorner::new(mm(120.0)?, mm(12.0)?, mm(12.0)?, 5, Ratio::new(1, 5)?).layout()?;
/// let said: Vec<_> = layout.warnings().map(|warning| warning.to_string()).collect();
/// assert_eq!(said, ["slope: 1:5 given, advised 1:8 to 1:6 (Fairham, Woodwork Joints): corners of tails as steep as this break off"]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum DovetailWarning {
    /// Steeper than 1:6. Fairham's limit; Noyes draws 5:24, a little more than 1:5.
    SlopeSteep(Ratio),
    /// Flatter than 1:8, which Fairham gives as correct.
    SlopeFlat(Ratio),
    /// At the baseline, tails more than four times as wide as the sockets (Noyes).
    TailOverFourSockets {
        /// The tail's width.
        tail: Nm,
        /// The socket's width.
        socket: Nm,
    },
    /// At the baseline, tails wider than 1 3/4 in (Noyes).
    TailWide(Nm),
    /// Pins whose narrow edge is below 1/16 in (Griffith).
    PinNarrow(Nm),
}

/// Noyes, *Handwork in Wood*, No. 48: ordinarily not wider than 1 3/4 in.
const WIDEST_TAIL: Nm = Nm::raw(44_450_000);
/// Griffith, *Essentials of Woodworking*, section 100: in fine work scarcely more than 1/16 in, a narrow saw kerf.
const NARROWEST_PIN: Nm = Nm::raw(1_587_500);

/// All that apply.
pub(super) fn warnings(slope: Ratio, width: Nm, count: u32, socket: Nm, widths: DovetailWidths) -> impl Iterator<Item = DovetailWarning> + use<> {
    let (rise, run) = (u64::from(slope.num()), u64::from(slope.den()));
    let [tail, _] = widths.tail;
    let [_, pin] = widths.socket;
    // All tails together, so that no rounding decides.
    let tails = |one: Nm| one.nm() * i64::from(count);
    [
        (6 * rise > run).then_some(DovetailWarning::SlopeSteep(slope)),
        (8 * rise < run).then_some(DovetailWarning::SlopeFlat(slope)),
        (width.nm() > 5 * tails(socket)).then_some(DovetailWarning::TailOverFourSockets { tail, socket }),
        (width.nm() > tails(socket) + tails(WIDEST_TAIL)).then_some(DovetailWarning::TailWide(tail)),
        (pin < NARROWEST_PIN).then_some(DovetailWarning::PinNarrow(pin)),
    ]
    .into_iter()
    .flatten()
}

impl fmt::Display for DovetailWarning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let slope = |f: &mut fmt::Formatter<'_>, slope: Ratio, why: &str| {
            write!(f, "slope: {}:{} given, advised 1:8 to 1:6 (Fairham, Woodwork Joints): {why}", slope.num(), slope.den())
        };
        match *self {
            DovetailWarning::SlopeSteep(given) => slope(f, given, "corners of tails as steep as this break off"),
            DovetailWarning::SlopeFlat(given) => slope(f, given, "tails as flat as this pull out"),
            DovetailWarning::TailOverFourSockets { tail, socket } => {
                write!(f, "tail width: {tail} given, advised at most four times the socket's {socket} (Noyes, Handwork in Wood, No. 48)")
            }
            DovetailWarning::TailWide(tail) => {
                write!(f, "tail width: {tail} given, advised at most {WIDEST_TAIL} (Noyes, Handwork in Wood, No. 48)")
            }
            DovetailWarning::PinNarrow(pin) => {
                write!(
                    f,
                    "pin width at the narrow edge: {pin} given, advised at least {NARROWEST_PIN} (Griffith, Essentials of Woodworking, section 100)"
                )
            }
        }
    }
}
