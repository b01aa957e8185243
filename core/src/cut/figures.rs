//! What a box comes to, in a few figures: for sweeps over thousands of boxes, most of which nobody will ever cut.

use super::plain_box::PlainBox;
use super::{Cutter, Gaps, Making, Parts};
use crate::assembly::{BoxSpec, Panel};
use crate::error::Failure;
use crate::joint::{Fit, FlatBox, Role, Share};
use crate::length::Nm;

/// A box in figures.
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Figures, Fit, Making, Nm};
/// let mm = |v| Nm::from_mm(v);
/// let spec = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?);
/// let figures = Figures::of(&spec, Cutter::beam(mm(0.2)?)?, Fit::EXACT)?;
/// assert_eq!((figures.parts, figures.cut_length), (6, 2_544_800_000));
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

    /// Of a box without anything in it, by the formulas of [`PlainBox`], and width and height of each path. None for other boxes, and where the
    /// formulas may not hold.
    pub fn plain(spec: &BoxSpec, cutter: Cutter, fit: Fit) -> Option<(Figures, [Option<[Nm; 2]>; 6])> {
        let flat: FlatBox = spec.flat()?;
        let plain = PlainBox::new(&flat, cutter, fit)?;
        let contacts = Contacts { flanks: flat.has_flanks(), shoulders: true, slots: false };
        let mut figures = Figures { parts: 0, cut_length: 0, twice_area: 0, contacts };
        let mut sizes = [None; 6];
        let panels = [plain.front(), plain.left(), plain.base()];
        for (panel, pair) in panels.iter().zip(sizes.chunks_exact_mut(2)) {
            for (size, face) in pair.iter_mut().zip(panel.faces) {
                if flat.has(face) {
                    *size = Some(panel.path.map(Nm::raw));
                    figures.parts += 1;
                    figures.cut_length += panel.length;
                    figures.twice_area += 2 * panel.area;
                }
            }
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

#[cfg(test)]
#[path = "figures_tests.rs"]
mod tests;
