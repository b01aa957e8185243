//! The order of putting together: straight moves along the axes, one board at a time, the base first where that can be.
//!
//! It is found by taking apart: a board that can leave with all others there can also leave when some are gone, so taking whatever
//! comes off never leads into a dead end. Boards that are joined to each other but to no other, as a lid and its battens, come off as one
//! where they can, and are taken apart by themselves.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

use super::blocked::blocked;
use super::body::Body;
use super::section;
use super::swept::Sliced;
use crate::assembly::{Blocks, Board, Panel};
use crate::error::{Code, Error, Failure};
use crate::point::Axis;

/// A direction along an axis, shown as `+x`, `-z` and so on; where boards are turned perhaps along one of the panel's own: `+w`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Direction {
    /// The axis of the assembly; or, of the panel's own, x for u, y for v and z for w.
    pub axis: Axis,
    /// Towards higher coordinates.
    pub upwards: bool,
    /// Along the panel's own axis, not the assembly's.
    pub own: bool,
}

/// Upwards.
const UP: Direction = Direction { axis: Axis::Z, upwards: true, own: false };

impl Direction {
    /// Directions in which boards are taken off, the handiest first.
    const HANDY: [Direction; 6] = [
        UP,
        Direction { axis: Axis::Y, upwards: false, own: false },
        Direction { axis: Axis::Y, upwards: true, own: false },
        Direction { axis: Axis::X, upwards: false, own: false },
        Direction { axis: Axis::X, upwards: true, own: false },
        Direction { axis: Axis::Z, upwards: false, own: false },
    ];

    /// The direction in assembly coordinates, of length 1, for a board that stands there.
    pub fn vector(self, board: &Board) -> [f64; 3] {
        let sign = if self.upwards { 1.0 } else { -1.0 };
        let [x, y, z, _] = board.frame().matrix();
        if self.own {
            return [x, y, z].map(|row| sign * row.get(self.axis.index()).copied().unwrap_or(0.0));
        }
        Axis::ALL.map(|axis| if axis == self.axis { sign } else { 0.0 })
    }

    fn reversed(self) -> Direction {
        Direction { upwards: !self.upwards, ..self }
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let own = match self.axis {
            Axis::X => "u",
            Axis::Y => "v",
            Axis::Z => "w",
        };
        write!(f, "{}{}", if self.upwards { '+' } else { '-' }, if self.own { own } else { self.axis.name() })
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
    /// Boards that were joined to it before, apart from the others, and move along.
    pub along: Vec<usize>,
}

/// The moves that put the panels together, in order; one a panel.
///
/// Boards that are joined to each other but to no other board make a piece of their own. Its moves come first, with one of its boards,
/// the largest where that can be, at rest; then that board has its move, with the others [along](Step::along).
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
    let axis = panels.iter().find_map(|panel| panel.board().upright());
    let bodies: Vec<Mover> = panels.iter().map(|panel| Mover::new(panel, axis)).collect();
    let all: Vec<usize> = (0..panels.len()).collect();
    let joined = joined(panels);
    let put_together = |base| -> Result<Vec<Step>, Failure> {
        let mut steps = take_apart(panels, &bodies, &joined, &all, base)?;
        steps.reverse();
        Ok(steps)
    };
    let mut bases = bases(&bodies).into_iter();
    let first = put_together(bases.next())?;
    // What comes from below when the base stands already is awkward; another base may do without.
    let awkward = |steps: &[Step]| steps.iter().skip(1).any(|step| step.direction == UP);
    if !awkward(&first) {
        return Ok(first);
    }
    let others = bases.take(8).filter_map(|base| put_together(Some(base)).ok());
    Ok(others.into_iter().find(|steps| !awkward(steps)).unwrap_or(first))
}

/// The moves in which some of the panels come apart, with one board left for the last, backwards.
fn take_apart(panels: &[Panel], bodies: &[Mover], joined: &[Vec<usize>], some: &[usize], base: Option<usize>) -> Result<Vec<Step>, Failure> {
    let mut hold = Hold::of(bodies, some);
    let mut wholes: Vec<&Vec<usize>> =
        joined.iter().filter(|whole| whole.len() < some.len() && base.is_none_or(|base| !whole.contains(&base))).collect();
    // Taken off first: what stands highest, then what was added last; the base last of all.
    let mut wanted = some.to_vec();
    wanted.sort_by_key(|&i| (Some(i) == base, bodies.get(i).map(|mover| core::cmp::Reverse(mover.body.extent(Axis::Z).0)), core::cmp::Reverse(i)));
    let mut steps = Vec::with_capacity(some.len());
    while !wanted.is_empty() {
        if let Some((place, way)) = wholes.iter().enumerate().find_map(|(place, whole)| Some((place, hold.way_out_together(whole)?))) {
            let whole = wholes.remove(place);
            let mut inner = take_apart(panels, bodies, joined, whole, largest(bodies, whole))?;
            if let Some(last) = inner.pop() {
                let along = whole.iter().copied().filter(|&board| board != last.board).collect();
                steps.push(Step { direction: way.reversed(), along, ..last });
            }
            steps.append(&mut inner);
            hold.release(whole);
            wanted.retain(|board| !whole.contains(board));
            continue;
        }
        let free = wanted.iter().enumerate().find_map(|(place, &board)| hold.way_out(board).map(|way| (place, board, way)));
        let Some((place, board, way)) = free else {
            wanted.sort_unstable();
            let names: Vec<String> = wanted.iter().filter_map(|&i| panels.get(i)).map(|panel| format!("\"{}\"", panel.name())).collect();
            return Err(Failure::at(Error::bare(Code::Locked, "order"), format!("boards {}", names.join(", "))));
        };
        wanted.remove(place);
        hold.release(&[board]);
        wholes.retain(|whole| !whole.contains(&board));
        let name = panels.get(board).map_or_else(String::new, |panel| String::from(panel.name()));
        steps.push(Step { board, name, direction: way.reversed(), along: Vec::new() });
    }
    Ok(steps)
}

/// The boards that hang together by blocks, as lists of two boards or more; empty where all hang together.
fn joined(panels: &[Panel]) -> Vec<Vec<usize>> {
    let boards: Vec<&Board> = panels.iter().map(Panel::board).collect();
    let Ok(blocks) = Blocks::of(&boards) else { return Vec::new() };
    let mut seen = alloc::vec![false; boards.len()];
    let mut all = Vec::new();
    for start in 0..boards.len() {
        let mut whole = Vec::new();
        let mut waiting = alloc::vec![start];
        while let Some(board) = waiting.pop() {
            if let Some(seen) = seen.get_mut(board).filter(|seen| !**seen) {
                *seen = true;
                whole.push(board);
                waiting.extend(blocks.of_board(board as u16).map(|(_, block)| usize::from(block.mate(board as u16))));
            }
        }
        whole.sort_unstable();
        all.push(whole);
    }
    all.retain(|whole| whole.len() > 1 && whole.len() < boards.len());
    all
}

/// The largest of some boards, the one added first of two as large.
fn largest(bodies: &[Mover], some: &[usize]) -> Option<usize> {
    let area = |board: usize| bodies.get(board).map_or(0, |mover| mover.body.shape.twice_area());
    some.iter().copied().max_by_key(|&board| (area(board), core::cmp::Reverse(board)))
}

/// The boards that everything else may be built on: the lowest ones, those that lie level first.
fn bases(bodies: &[Mover]) -> Vec<usize> {
    let lowest = bodies.iter().map(|mover| mover.body.extent(Axis::Z).0).min();
    let at_bottom = |(_, mover): &(usize, &Mover)| Some(mover.body.extent(Axis::Z).0) == lowest;
    let mut bases: Vec<usize> = bodies.iter().enumerate().filter(at_bottom).map(|(number, _)| number).collect();
    bases.sort_by_key(|&number| bodies.get(number).map(|mover| mover.body.normal() != Axis::Z));
    bases
}

/// A board that is to be moved.
struct Mover<'a> {
    body: Body<'a>,
    /// In slices where boards are turned.
    sliced: Option<Sliced<'a>>,
}

/// Room for the sections of two boards.
type Room = [Vec<section::Step>; 2];

impl<'a> Mover<'a> {
    fn new(panel: &'a Panel, axis: Option<Axis>) -> Mover<'a> {
        let sliced = axis.map(|axis| Sliced::new(panel.board(), panel.shape(), axis));
        Mover { body: Body::new(panel.board(), panel.shape()), sliced }
    }

    fn ways(&self) -> [Direction; 6] {
        self.sliced.as_ref().map_or(Direction::HANDY, Sliced::ways)
    }

    fn blocked(&self, other: &Mover, way: Direction, [p, q]: &mut Room) -> bool {
        match (&self.sliced, &other.sliced) {
            (Some(own), Some(other)) => own.blocked(other, way),
            _ => blocked(&self.body, &other.body, way.axis, way.upwards, p, q),
        }
    }
}

/// What holds each board in each handy direction.
///
/// One board that is still there is enough; only when it is gone is the next one looked for. So most pairs are never asked.
struct Hold<'a> {
    bodies: &'a [Mover<'a>],
    gone: Vec<bool>,
    /// For each board and direction, a board that was found in the way; all before it are not, or are gone.
    by: Vec<[Option<usize>; 6]>,
}

impl<'a> Hold<'a> {
    /// Only some of the boards are there.
    fn of(bodies: &'a [Mover<'a>], some: &[usize]) -> Hold<'a> {
        let mut gone = alloc::vec![true; bodies.len()];
        for &board in some {
            if let Some(gone) = gone.get_mut(board) {
                *gone = false;
            }
        }
        Hold { bodies, gone, by: alloc::vec![[None; 6]; bodies.len()] }
    }

    /// The way in which all of `whole` may leave at once.
    fn way_out_together(&self, whole: &[usize]) -> Option<Direction> {
        let mut room = Room::default();
        let mut held = |way: Direction, mover: &Mover| {
            let mut others = self.bodies.iter().zip(&self.gone).enumerate().filter(|(other, (_, gone))| !**gone && !whole.contains(other));
            others.any(|(_, (other, _))| mover.blocked(other, way, &mut room))
        };
        let bodies = || whole.iter().filter_map(|&board| self.bodies.get(board));
        Direction::HANDY.into_iter().find(|&way| !bodies().any(|mover| held(way, mover)))
    }

    fn way_out(&mut self, board: usize) -> Option<Direction> {
        let mover = self.bodies.get(board)?;
        let mut room = Room::default();
        for (way, by) in mover.ways().into_iter().zip(self.by.get_mut(board)?) {
            if by.and_then(|other| self.gone.get(other)) == Some(&false) {
                continue;
            }
            let mut others = self.bodies.iter().zip(&self.gone).enumerate().skip(by.map_or(0, |other| other + 1));
            *by = others.find_map(|(other, (solid, gone))| (other != board && !gone && mover.blocked(solid, way, &mut room)).then_some(other));
            if by.is_none() {
                return Some(way);
            }
        }
        None
    }

    fn release(&mut self, boards: &[usize]) {
        for &board in boards {
            if let Some(gone) = self.gone.get_mut(board) {
                *gone = true;
            }
        }
    }
}
