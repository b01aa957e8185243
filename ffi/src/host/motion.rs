//! What is asked of a tool that cuts a sheet.

use dryfit_core::bounds::SPEED;
use dryfit_core::{Error, Many, MotionSpec, PassOrder, PassSpec};

use super::parts::dryfit_cutter;
use crate::bare::{DRYFIT_NONE, dryfit_nm};
use crate::given::Given;

/// How a sheet is cut. 0 is the usual value for the tool in every field, `DRYFIT_NONE` none of it; what a tool has no use for must be 0.
///
/// The usual values are common practice and no advice for a machine: feeds, depths and power are the machine maker's and the board's.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_motion {
    /// The tool; all zeros, that for which the parts were cut. Where they were cut for several, it must be said (803).
    pub cutter: dryfit_cutter,
    /// Speed along a cut in nanometres a second: 0.001 to 10,000 mm/s; usually 10 mm/s.
    pub feed: i64,
    /// Speed downwards in nanometres a second; usually 2 mm/s.
    pub plunge: i64,
    /// How high the tool stands above the board when it is up; usually 2 mm.
    pub height: dryfit_nm,
    /// Blade and bit: how deep the last pass goes; usually the board's thickness, at most 5 mm more.
    pub depth: dryfit_nm,
    /// Blade and bit: how much deeper a pass may go than the one before.
    pub step: dryfit_nm,
    /// Blade and bit: how deep a first light pass goes.
    pub light: dryfit_nm,
    /// How many passes, in place of `step`.
    pub passes: i64,
    /// Beam: its power in millionths of the machine's own unit. 0 runs dry.
    pub power: i64,
    /// Beam: the power of a first light pass.
    pub light_power: i64,
    /// Bit: turns a minute; usually 10,000.
    pub speed: i64,
    /// Bit: along what way it sinks to the depth of a pass; usually ten times what it sinks, `DRYFIT_NONE` to plunge.
    pub ramp: dryfit_nm,
    /// Blade: corners that turn by more than this are taken by turning the blade about its tip; millionths of a
    /// degree, usually `10 * DRYFIT_DEGREE`.
    pub swivel_above: i64,
    /// Blade: how far it goes on beyond the point where a closed line began; usually 0.5 mm.
    pub overcut: dryfit_nm,
    /// Blade: how deep it stays while it is turned; usually as deep as it cuts.
    pub turn_depth: dryfit_nm,
    /// How many bridges hold each part, 1 to 100; usually none for a blade, one for a beam, two for a bit.
    pub bridges: i64,
    /// How wide a bridge is; usually 0.5 mm, and 2 mm for a bit.
    pub bridge_width: dryfit_nm,
    /// Beam and bit: the length of the way in from the waste.
    pub lead: dryfit_nm,
    /// Chords in place of arcs, no farther from them than this; usually true arcs.
    pub flat: dryfit_nm,
    /// Beam: 1 if the machine may lower the power where it goes slower.
    pub dynamic: u32,
    /// 1 if the whole sheet is cut once, then again; 0 if each line is cut through before the next begins.
    pub sheet_by_sheet: u32,
    /// 1 if the machine waits between two passes over the sheet.
    pub pause: u32,
}

/// What is usual is left to the core; "none of it" is 0 there.
const fn told(number: i64) -> Option<i64> {
    match number {
        0 => None,
        DRYFIT_NONE => Some(0),
        number => Some(number),
    }
}

impl dryfit_motion {
    pub(super) fn core(&self) -> Result<MotionSpec, Error> {
        let usual = MotionSpec::default();
        Given::all(|given| {
            let mut length = |nm, name| told(nm).map(|nm| given.length(nm, name));
            let height = length(self.height, "height").unwrap_or(usual.height);
            let [step, depth, light] = [length(self.step, "step"), length(self.depth, "depth"), length(self.light, "light")];
            let [ramp, overcut, lead] = [length(self.ramp, "ramp"), length(self.overcut, "overcut"), length(self.lead, "lead")];
            let [turn_depth, flat] = [length(self.turn_depth, "turn depth"), length(self.flat, "flat")];
            let bridge_width = length(self.bridge_width, "bridge width");
            let passes = PassSpec {
                count: told(self.passes),
                step,
                depth,
                light,
                power: told(self.power),
                light_power: told(self.light_power),
                order: given.flag(self.sheet_by_sheet, "sheet by sheet").then_some(PassOrder::Sheet),
                pause: given.flag(self.pause, "pause"),
            };
            MotionSpec {
                feed: told(self.feed).unwrap_or(usual.feed),
                plunge: told(self.plunge).unwrap_or(usual.plunge),
                height,
                passes,
                dynamic: given.flag(self.dynamic, "dynamic").then_some(true),
                speed: told(self.speed).map(|speed| given.within(&SPEED, speed)),
                ramp,
                swivel_above: told(self.swivel_above),
                overcut,
                turn_depth,
                bridges: told(self.bridges).map(Many::Count),
                bridge_width,
                lead,
                flat,
                ..usual
            }
        })
    }
}
