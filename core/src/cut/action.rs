//! What a machine does, one thing after the other.

use super::moves::Move;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;

/// One thing that a machine does. The actions of a whole sheet are what the writers of motion files are fed with.
///
/// Depths are measured downwards from the face of the board.
///
/// ```
/// use dryfit_core::{LineKind, Move, Nm, Point, Action};
/// let at = |x| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::ZERO));
/// let line = Move { from: at(5.0)?, to: at(45.0)?, centre: None, clockwise: true };
/// let lower = Action::Lower { depth: Nm::from_mm(2.0)?, power: 0 };
/// let actions = [Action::Line(LineKind::CutOuter), Action::Travel(line.from), lower, Action::Cut(line), Action::Lift];
/// assert!(actions.contains(&Action::Cut(line)));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Action {
    /// The cuts that follow are of this kind.
    Line(LineKind),
    /// With the tool up, straight to a point.
    Travel(Point),
    /// The tool goes to a depth where it stands, from above or from another depth; a beam is turned on.
    Lower {
        /// How deep the tool stands then. A beam has none.
        depth: Nm,
        /// A beam's power in millionths of the machine's own unit; 0 for other tools.
        power: i64,
    },
    /// Along, at the depth that the tool has.
    Cut(Move),
    /// Along, while the tool sinks evenly to a depth: the ramp of a bit.
    Ramp {
        /// The way.
        way: Move,
        /// How deep the tool stands at its end.
        depth: Nm,
    },
    /// The tool goes up; a beam is turned off.
    Lift,
    /// The machine waits for its operator, with the tool up.
    Pause,
}
