//! Parts: panels with allowances and kerf applied.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::cutter::Cutter;
use super::offset::offset;
use super::relief::Relief;
use crate::assembly::{Board, Panel};
use crate::bounds::{KERF, RELIEF, WEB};
use crate::error::{Code, Error, Failure};
use crate::joint::{Fit, Moved};
use crate::length::Nm;
use crate::necks;
use crate::round::half;
use crate::shape::{Shape, place};

/// One part to be cut.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Part {
    name: String,
    board: Option<Board>,
    thickness: Option<Nm>,
    path: Shape,
    finished: Shape,
}

impl Part {
    /// Its name within the job.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The slab it is cut from; a plain part has none, since it stands nowhere.
    pub const fn board(&self) -> Option<&Board> {
        self.board.as_ref()
    }

    /// The thickness of the board it is cut from; none if any will do.
    pub const fn thickness(&self) -> Option<Nm> {
        self.thickness
    }

    /// The line that the cutter's centre follows.
    pub const fn path(&self) -> &Shape {
        &self.path
    }

    /// What comes off the cutter: the path less half the kerf all around, and the relief.
    pub const fn finished(&self) -> &Shape {
        &self.finished
    }
}

/// The parts of one assembly, cut with one tool and one fit.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Piece {
    cutter: Cutter,
    fit: Fit,
    web: i64,
    relief: Option<Relief>,
    parts: Vec<Part>,
}

impl Piece {
    /// The tool.
    pub const fn cutter(&self) -> Cutter {
        self.cutter
    }

    /// The allowances.
    pub const fn fit(&self) -> Fit {
        self.fit
    }

    /// The relief of inner corners, if they have one.
    pub const fn relief(&self) -> Option<Relief> {
        self.relief
    }

    /// Its parts, in the order of the boards.
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }
}

/// A job: the parts of one or several pieces.
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Fit, Nm, Parts};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let parts = Parts::cut(&panels, Cutter::beam(mm(0.2)?)?, Fit::EXACT, Nm::ZERO)?;
/// assert_eq!(parts.iter().count(), 6);
/// assert_eq!(parts.find("front").unwrap().finished(), panels[0].shape());
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Parts {
    pieces: Vec<Piece>,
}

impl Parts {
    /// Applies allowances by role, then half the kerf all around. `web` is the least solid width that must be left.
    ///
    /// # Errors
    /// With the panel and the place: [`Code::SlotCloses`] where an edge has no length left, [`Code::CrossesNeighbour`] where two
    /// edges meet, [`Code::WebTooThin`]; [`Code::OutOfRange`] for the web or the kerf.
    pub fn cut(panels: &[Panel], cutter: Cutter, fit: Fit, web: Nm) -> Result<Parts, Failure> {
        let web = WEB.check(web.nm())?;
        let grow = half(KERF.check(cutter.kerf().nm())?);
        let part = |panel: &Panel| -> Result<Part, Failure> {
            let path = moved(panel, fit, grow)?;
            let board = panel.board().clone();
            let (name, thickness) = (String::from(panel.name()), Some(board.thickness()));
            let mut part = Part { name, board: Some(board), thickness, finished: offset(&path, -grow), path };
            if grow > 0 {
                necks::uncrossed(&part.path).map_err(|at| refuse(&part.name, CROSSING, at))?;
            }
            holes(&mut part, grow)?;
            guard(&part, web, CROSSING)?;
            Ok(part)
        };
        let parts = panels.iter().map(part).collect::<Result<Vec<Part>, Failure>>()?;
        Ok(Parts { pieces: alloc::vec![Piece { cutter, fit, web, relief: None, parts }] })
    }

    /// Plain parts, which meet no others: names and outlines as they are to be cut, without kerf, from boards of a thickness or of any.
    ///
    /// ```
    /// use dryfit_core::{Nm, Parts, Point, Shape};
    /// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
    /// let card = Shape::from_loops([[p(0.0, 0.0)?, p(60.0, 0.0)?, p(60.0, 40.0)?, p(0.0, 40.0)?]]);
    /// let parts = Parts::plain([("card", card)], None);
    /// assert_eq!(parts.find("card").map(|card| card.path().length()), Some(200_000_000));
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn plain<N: Into<String>>(outlines: impl IntoIterator<Item = (N, Shape)>, thickness: Option<Nm>) -> Parts {
        let part = |(name, path): (N, Shape)| Part { name: name.into(), board: None, thickness, finished: path.clone(), path };
        let parts = outlines.into_iter().map(part).collect();
        let cutter = Cutter::Blade { kerf: Nm::ZERO, trail: Nm::ZERO };
        Parts { pieces: alloc::vec![Piece { cutter, fit: Fit::EXACT, web: 0, relief: None, parts }] }
    }

    /// The same parts with their inner corners relieved: those that a mate must fill, so that both edges at them touch another board.
    /// What the relief takes is no fault in the dry fit, but counts as void. Pieces that have a relief keep it.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where the relief is smaller than the tool; with the panel and the place: [`Code::ReliefTooLarge`],
    /// [`Code::ReliefBreaksThrough`], and [`Code::WebTooThin`] where less than the web is left.
    pub fn relieve(mut self, relief: Relief) -> Result<Parts, Failure> {
        for piece in self.pieces.iter_mut().filter(|piece| piece.relief.is_none()) {
            let tool = half(piece.cutter.kerf().nm());
            for part in &mut piece.parts {
                let (finished, path) = relief.apply(&part.finished, tool).map_err(|(error, at)| refuse(&part.name, error, at))?;
                (part.finished, part.path) = (finished, path);
                guard(part, piece.web, Error::bare(Code::ReliefBreaksThrough, RELIEF.name))?;
            }
            piece.relief = Some(relief);
        }
        Ok(self)
    }

    /// The pieces, in the order in which they joined the job.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// All parts of all pieces.
    pub fn iter(&self) -> impl Iterator<Item = &Part> {
        self.pieces.iter().flat_map(|piece| &piece.parts)
    }

    /// The part of a name.
    pub fn find(&self, name: &str) -> Option<&Part> {
        self.iter().find(|part| part.name == name)
    }

    /// One job from two. Of equal names the later gets a number: `front`, then `front-2`.
    #[must_use]
    pub fn join(mut self, other: Parts) -> Parts {
        let mut taken: alloc::collections::BTreeSet<String> = self.iter().map(|part| part.name.clone()).collect();
        for mut piece in other.pieces {
            for part in &mut piece.parts {
                let mut name = part.name.clone();
                let mut number = 2;
                while !taken.insert(name.clone()) {
                    name = format!("{}-{number}", part.name);
                    number += 1;
                }
                part.name = name;
            }
            self.pieces.push(piece);
        }
        self
    }
}

/// A panel's outline after allowances and kerf.
fn moved(panel: &Panel, fit: Fit, grow: i64) -> Result<Shape, Failure> {
    let mut path = Shape::with_capacity(panel.rings().iter().map(Vec::len).sum(), panel.rings().len());
    for ring in panel.rings() {
        let walk = |grow| Moved::new(ring.iter().copied(), ring.len(), fit, grow);
        let refused = |at| refuse(panel.name(), Error::bare(Code::SlotCloses, "flank, cheek, tip, kerf"), at);
        // Neither the part nor the path may lose an edge.
        if let Some(part) = walk(0).filter(|_| grow != 0) {
            part.each(|_| ()).map_err(refused)?;
        }
        let mut vertices = Vec::with_capacity(ring.len());
        if let Some(moved) = walk(grow) {
            moved.each(|vertex| vertices.push(vertex)).map_err(refused)?;
        }
        path.push(vertices);
    }
    // The move may change which loop comes first.
    path.sort_loops();
    Ok(path)
}

/// Adds the holes that are closed all around; the tool goes along inside them.
fn holes(part: &mut Part, grow: i64) -> Result<(), Failure> {
    for (hole, opening) in part.board.iter().flat_map(Board::openings).filter_map(|opening| Some((opening.closed()?, opening))) {
        if opening.narrowest() <= 2 * grow {
            return Err(refuse(&part.name, Error::bare(Code::SlotCloses, "kerf"), opening.place()));
        }
        offset(&hole, grow).rings().for_each(|ring| part.path.push_ring(ring));
        hole.rings().for_each(|ring| part.finished.push_ring(ring));
    }
    part.path.sort_loops();
    part.finished.sort_loops();
    Ok(())
}

const CROSSING: Error = Error::bare(Code::CrossesNeighbour, "flank, cheek, tip, kerf");

/// No edge of the part crosses another, and no solid is thinner than the web.
fn guard(part: &Part, web: i64, crossing: Error) -> Result<(), Failure> {
    let crossing = |at| refuse(&part.name, crossing, at);
    if web == 0 {
        return necks::uncrossed(&part.finished).map_err(crossing);
    }
    match necks::thinnest(&part.finished).map_err(crossing)? {
        Some(thin) if thin.width < web => {
            let error = Error::length(Code::WebTooThin, WEB.name, thin.width, web, WEB.most);
            Err(refuse(&part.name, error, thin.at))
        }
        _ => Ok(()),
    }
}

fn refuse(panel: &str, error: Error, at: crate::Point) -> Failure {
    Failure::at(error, format!("panel \"{panel}\" near {}", place(at)))
}
