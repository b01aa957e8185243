//! What a box comes to, in a few figures: for sweeps over thousands of boxes, most of which nobody will ever cut.

use super::{Cutter, Gaps, Making, Parts};
use crate::assembly::{BoxSpec, Panel};
use crate::error::Failure;
use crate::joint::{Face, Fit, FlatBox, Outline, Role, Share};
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;

/// A box in figures.
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Figures, Fit, Making, Nm};
/// let mm = |v| Nm::from_mm(v);
/// let spec = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?);
/// let figures = Figures::of(&spec, Cutter::beam(mm(0.2)?)?, Fit::EXACT)?;
/// assert_eq!((figures.parts, figures.cut_length), (6, 2_817_600_000));
/// let meant = Making { thickness: mm(2.5)?, kerf: mm(0.2)? };
/// assert_eq!(figures.gaps(Fit::EXACT, meant, Making { kerf: mm(0.3)?, ..meant }), (mm(0.05)?, mm(0.1)?));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Figures {
    /// How many parts it has.
    pub parts: usize,
    /// The lines that the cutter's centre follows, in nanometres.
    pub cut_length: i64,
    /// Twice the area of the finished parts, in square nanometres.
    pub twice_area: i128,
    /// Which kinds of contact its boards have.
    contacts: Contacts,
}

/// Kinds of contact.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
struct Contacts {
    flanks: bool,
    shoulders: bool,
    slots: bool,
}

impl Figures {
    /// Of a box cut with one tool and one fit, as [`Parts::cut`] would make its parts; a plain box takes a small part of the time.
    ///
    /// # Errors
    /// As [`BoxSpec::assembly`], [`crate::Assembly::panels`] and [`Parts::cut`].
    pub fn of(spec: &BoxSpec, cutter: Cutter, fit: Fit) -> Result<Figures, Failure> {
        if let Some((figures, _)) = Figures::plain(spec, cutter, fit) {
            return Ok(figures);
        }
        let panels = spec.assembly()?.panels()?;
        Ok(Figures::of_parts(&panels, &Parts::cut(&panels, cutter, fit, Nm::ZERO)?))
    }

    /// Of a box without anything in it, by way of the box without heap, and width and height of each path. None for other boxes, and where the box
    /// without heap is not sure of it: only the assembly looks for edges that cross, and says what is wrong. With allowances that are small beside
    /// the board no edge reaches another.
    pub fn plain(spec: &BoxSpec, cutter: Cutter, fit: Fit) -> Option<(Figures, [Option<[Nm; 2]>; 6])> {
        let flat: FlatBox = spec.flat()?;
        let grow = half(cutter.kerf().nm());
        let widest = [fit.flank(), fit.cheek(), fit.tip()].map(|gap| gap.nm().abs()).into_iter().max()?;
        if 3 * (widest + grow) > spec.thickness().nm() {
            return None;
        }
        let contacts = Contacts { flanks: flat.has_flanks(), shoulders: true, slots: false };
        let mut figures = Figures { parts: 0, cut_length: 0, twice_area: 0, contacts };
        let mut outline = Outline::default();
        let mut sizes = [None; 6];
        for (face, size) in Face::ALL.into_iter().zip(&mut sizes) {
            if !flat.panel_into(face, fit, cutter.kerf(), &mut outline).ok()? {
                continue;
            }
            let (length, twice_area, sides) = measure(&outline)?;
            *size = Some(sides);
            figures.parts += 1;
            figures.cut_length += length;
            // Its edges have four right angles more to the left than to the right, so half a kerf all around is a strip and four squares.
            let (grow, length) = (i128::from(grow), i128::from(length));
            figures.twice_area += twice_area - 2 * grow * length + 8 * grow * grow;
        }
        Some((figures, sizes))
    }

    /// Of parts that are made already, and the panels that they are made from.
    pub fn of_parts(panels: &[Panel], parts: &Parts) -> Figures {
        Figures {
            parts: parts.iter().count(),
            cut_length: parts.iter().map(|part| part.path().length()).sum(),
            twice_area: parts.iter().map(|part| part.finished().twice_area()).sum(),
            contacts: Contacts::of(panels),
        }
    }

    /// The least and the greatest gap of all contacts once the box is cut with another kerf from a board of another thickness, as [`Gaps`]
    /// has it; (0, 0) where nothing touches.
    pub fn gaps(&self, fit: Fit, meant: Making, real: Making) -> (Nm, Nm) {
        let gaps = Gaps::of(fit, meant, real);
        let Contacts { flanks, shoulders, slots } = self.contacts;
        let met = [(flanks, gaps.flank), (shoulders, gaps.shoulder), (slots, gaps.cheek)];
        let range = met.into_iter().filter(|(met, _)| *met).map(|(_, gap)| (gap, gap));
        range.reduce(|(least, most), (gap, _)| (least.min(gap), most.max(gap))).unwrap_or_default()
    }
}

impl Contacts {
    /// By the roles of the panels' edges.
    fn of(panels: &[Panel]) -> Contacts {
        let mut contacts = Contacts::default();
        for corner in panels.iter().flat_map(Panel::rings).flatten().filter(|corner| corner.mate().is_some()) {
            match (corner.role, corner.share) {
                (Role::Flank, _) => contacts.flanks = true,
                (Role::Cheek, Share::Full) => contacts.shoulders = true,
                (Role::Cheek, _) => contacts.slots = true,
                (Role::Tip | Role::Free, _) => {}
            }
        }
        contacts
    }
}

/// The length of an outline along the axes, twice its area, and the sides of the rectangle around it.
fn measure(outline: &Outline) -> Option<(i64, i128, [Nm; 2])> {
    let mut walk = outline.walk();
    let first = walk.next()?.at;
    let mut before = first;
    let (mut low, mut high) = (first, first);
    let (mut length, mut area) = (0, 0);
    for at in walk.map(|vertex| vertex.at).chain([first]) {
        let (dx, dy) = (at.x.nm() - before.x.nm(), at.y.nm() - before.y.nm());
        length += dx.abs() + dy.abs();
        // What lies to the left of each edge that goes upwards, less what lies to the left of those that go down.
        area += i128::from(at.x.nm()) * i128::from(dy);
        (low, high) = (Point { x: low.x.min(at.x), y: low.y.min(at.y) }, Point { x: high.x.max(at.x), y: high.y.max(at.y) });
        before = at;
    }
    Some((length, 2 * area, [high.x - low.x, high.y - low.y]))
}

#[cfg(test)]
#[path = "figures_tests.rs"]
mod tests;
