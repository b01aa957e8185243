//! The corner dovetail, set out for saw and chisel.
//!
//! ```text
//!      the tail board's face                        the pin board's end grain
//!
//!       _________     _________     end             ___________________________    outer face
//!       \       /     \       /                    |  \       /     \       /  |
//!    ____\     /_______\     /____  baseline       |___\_____/_______\_____/___|   inner face
//!   |                             |
//!
//!   half   tail  socket  tail   half               half  tail's   pin         half
//!   socket                      socket             pin   socket               pin
//! ```
//!
//! The slope lies in the tail board's face only: the pins' side faces stand square on the pin board's faces, and lean on its end grain
//! (Fairham, *Woodwork Joints*, "The Dovetail Joint", Fig. 303). So a machine that cuts straight down makes the tail board, and **never the
//! pin board**: all lines on that one are marks to work to by hand, none is a cut.
//!
//! Setting out after Noyes, *Handwork in Wood* (1910), No. 48: with board width `W`, `N` tails, greatest socket width `g` at the baseline, slope
//! `s` and the tails' length `t`, a tail is `W / N - g` wide at the baseline and `W / N - g + 2 t s` at the end, a socket `g` and `g - 2 t s`,
//! and half a socket is left at either edge. That is the pattern of [`Tails`] with half pins, so both are rounded alike.
//!
//! Chisels and saws are sharp: clamp the work, keep both hands behind the edge, and follow the toolmaker's instructions.

mod layout;
mod warning;

pub use layout::{DovetailLayout, DovetailWidths, LayoutLine, Stroke, Surface};
pub use warning::DovetailWarning;

use super::tails::Tails;
use crate::bounds::{FINGER_COUNT, GAUGE, LAP, RATIO_TERM, SIZE, THICKNESS};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::ratio::Ratio;
use crate::round::{half, nearest};

/// A dovetailed corner of two boards of one width, to be set out and cut by hand.
///
/// Through unless told to be lapped: then the tails end in the pin board's thickness and a lap hides them from its outer face.
///
/// ```
/// use dryfit_core::{DovetailCorner, Nm, Ratio};
/// let mm = Nm::from_mm;
/// // Noyes's rule on 120 mm: five tails, sockets of 8 mm at the baseline, boards of 12 mm, one in eight.
/// let layout = DovetailCorner::new(mm(120.0)?, mm(12.0)?, mm(12.0)?, 5, Ratio::new(1, 8)?).socket(mm(8.0)?).layout()?;
/// assert_eq!(layout.widths().tail, [mm(16.0)?, mm(19.0)?]);
/// assert_eq!(layout.widths().half_socket, [mm(4.0)?, mm(2.5)?]);
/// assert_eq!(layout.warnings().count(), 0);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct DovetailCorner {
    width: Nm,
    tail_board: Nm,
    pin_board: Nm,
    count: u32,
    slope: Ratio,
    socket: Option<Nm>,
    lap: Option<Nm>,
    gauge: Nm,
}

impl DovetailCorner {
    /// The lap that Fairham leaves on a drawer's front, 1/4 in (*Woodwork Joints*, "Lap-dovetailing").
    pub const FRONT_LAP: Nm = Nm::raw(6_350_000);

    /// A through dovetail: `count` tails across boards of one `width`, the thickness of either board, the slope rise : run (1:8 for instance).
    /// Tails and sockets are of one width at the baseline, "the strongest arrangement" (Noyes), unless [`DovetailCorner::socket`] says otherwise.
    pub fn new(width: Nm, tail_board: Nm, pin_board: Nm, count: u32, slope: Ratio) -> DovetailCorner {
        DovetailCorner { width, tail_board, pin_board, count, slope, socket: None, lap: None, gauge: Nm::ZERO }
    }

    /// The greatest width of a socket, which it has at the baseline: as wide as a pin on the inner face.
    #[must_use]
    pub fn socket(self, width: Nm) -> DovetailCorner {
        DovetailCorner { socket: Some(width), ..self }
    }

    /// A lapped (half-blind) dovetail: `lap` of the pin board's thickness stays in front of the tails ([`DovetailCorner::FRONT_LAP`]).
    #[must_use]
    pub fn lapped(self, lap: Nm) -> DovetailCorner {
        DovetailCorner { lap: Some(lap), ..self }
    }

    /// Sets the baselines deeper by `allowance`, up to 1/32 in, so that tails and pins stand proud and are planed off
    /// (Noyes No. 48, Fairham). Lapped tails cannot stand proud: there only the pin board's baseline is deeper.
    #[must_use]
    pub fn gauge(self, allowance: Nm) -> DovetailCorner {
        DovetailCorner { gauge: allowance, ..self }
    }

    /// The layout: all widths and lines.
    ///
    /// # Errors
    /// [`Code::SocketCloses`] where the slope makes neighbouring tails meet at their ends, or sockets so wide that no tail is left;
    /// [`Code::OutOfRange`] for what lies outside [`crate::bounds`], a slope of 0 and a lap that leaves no tail.
    pub fn layout(&self) -> Result<DovetailLayout, Error> {
        let width = SIZE.named("width").check(self.width.nm())?;
        THICKNESS.named("tail board").check(self.tail_board.nm())?;
        let pin_board = THICKNESS.named("pin board").check(self.pin_board.nm())?;
        let count = FINGER_COUNT.named("tail count").check(i64::from(self.count))?;
        RATIO_TERM.named("slope rise").check(i64::from(self.slope.num()))?;
        let gauge = GAUGE.check(self.gauge.nm())?;
        let length = match self.lap {
            None => THICKNESS.named("pin board + gauge").check(pin_board + gauge)?,
            Some(lap) => pin_board - LAP.most(pin_board - 1).check(lap.nm())?,
        };
        let rise = self.slope.of(Nm::raw(length)).nm();
        let socket = self.checked_socket(width, count, rise)?;
        // A socket is widest at the baseline; the pattern wants its width at mid-depth.
        let tails = Tails::new(self.count, self.slope).pin_width(Nm::raw(socket - 2 * (rise - half(rise))));
        let pattern = tails.pattern(self.width, Nm::raw(length))?;
        Ok(DovetailLayout {
            pattern,
            tail_board: self.tail_board,
            pin_board: self.pin_board,
            lap: self.lap,
            gauge: self.gauge,
            socket: Nm::raw(socket),
        })
    }

    /// The socket's width at the baseline: with room for two flanks and the pin between them, and for tails between the sockets.
    fn checked_socket(&self, width: i64, count: i64, rise: i64) -> Result<i64, Error> {
        let (least, most) = (2 * rise + 2, width / count.max(1) - 1);
        let (socket, pitch) = match self.socket {
            None => (nearest(i128::from(width), 2 * i128::from(count)), 2 * least),
            Some(socket) => (socket.nm(), least + 1),
        };
        let most_tails = width / pitch.max(1);
        if most_tails < 1 {
            let room = if self.socket.is_some() { width - 1 } else { width / 2 };
            return Err(Error::length(Code::SocketCloses, "slope times depth", rise, 0, (room - 2) / 2));
        }
        if count > most_tails {
            return Err(Error::count(Code::SocketCloses, "tail count", count, 1, most_tails));
        }
        if socket < least || socket > most {
            return Err(Error::length(Code::SocketCloses, "socket width", socket, least, most));
        }
        Ok(socket)
    }
}

#[cfg(test)]
#[path = "../dovetail_tests.rs"]
mod tests;
