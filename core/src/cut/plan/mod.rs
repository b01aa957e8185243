//! From the lines of a sheet to everything that a machine does.

mod hand;
mod passes;
mod pieces;
mod ramp;
mod spec;

use alloc::vec::Vec;

use self::hand::Hand;
use self::pieces::Piece;
use self::spec::Ways;
use super::{Action, Contour, Cutter, Many, Move};
use crate::error::Error;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;

pub use passes::{Pass, PassOrder, PassSpec};
pub use spec::MotionSpec;

/// Everything that a machine does to cut one sheet.
///
/// The lines are cut in the order of a [`crate::Route`]. Bridges leave them in pieces; a beam or bit comes to each piece from the waste; a blade's axis is
/// led so that its tip follows the line. The blade is taken to point along x before the first cut, as if it had come from the left.
///
/// ```
/// use dryfit_core::{Action, Cutter, Item, LayoutSpec, MotionSpec, Nm, Plan, Point, Shape, Stock};
/// let mm = |v| Nm::from_mm(v);
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let tile = Shape::from_loops([[p(0.0, 0.0)?, p(40.0, 0.0)?, p(40.0, 25.0)?, p(0.0, 25.0)?]]);
/// let items = [Item::new("tile", &tile)];
/// let stock = Stock::new(mm(2.5)?, [mm(100.0)?, mm(50.0)?], mm(8.0)?, mm(1.0)?)?;
/// let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
/// let blade = Cutter::blade(Nm::ZERO, mm(0.25)?)?;
/// let plan = layout.sheets[0].plan(&items, blade, &MotionSpec::default())?;
/// let mut travels = 0;
/// plan.act(|action| {
///     travels += usize::from(matches!(action, Action::Travel(_)));
///     Ok(())
/// })?;
/// assert_eq!(travels, 1);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    spec: MotionSpec,
    cutter: Cutter,
    ways: Ways,
    passes: Vec<Pass>,
    order: PassOrder,
    pieces: Vec<Piece>,
    bridges: usize,
    bare: Vec<usize>,
    unled: usize,
}

/// A line as a tool's axis goes along it, without passes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Track {
    /// What it is for.
    pub kind: LineKind,
    /// Whether it ends where it began.
    pub closed: bool,
    /// Its moves, each from where the last one ended.
    pub moves: Vec<Move>,
}

impl Track {
    /// A line of a sheet as it is.
    pub fn of(line: &Contour) -> Track {
        Track { kind: line.kind, closed: line.closed, moves: line.edges().collect() }
    }
}

impl Plan {
    /// Plans the motion along lines of a sheet of this thickness; ways in keep inside the rectangle `room`.
    ///
    /// # Errors
    /// As [`PassSpec::passes`] and [`PassSpec::order`]; [`crate::Code::OutOfRange`] with the parameter's name; [`crate::Code::NotOfThisTool`] for a setting that the tool
    /// has not.
    pub fn new(lines: Vec<Contour>, thickness: Nm, room: [Point; 2], cutter: Cutter, spec: &MotionSpec) -> Result<Plan, Error> {
        let passes = spec.passes.passes(cutter, thickness)?;
        let order = spec.passes.order()?;
        let ways = spec.ways(cutter, passes.last().map_or(Nm::ZERO, |pass| pass.depth))?;
        let cut = pieces::pieces(lines, room, cutter, spec)?;
        Ok(Plan { spec: *spec, cutter, ways, passes, order, pieces: cut.pieces, bridges: cut.bridges, bare: cut.bare, unled: cut.unled })
    }

    /// The same with more parts that have no place for a bridge, if there should be any.
    pub(crate) fn and_bare(mut self, parts: impl Iterator<Item = usize>) -> Plan {
        if self.spec.bridges(self.cutter).many != Many::Count(0) {
            self.bare.extend(parts);
        }
        self
    }

    /// What was asked.
    pub const fn spec(&self) -> &MotionSpec {
        &self.spec
    }

    /// The tool.
    pub const fn cutter(&self) -> Cutter {
        self.cutter
    }

    /// How deep and how strong each pass is.
    pub fn passes(&self) -> &[Pass] {
        &self.passes
    }

    /// How many bridges hold the parts.
    pub const fn bridges(&self) -> usize {
        self.bridges
    }

    /// The numbers of the parts that should have bridges and have no place for one.
    pub fn bare(&self) -> &[usize] {
        &self.bare
    }

    /// How many cuts of a beam or bit begin on the line itself, since there is no room for a way in.
    pub const fn unled(&self) -> usize {
        self.unled
    }

    /// Hands every action over, in order.
    ///
    /// # Errors
    /// What `each` says.
    pub fn act(&self, each: impl FnMut(&Action) -> Result<(), Error>) -> Result<(), Error> {
        let mut hand = Hand::new(self, each);
        match self.order {
            PassOrder::Line => self.pieces.iter().try_for_each(|piece| self.passes.iter().try_for_each(|pass| hand.piece(piece, *pass))),
            PassOrder::Sheet => self.passes.iter().enumerate().try_for_each(|(number, pass)| {
                if number > 0 && self.spec.passes.pause {
                    hand.pause()?;
                }
                self.pieces.iter().try_for_each(|piece| hand.piece(piece, *pass))
            }),
        }
    }

    /// Every line as the tool's axis goes along it, once.
    pub fn tracks(&self) -> Vec<Track> {
        let mut offset = self.first_offset();
        let track = |piece: &Piece| {
            let (kind, closed) = (piece.kind, piece.closed && piece.lead.is_empty());
            let Ways::Blade { knife, .. } = self.ways else {
                let moves = piece.lead.iter().chain(&piece.moves).flat_map(|&way| self.straightened(way));
                return Track { kind, closed, moves: moves.collect() };
            };
            let mut axis = knife.follow(piece.moves.iter().copied(), piece.closed, offset);
            let moves = axis.by_ref().flat_map(|axis| self.straightened(axis.way)).collect();
            offset = axis.offset().or(offset);
            Track { kind, closed: false, moves }
        };
        self.pieces.iter().map(track).collect()
    }

    /// The way with the tool down in nanometres, all passes together.
    pub fn length(&self) -> i64 {
        let mut length = 0i64;
        // What only adds up never fails.
        let _ = self.act(|action| {
            if let Action::Cut(way) | Action::Ramp { way, .. } = action {
                length = length.saturating_add(way.length());
            }
            Ok(())
        });
        length
    }

    /// How far a blade's tip strays from the line at most; see [`crate::Knife::deviation`]. Nothing for other tools. What [`MotionSpec::flat`] costs is not counted.
    pub fn deviation(&self) -> Nm {
        let Ways::Blade { knife, .. } = self.ways else { return Nm::ZERO };
        let strays = self.pieces.iter().map(|piece| knife.deviation(piece.moves.iter().copied(), piece.closed));
        strays.max().unwrap_or_default()
    }

    /// How a blade points before the first cut: along x.
    fn first_offset(&self) -> Option<Point> {
        match self.cutter {
            Cutter::Blade { trail, .. } => Some(Point::new(trail, Nm::ZERO)),
            _ => None,
        }
    }

    /// A move as it is written: an arc, or its chords.
    fn straightened(&self, way: Move) -> impl Iterator<Item = Move> + use<> {
        super::flat(way, self.spec.flat)
    }
}

#[cfg(test)]
#[path = "plan_tests.rs"]
mod tests;
