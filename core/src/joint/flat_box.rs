//! A closed or open box without heap: the outline of each panel as an iterator.

use super::apart::notches_meet;
use super::fingers::Fingers;
use super::fit::Fit;
use super::frame::{Cube, Edge, Frame};
use super::outline::Outline;
use super::pattern::{Pattern, Side};
use crate::bounds::{KERF, SIZE, THICKNESS, within};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::round::half;

/// A panel of a box. The order is the order in which they win: of two that meet, the earlier has the ends of the run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Face {
    /// At y = 0.
    Front,
    /// At the far end of y.
    Back,
    /// At x = 0.
    Left,
    /// At the far end of x.
    Right,
    /// At z = 0.
    Base,
    /// At the far end of z.
    Top,
}

impl Face {
    /// All six.
    pub const ALL: [Face; 6] = [Face::Front, Face::Back, Face::Left, Face::Right, Face::Base, Face::Top];

    /// `"front"`, `"back"`, `"left"`, `"right"`, `"base"` or `"top"`.
    pub const fn name(self) -> &'static str {
        match self {
            Face::Front => "front",
            Face::Back => "back",
            Face::Left => "left",
            Face::Right => "right",
            Face::Base => "base",
            Face::Top => "top",
        }
    }

    /// The axis across the panel: 0, 1 or 2.
    const fn normal(self) -> usize {
        match self {
            Face::Left | Face::Right => 0,
            Face::Front | Face::Back => 1,
            Face::Base | Face::Top => 2,
        }
    }

    /// The panels along its bottom, right, top and left edge.
    const fn mates(self) -> [Face; 4] {
        match self {
            Face::Front | Face::Back => [Face::Base, Face::Right, Face::Top, Face::Left],
            Face::Left | Face::Right => [Face::Base, Face::Back, Face::Top, Face::Front],
            Face::Base | Face::Top => [Face::Front, Face::Right, Face::Back, Face::Left],
        }
    }
}

/// A box of one board with finger joints: six panels, or five without the top.
///
/// Each panel's outline is what the assembly of the same box gives, vertex for vertex, but made without heap,
/// so that a controller with no allocator can cut a whole box.
///
/// ```
/// use dryfit_core::{Face, Fingers, Fit, FlatBox, Nm};
/// let mm = |text| Nm::parse(text);
/// let flat = FlatBox::new([mm("100")?, mm("80")?, mm("60")?], mm("3")?, true, Fingers::default())?;
/// let front = flat.panel(Face::Front, Fit::EXACT, Nm::ZERO)?.unwrap();
/// assert_eq!(front.len(), 60);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FlatBox {
    outside: [i64; 3],
    thickness: i64,
    closed: bool,
    /// The shared run along x, y and z; the earlier face is side A.
    patterns: [Pattern; 3],
}

impl FlatBox {
    /// A box of outside sizes along x, y, z.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for a size or thickness, [`Code::ThickerThanBox`], or what [`Fingers::pattern`] refuses.
    pub fn new(outside: [Nm; 3], thickness: Nm, closed: bool, fingers: Fingers) -> Result<FlatBox, Error> {
        let thick = within!(THICKNESS, thickness.nm());
        let [x, y, z] = outside.map(Nm::nm);
        let runs = [(x, 2, "outside x"), (y, 2, "outside y"), (z, if closed { 2 } else { 1 }, "outside z")];
        let mut made = [None; 3];
        for ((size, walls, name), slot) in runs.into_iter().zip(&mut made) {
            within!(SIZE.named(name), size);
            let run = size - walls * thick;
            if run <= 0 {
                return Err(Error::length(Code::ThickerThanBox, name, size, walls * thick + 1, SIZE.most));
            }
            *slot = Some(fingers.pattern(Nm::raw(run), thickness)?);
        }
        let [Some(along_x), Some(along_y), Some(along_z)] = made else {
            return Err(Error::bare(Code::ThickerThanBox, "outside"));
        };
        Ok(FlatBox { outside: [x, y, z], thickness: thick, closed, patterns: [along_x, along_y, along_z] })
    }

    /// Outside sizes, thickness, and whether it has a top.
    #[cfg(feature = "alloc")]
    pub(crate) fn given(&self) -> ([i64; 3], i64, bool) {
        (self.outside, self.thickness, self.closed)
    }

    /// The shared runs along x, y and z; the earlier face is side A.
    #[cfg(feature = "alloc")]
    pub(crate) fn patterns(&self) -> &[Pattern; 3] {
        &self.patterns
    }

    /// Whether any run is cut, so that flanks meet.
    #[cfg(feature = "alloc")]
    pub(crate) fn has_flanks(&self) -> bool {
        self.patterns.iter().any(|pattern| pattern.spans().len() > 1)
    }

    /// Whether the box has this panel.
    pub fn has(&self, face: Face) -> bool {
        self.closed || face != Face::Top
    }

    /// The line that the cutter's centre follows for one panel: counter-clockwise from its lowest, then leftmost vertex,
    /// measured from the slab's lowest corner. `kerf` is the full width of the cut. `None` for the top of an open box.
    ///
    /// # Errors
    /// [`Code::SlotCloses`] where allowances and kerf leave an edge no length, [`Code::CrossesNeighbour`] where notches of two edges
    /// meet, [`Code::OutOfRange`] for the kerf.
    pub fn panel(&self, face: Face, fit: Fit, kerf: Nm) -> Result<Option<Outline>, Error> {
        let mut outline = Outline::default();
        Ok(self.panel_into(face, fit, kerf, &mut outline)?.then_some(outline))
    }

    /// The same into memory of the caller, which a small chip has no second time; `false`, and no vertex, for the top of an open box.
    ///
    /// # Errors
    /// As [`FlatBox::panel`]; nor is there a vertex then.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn panel_into(&self, face: Face, fit: Fit, kerf: Nm, outline: &mut Outline) -> Result<bool, Error> {
        outline.clear();
        let grow = half(within!(KERF, kerf.nm()));
        if !self.has(face) {
            return Ok(false);
        }
        let frame = self.frame(face);
        // Only a gap makes notches larger than the mates, which never meet.
        let gap = fit.flank() > Nm::ZERO || fit.cheek() > Nm::ZERO;
        // Neither the part nor the path may lose an edge.
        if (gap || grow != 0) && !outline.fill(&frame, fit, 0) {
            return Err(Error::bare(Code::SlotCloses, face.name()));
        }
        if gap && notches_meet(outline.by_ref(), [frame.width, frame.height], fit.tip().nm().min(0)) {
            outline.clear();
            return Err(Error::bare(Code::CrossesNeighbour, face.name()));
        }
        if !outline.fill(&frame, fit, grow) {
            return Err(Error::bare(Code::SlotCloses, face.name()));
        }
        Ok(true)
    }

    fn size(&self, axis: usize) -> i64 {
        let [x, y, z] = self.outside;
        match axis {
            0 => x,
            1 => y,
            _ => z,
        }
    }

    fn pattern(&self, axis: usize) -> &Pattern {
        let [x, y, z] = &self.patterns;
        match axis {
            0 => x,
            1 => y,
            _ => z,
        }
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn frame(&self, face: Face) -> Frame<'_> {
        let (u, v) = match face.normal() {
            0 => (1, 2),
            1 => (0, 2),
            _ => (0, 1),
        };
        let mates = face.mates();
        let along = [u, v, u, v];
        let mut edges = [Edge { mate: u16::MAX, depth: 0, pattern: None, side: Side::A, offset: self.thickness }; 4];
        for ((edge, mate), axis) in edges.iter_mut().zip(mates).zip(along) {
            if self.has(mate) {
                edge.mate = mate as u16;
                edge.depth = self.thickness;
                edge.pattern = Some(self.pattern(axis));
                edge.side = if face < mate { Side::A } else { Side::B };
            }
        }
        let [bottom, right, top, left] = mates;
        let pairs = [(bottom, right), (right, top), (top, left), (left, bottom)];
        let cubes = pairs.map(|(before, after)| self.cube(face, before, after));
        Frame { panel: face as u16, width: self.size(u), height: self.size(v), edges, cubes }
    }

    /// Who has the cube where three panels meet.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn cube(&self, face: Face, before: Face, after: Face) -> Cube {
        if !self.has(before) || !self.has(after) {
            return Cube::Absent;
        }
        let vote = |p: Face, q: Face| {
            let run = 3 - p.normal() - q.normal();
            // The third panel lies at the low end of the run unless it is one of the far ones.
            let third = [face, before, after].into_iter().find(|f| *f != p && *f != q).unwrap_or(face);
            let low = matches!(third, Face::Front | Face::Left | Face::Base);
            let owner = if low { self.pattern(run).first() } else { self.pattern(run).last() };
            [Some(if (owner == Side::A) == (p < q) { p as u16 } else { q as u16 }), None]
        };
        let votes = [vote(face, before), vote(face, after), vote(before, after)];
        let owner = cube_owner([face as u16, before as u16, after as u16], votes.into_iter());
        if owner == face as u16 {
            Cube::Own
        } else if owner == before as u16 {
            Cube::Before
        } else {
            Cube::After
        }
    }
}

/// The owner of a cube. Each run through it names the owners of the pieces before and behind.
///
/// Among the boards that own all pieces of one run (among all three, if none does) the one with the most pieces, the first on a tie.
pub(crate) fn cube_owner(boards: [u16; 3], runs: impl Iterator<Item = [Option<u16>; 2]>) -> u16 {
    let mut counts = boards.map(|board| (board, 0u8, false));
    for [before, behind] in runs {
        let master = match (before, behind) {
            (Some(p), Some(q)) if p != q => None,
            (one, other) => one.or(other),
        };
        for (board, votes, whole) in &mut counts {
            *votes += u8::from(before == Some(*board)) + u8::from(behind == Some(*board));
            *whole |= master == Some(*board);
        }
    }
    let [first, second, third] = counts;
    let better = |(p, p_votes, p_whole): (u16, u8, bool), (q, q_votes, q_whole): (u16, u8, bool)| {
        let key = (p_whole, p_votes, core::cmp::Reverse(p));
        if key > (q_whole, q_votes, core::cmp::Reverse(q)) { (p, p_votes, p_whole) } else { (q, q_votes, q_whole) }
    };
    better(better(first, second), third).0
}

#[cfg(test)]
#[path = "flat_box_tests.rs"]
mod tests;
