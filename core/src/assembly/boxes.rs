//! Boxes as assemblies: walls and base, a top of some kind, a grid of dividers, shelves and feet.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::shell::{Shell, slab};
use super::top::Top;
use super::{Assembly, feet, shelves};
use crate::bounds::{BOARDS, Bound, DIVIDERS, FEET, SIZE, THICKNESS};
use crate::error::{Code, Error, Failure};
use crate::joint::{Face, Fingers, FlatBox, Joint};
use crate::length::Nm;
use crate::point::Axis;
use crate::round::nearest;

/// A box of one board.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm};
/// let mm = |v| Nm::from_mm(v);
/// let mut spec = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?);
/// spec.dividers = [1, 0];
/// let names: Vec<_> = spec.assembly()?.boards().iter().map(|b| b.name().to_string()).collect();
/// assert_eq!(names, ["front", "back", "left", "right", "base", "top", "divider-x1"]);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct BoxSpec {
    size: [Nm; 3],
    inside: bool,
    thickness: Nm,
    /// What closes it.
    pub top: Top,
    /// The joint of the walls; `None` for the default.
    pub fingers: Option<Fingers>,
    /// Dividers that stand across x and across y, evenly spaced.
    pub dividers: [u32; 2],
    /// Dividers are tabbed into the base too.
    pub into_base: bool,
    /// Captive shelves, tabbed through all four walls: how far their undersides stand above the base, from the lowest up.
    pub shelves: Vec<Nm>,
    /// Four boards under the base that cross each other and lift it by so much; `None` without.
    pub feet: Option<Nm>,
}

impl BoxSpec {
    /// A closed box without anything in it or below it, by its outside size along x, y, z.
    pub fn outside(size: [Nm; 3], thickness: Nm) -> BoxSpec {
        BoxSpec {
            size,
            inside: false,
            thickness,
            top: Top::Closed,
            fingers: None,
            dividers: [0, 0],
            into_base: false,
            shelves: Vec::new(),
            feet: None,
        }
    }

    /// The same by its clear inside size: between the walls, and from the base to the top or the lid.
    pub fn inside(size: [Nm; 3], thickness: Nm) -> BoxSpec {
        BoxSpec { inside: true, ..BoxSpec::outside(size, thickness) }
    }

    /// The same in another size, outside or inside as this one's was given, and of another board.
    ///
    /// ```
    /// use dryfit_core::{BoxSpec, Nm};
    /// let mm = |v| Nm::from_mm(v);
    /// let mut cube = BoxSpec::inside([mm(60.0)?; 3], mm(3.0)?);
    /// cube.feet = Some(mm(12.0)?);
    /// assert_eq!(cube.sized([mm(90.0)?; 3], mm(4.0)?).outside_size()?, [mm(98.0)?, mm(98.0)?, mm(110.0)?]);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn sized(&self, size: [Nm; 3], thickness: Nm) -> BoxSpec {
        BoxSpec { size, thickness, ..self.clone() }
    }

    /// The outside size along x, y, z, with the lid and the feet.
    ///
    /// # Errors
    /// [`Code::OutOfRange`], or [`Code::ThickerThanBox`] where walls, lid or feet leave nothing between them.
    pub fn outside_size(&self) -> Result<[Nm; 3], Error> {
        let shell = self.shell()?;
        Ok([shell.x, shell.y, shell.z].map(Nm::raw))
    }

    /// The board's thickness.
    pub const fn thickness(&self) -> Nm {
        self.thickness
    }

    /// The box without heap, where it is one and nothing speaks against it.
    pub(crate) fn flat(&self) -> Option<FlatBox> {
        let plain = matches!(self.top, Top::Closed | Top::Open) && self.dividers == [0, 0] && self.shelves.is_empty() && self.feet.is_none();
        let size = if plain { self.outside_size().ok()? } else { return None };
        FlatBox::new(size, self.thickness, self.top == Top::Closed, self.fingers.unwrap_or_default()).ok()
    }

    fn shell(&self) -> Result<Shell, Error> {
        let t = THICKNESS.check(self.thickness.nm())?;
        let c = self.top.clearance()?;
        let floor = match self.feet {
            Some(feet) => Bound { least: FEET.least.max(t), ..FEET }.check(feet.nm())?,
            None => 0,
        };
        let [least_x, least_y] = self.top.least_inside(t, c).map(|least| if floor > 0 { least.max(feet::least_inside(t)) } else { least });
        let above = self.top.above(t, c);
        // Along each axis, what goes beyond the inside, and the least inside.
        let around = [
            (2 * t, least_x),
            (2 * t, least_y),
            (floor + t + above, self.top.hang(t, c) + shelves::least_inside(self.shelves.len().min(BOARDS.most as usize) as i64, t)),
        ];
        let names = if self.inside { ["inside x", "inside y", "inside z"] } else { ["outside x", "outside y", "outside z"] };
        let mut outside = self.size.map(Nm::nm);
        for ((size, (walls, least)), name) in outside.iter_mut().zip(around).zip(names) {
            // What is given lacks some of the outside: the walls, or nothing.
            let lacks = if self.inside { walls } else { 0 };
            let (given, least, most) = (SIZE.named(name).check(*size)?, least + walls - lacks, SIZE.most - lacks);
            if given < least {
                return Err(Error::length(Code::ThickerThanBox, name, given, least, most));
            }
            *size = SIZE.named(name).most(most).check(given)? + lacks;
        }
        let [x, y, z] = outside;
        let (rim, front) = self.top.rims(z, t, c);
        Ok(Shell { x, y, z, t, floor, rim, front, clear: z - above - self.top.hang(t, c) })
    }

    /// The boards: front, back, left, right, base, what belongs to the top, then `divider-x1`.. and `divider-y1`.., `shelf-1`.., and
    /// `foot-x1`, `foot-x2`, `foot-y1`, `foot-y2`.
    ///
    /// # Errors
    /// As [`BoxSpec::outside_size`], where the dividers leave no space between them, and where a shelf stands too near to another
    /// board, or is not above the one before.
    pub fn assembly(&self) -> Result<Assembly, Failure> {
        let shell = self.shell()?;
        let Shell { x, y, t, floor, rim, front, .. } = shell;
        let mut assembly = Assembly::new();
        slab(&mut assembly, "front", Axis::Y, [0, 0, floor], [x, t, front])?;
        slab(&mut assembly, "back", Axis::Y, [0, y - t, floor], [x, y, rim])?;
        slab(&mut assembly, "left", Axis::X, [0, 0, floor], [t, y, rim])?;
        slab(&mut assembly, "right", Axis::X, [x - t, 0, floor], [x, y, rim])?;
        slab(&mut assembly, "base", Axis::Z, [0, 0, floor], [x, y, floor + t])?;
        self.top.add(&mut assembly, &shell)?;
        if let Some(fingers) = self.fingers {
            let walls = Face::ALL.into_iter().filter(|face| assembly.find(face.name()).is_some());
            let walls: Vec<Face> = walls.collect();
            for &p in &walls {
                for &q in walls.iter().filter(|&&q| p < q && p as usize / 2 != q as usize / 2) {
                    assembly.joint(p.name(), q.name(), Joint::from(fingers))?;
                }
            }
        }
        self.possible()?;
        self.add_dividers(&mut assembly, &shell)?;
        shelves::add(&mut assembly, &shell, &self.shelves)?;
        if floor > 0 {
            feet::add(&mut assembly, &shell)?;
        }
        Ok(assembly)
    }

    /// Refuses what cannot be made of single boards.
    fn possible(&self) -> Result<(), Failure> {
        let refuse = |parameter, place| Err(Failure::at(Error::bare(Code::NotAvailable, parameter), String::from(place)));
        let divided = self.dividers != [0, 0];
        if divided && !self.shelves.is_empty() {
            // Halved into each other, the wall's end of a slot may fall to the wrong board and lock both; two ways of dividers and a
            // shelf would cross in one point, each going on both ways past both others.
            return refuse("shelves", "with dividers");
        }
        if divided && self.into_base && self.feet.is_some() {
            // A divider's tabs and a foot's would meet crosswise in the base and leave it no wider than a point between them.
            return refuse("dividers in base", "with feet");
        }
        Ok(())
    }

    fn add_dividers(&self, assembly: &mut Assembly, shell: &Shell) -> Result<(), Failure> {
        let &Shell { x, y, t, floor, clear: high, .. } = shell;
        let low = if self.into_base { floor } else { floor + t };
        let [across_x, across_y] = self.dividers;
        let directions = [(Axis::X, across_x, x, "x"), (Axis::Y, across_y, y, "y")];
        for (normal, count, across, letter) in directions {
            let count = DIVIDERS.check(i64::from(count))?;
            let free = across - 2 * t - count * t;
            if count > 0 && free < count + 1 {
                let most = (across - 2 * t - 1) / (t + 1);
                return Err(Bound { most: most.max(0), ..DIVIDERS }.error(count).into());
            }
            for k in 1..=count {
                let at = t + nearest(i128::from(k * free), i128::from(count + 1)) + (k - 1) * t;
                let name: String = format!("divider-{letter}{k}");
                let (lo, hi) = if normal == Axis::X { ([at, 0, low], [at + t, y, high]) } else { ([0, at, low], [x, at + t, high]) };
                slab(assembly, &name, normal, lo, hi)?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
#[path = "boxes_tests.rs"]
mod tests;
