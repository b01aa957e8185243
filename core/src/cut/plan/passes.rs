//! How often a line is cut, how deep and how strong each time.

use alloc::vec::Vec;

use crate::bounds::{Bound, DEPTH, PASSES, POWER};
use crate::cut::Cutter;
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::round::nearest;

/// Whether all passes of a line come before the next line, or all lines before the next pass.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum PassOrder {
    /// Each line is cut through before the next one begins.
    #[default]
    Line,
    /// The whole sheet once, then again.
    Sheet,
}

/// What is asked of the passes. What belongs to one kind of tool only is an error with another.
///
/// Blades and bits go deeper from pass to pass, evenly; a beam repeats the line. A first light pass comes before all others: shallow for a blade or
/// bit (it only marks the board's skin, so that nothing tears), weak for a beam.
///
/// ```
/// use dryfit_core::{Cutter, Nm, PassSpec};
/// let mm = |v| Nm::from_mm(v);
/// let blade = Cutter::blade(Nm::ZERO, mm(0.25)?)?;
/// let spec = PassSpec { count: Some(2), light: Some(mm(0.3)?), ..PassSpec::default() };
/// let depths: Vec<f64> = spec.passes(blade, mm(2.0)?)?.iter().map(|pass| pass.depth.mm()).collect();
/// assert_eq!(depths, [0.3, 1.0, 2.0]);
/// let error = PassSpec { depth: Some(mm(1.9)?), ..spec }.passes(blade, mm(2.0)?).unwrap_err();
/// assert_eq!(error.to_string(), "depth: 1.9 mm given, allowed 2 mm to 7 mm");
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct PassSpec {
    /// How often, beside the light pass: 1 to 1000; once unless `step` or the tool asks for more.
    pub count: Option<i64>,
    /// Blade and bit: how much deeper a pass may go than the one before; there are as many passes as that takes. A bit's half diameter if neither
    /// this nor a count is given.
    pub step: Option<Nm>,
    /// Blade and bit: how deep the last pass goes, from the board's thickness (which it is unless told otherwise) to 5 mm more.
    pub depth: Option<Nm>,
    /// Blade and bit: how deep a first light pass goes, less than the pass after it.
    pub light: Option<Nm>,
    /// Beam: its power in millionths of the machine's own unit; nothing unless told otherwise, so that the file runs dry.
    pub power: Option<i64>,
    /// Beam: the power of a first light pass.
    pub light_power: Option<i64>,
    /// What comes first: the other passes or the other lines. Line after line, but sheet after sheet where it pauses.
    pub order: Option<PassOrder>,
    /// Whether the machine waits between two passes over the sheet, to look at tape and board.
    pub pause: bool,
}

/// One pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pass {
    /// How deep the board is cut already.
    pub from: Nm,
    /// How deep it is cut then. A beam has no depths: 0.
    pub depth: Nm,
    /// A beam's power in millionths of the machine's own unit.
    pub power: i64,
}

/// How much deeper than the board a tool may go.
const BEYOND: i64 = 5 * crate::bounds::MM;

impl PassSpec {
    /// The passes of a tool through a board.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] with the parameter's name; [`Code::NotOfThisTool`] for what the tool has not; [`Code::StepAndCount`] where both are given.
    pub fn passes(&self, cutter: Cutter, thickness: Nm) -> Result<Vec<Pass>, Error> {
        match cutter {
            Cutter::Beam { .. } => self.strong(),
            Cutter::Blade { .. } => self.deep(thickness, None),
            Cutter::Bit { diameter } => self.deep(thickness, Some(diameter)),
        }
    }

    /// What comes first.
    ///
    /// # Errors
    /// [`Code::PauseInLine`] where it is to pause between the passes of every single line.
    pub fn order(&self) -> Result<PassOrder, Error> {
        match (self.order, self.pause) {
            (Some(PassOrder::Line), true) => Err(Error::bare(Code::PauseInLine, "pause")),
            (None, true) => Ok(PassOrder::Sheet),
            (order, _) => Ok(order.unwrap_or_default()),
        }
    }

    fn strong(&self) -> Result<Vec<Pass>, Error> {
        none_of(&[("depth", self.depth.is_some()), ("step", self.step.is_some()), ("light", self.light.is_some())])?;
        let count = PASSES.check(self.count.unwrap_or(1))?;
        let pass = |power| Pass { from: Nm::ZERO, depth: Nm::ZERO, power };
        let power = POWER.check(self.power.unwrap_or(0))?;
        let light = self.light_power.map(|light| POWER.named("light power").most(power).check(light)).transpose()?;
        Ok(light.map(pass).into_iter().chain((0..count).map(|_| pass(power))).collect())
    }

    fn deep(&self, thickness: Nm, diameter: Option<Nm>) -> Result<Vec<Pass>, Error> {
        none_of(&[("power", self.power.is_some()), ("light power", self.light_power.is_some())])?;
        let whole = Bound { least: thickness.nm(), most: thickness.nm() + BEYOND, ..DEPTH };
        let depth = whole.check(self.depth.unwrap_or(thickness).nm())?;
        // A pass of no more than this, in no more passes than there may be.
        let least = (depth + PASSES.most - 1) / PASSES.most;
        let many = |step: i64| Bound { least, ..DEPTH.named("step") }.check(step).map(|step| (depth + step - 1) / step);
        let count = match (self.count, self.step, diameter) {
            (Some(_), Some(_), _) => return Err(Error::bare(Code::StepAndCount, "step")),
            (Some(count), None, _) => count,
            (None, Some(given), _) => many(given.nm())?,
            (None, None, Some(diameter)) => many((diameter.nm() / 2).max(1))?,
            (None, None, None) => 1,
        };
        let count = PASSES.check(count)?;
        let at = |pass: i64| nearest(i128::from(depth) * i128::from(pass), i128::from(count));
        let light = Bound { most: (at(1) - 1).max(1), ..DEPTH.named("light") };
        let light = self.light.map(|given| light.check(given.nm())).transpose()?;
        let mut from = Nm::ZERO;
        let pass = |depth: i64| Pass { from: core::mem::replace(&mut from, Nm::raw(depth)), depth: Nm::raw(depth), power: 0 };
        Ok(light.into_iter().chain((1..=count).map(at)).map(pass).collect())
    }
}

/// Refuses what this tool has not.
pub(super) fn none_of(given: &[(&'static str, bool)]) -> Result<(), Error> {
    match given.iter().find(|(_, given)| *given) {
        Some((name, _)) => Err(Error::bare(Code::NotOfThisTool, name)),
        None => Ok(()),
    }
}

#[cfg(test)]
#[path = "passes_tests.rs"]
mod tests;
