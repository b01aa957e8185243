//! Boxes as assemblies: six or five walls, and a grid of dividers.

use alloc::format;
use alloc::string::String;

use super::Assembly;
use crate::bounds::{Bound, DIVIDERS, SIZE, THICKNESS};
use crate::error::{Code, Error, Failure};
use crate::joint::{Face, Fingers, Joint};
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct BoxSpec {
    size: [Nm; 3],
    inside: bool,
    thickness: Nm,
    /// With a top, or open.
    pub closed: bool,
    /// The joint of the walls; `None` for the default.
    pub fingers: Option<Fingers>,
    /// Dividers that stand across x and across y, evenly spaced.
    pub dividers: [u32; 2],
    /// Dividers are tabbed into the base too.
    pub into_base: bool,
}

impl BoxSpec {
    /// A closed box without dividers, by its outside size along x, y, z.
    pub fn outside(size: [Nm; 3], thickness: Nm) -> BoxSpec {
        BoxSpec { size, inside: false, thickness, closed: true, fingers: None, dividers: [0, 0], into_base: false }
    }

    /// The same by its clear inside size.
    pub fn inside(size: [Nm; 3], thickness: Nm) -> BoxSpec {
        BoxSpec { inside: true, ..BoxSpec::outside(size, thickness) }
    }

    /// The outside size along x, y, z.
    ///
    /// # Errors
    /// [`Code::OutOfRange`], or [`Code::ThickerThanBox`] where two walls leave nothing between them.
    pub fn outside_size(&self) -> Result<[Nm; 3], Error> {
        let thick = THICKNESS.check(self.thickness.nm())?;
        let walls = [2, 2, if self.closed { 2 } else { 1 }];
        let names = if self.inside { ["inside x", "inside y", "inside z"] } else { ["outside x", "outside y", "outside z"] };
        let mut outside = self.size;
        for ((size, walls), name) in outside.iter_mut().zip(walls).zip(names) {
            let given = SIZE.named(name).check(size.nm())?;
            let total = if self.inside { given + walls * thick } else { given };
            if total <= walls * thick {
                return Err(Error::length(Code::ThickerThanBox, name, given, walls * thick + 1, SIZE.most));
            }
            *size = Nm::raw(SIZE.named(name).check(total)?);
        }
        Ok(outside)
    }

    /// The boards: front, back, left, right, base, top, then `divider-x1`.. and `divider-y1`..
    ///
    /// # Errors
    /// As [`BoxSpec::outside_size`], and where the dividers leave no space between them.
    pub fn assembly(&self) -> Result<Assembly, Failure> {
        let [x, y, z] = self.outside_size()?;
        let t = self.thickness;
        let mut assembly = Assembly::new();
        let zero = Nm::ZERO;
        assembly.add("front", Axis::Y, [zero, zero, zero], [x, z], t)?;
        assembly.add("back", Axis::Y, [zero, y - t, zero], [x, z], t)?;
        assembly.add("left", Axis::X, [zero, zero, zero], [y, z], t)?;
        assembly.add("right", Axis::X, [x - t, zero, zero], [y, z], t)?;
        assembly.add("base", Axis::Z, [zero, zero, zero], [x, y], t)?;
        if self.closed {
            assembly.add("top", Axis::Z, [zero, zero, z - t], [x, y], t)?;
        }
        if let Some(fingers) = self.fingers {
            let walls = Face::ALL.into_iter().take(assembly.boards().len());
            for p in walls.clone() {
                for q in walls.clone().filter(|&q| p < q && p as usize / 2 != q as usize / 2) {
                    assembly.joint(p.name(), q.name(), Joint::from(fingers))?;
                }
            }
        }
        self.add_dividers(&mut assembly, [x, y, z])?;
        Ok(assembly)
    }

    fn add_dividers(&self, assembly: &mut Assembly, [x, y, z]: [Nm; 3]) -> Result<(), Failure> {
        let t = self.thickness.nm();
        let low = if self.into_base { 0 } else { t };
        let high = if self.closed { z.nm() - t } else { z.nm() };
        let [across_x, across_y] = self.dividers;
        let directions = [(Axis::X, across_x, x, y, "x"), (Axis::Y, across_y, y, x, "y")];
        for (normal, count, clear, length, letter) in directions {
            let count = DIVIDERS.check(i64::from(count))?;
            let free = clear.nm() - 2 * t - count * t;
            if count > 0 && free < count + 1 {
                let most = (clear.nm() - 2 * t - 1) / (t + 1);
                return Err(Bound { most: most.max(0), ..DIVIDERS }.error(count).into());
            }
            for k in 1..=count {
                let at = Nm::raw(t + nearest(i128::from(k * free), i128::from(count + 1)) + (k - 1) * t);
                let corner = if normal == Axis::X { [at, Nm::ZERO, Nm::raw(low)] } else { [Nm::ZERO, at, Nm::raw(low)] };
                let name: String = format!("divider-{letter}{k}");
                assembly.add(&name, normal, corner, [length, Nm::raw(high - low)], self.thickness)?;
            }
        }
        Ok(())
    }
}
