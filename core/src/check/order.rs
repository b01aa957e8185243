//! The order of putting together: straight moves along the axes, one board at a time, the base first where that can be.
//!
//! It is found by taking apart: a board that can leave with all others there can also leave when some are gone, so taking whatever
//! comes off never leads into a dead end.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

use super::blocked::blocked;
use super::body::Body;
use super::section::Step as Section;
use crate::assembly::Panel;
use crate::error::{Code, Error, Failure};
use crate::point::Axis;
use crate::shape::Shape;

/// A direction along an axis, shown as `+x`, `-z` and so on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Direction {
    /// The axis.
    pub axis: Axis,
    /// Towards higher coordinates.
    pub upwards: bool,
}

impl Direction {
    /// Directions in which boards are taken off, the handiest first.
    const HANDY: [Direction; 6] = [
        Direction { axis: Axis::Z, upwards: true },
        Direction { axis: Axis::Y, upwards: false },
        Direction { axis: Axis::Y, upwards: true },
        Direction { axis: Axis::X, upwards: false },
        Direction { axis: Axis::X, upwards: true },
        Direction { axis: Axis::Z, upwards: false },
    ];

    fn reversed(self) -> Direction {
        Direction { upwards: !self.upwards, ..self }
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", if self.upwards { '+' } else { '-' }, self.axis.name())
    }
}

/// One move of putting together.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Step {
    /// The board's number in the assembly.
    pub board: usize,
    /// Its name.
    pub name: String,
    /// The direction in which it is moved into place.
    pub direction: Direction,
}

/// The moves that put the panels together, in order.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, order};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let steps = order(&panels)?;
/// assert_eq!(steps[0].name, "base");
/// assert_eq!(steps[5].direction.to_string(), "-z"); // the top goes on downwards
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
///
/// # Errors
/// [`Code::Locked`] with the boards that hold each other so that none of them can move.
pub fn order(panels: &[Panel]) -> Result<Vec<Step>, Failure> {
    let shapes: Vec<Shape> = panels.iter().map(Panel::shape).collect();
    let bodies: Vec<Body> = panels.iter().zip(&shapes).map(|(panel, shape)| Body::new(panel.board(), shape)).collect();
    let mut hold = Hold::new(&bodies);
    let base = base(&bodies);
    // Taken off first: what stands highest, then what was added last; the base last of all.
    let mut wanted: Vec<usize> = (0..bodies.len()).collect();
    wanted.sort_by_key(|&i| (Some(i) == base, bodies.get(i).map(|body| core::cmp::Reverse(body.extent(Axis::Z).0)), core::cmp::Reverse(i)));
    let mut steps = Vec::with_capacity(bodies.len());
    while !wanted.is_empty() {
        let free = wanted.iter().enumerate().find_map(|(place, &board)| hold.way_out(board).map(|way| (place, board, way)));
        let Some((place, board, way)) = free else {
            wanted.sort_unstable();
            let names: Vec<String> = wanted.iter().filter_map(|&i| panels.get(i)).map(|panel| format!("\"{}\"", panel.name())).collect();
            return Err(Failure::at(Error::bare(Code::Locked, "order"), format!("boards {}", names.join(", "))));
        };
        wanted.remove(place);
        hold.release(board);
        let name = panels.get(board).map_or_else(String::new, |panel| String::from(panel.name()));
        steps.push(Step { board, name, direction: way.reversed() });
    }
    steps.reverse();
    Ok(steps)
}

/// The board that everything else is built on: a level one among the lowest, else the first of the lowest.
fn base(bodies: &[Body]) -> Option<usize> {
    let lowest = bodies.iter().map(|body| body.extent(Axis::Z).0).min()?;
    let at_bottom = |level: bool| bodies.iter().position(|body| body.extent(Axis::Z).0 == lowest && (!level || body.normal() == Axis::Z));
    at_bottom(true).or_else(|| at_bottom(false))
}

/// Who holds whom, found out as far as it matters.
struct Hold<'a> {
    bodies: &'a [Body<'a>],
    gone: Vec<bool>,
    /// For each board and handy direction, how far the others have been looked through.
    looks: Vec<[Look; 6]>,
    room: (Vec<Section>, Vec<Section>),
}

/// The others before `next` are not in the way, or are gone: neither comes back.
#[derive(Clone, Copy, Debug, Default)]
struct Look {
    next: usize,
    /// The one at `next` is in the way.
    held: bool,
}

impl<'a> Hold<'a> {
    fn new(bodies: &'a [Body<'a>]) -> Hold<'a> {
        let (gone, looks) = (alloc::vec![false; bodies.len()], alloc::vec![[Look::default(); 6]; bodies.len()]);
        Hold { bodies, gone, looks, room: (Vec::new(), Vec::new()) }
    }

    /// A direction in which nothing is in a board's way any more.
    fn way_out(&mut self, board: usize) -> Option<Direction> {
        let (body, looks) = (self.bodies.get(board)?, self.looks.get_mut(board)?);
        Direction::HANDY.into_iter().zip(looks).find_map(|(way, look)| {
            while let (Some(other), Some(&gone)) = (self.bodies.get(look.next), self.gone.get(look.next)) {
                let free = gone || look.next == board;
                look.held = !free && (look.held || blocked(body, other, way.axis, way.upwards, &mut self.room.0, &mut self.room.1));
                if look.held {
                    return None;
                }
                look.next += 1;
            }
            Some(way)
        })
    }

    fn release(&mut self, board: usize) {
        if let Some(gone) = self.gone.get_mut(board) {
            *gone = true;
        }
    }
}
