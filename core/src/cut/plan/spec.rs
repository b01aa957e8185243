//! What is asked of the motion on a sheet.

use super::passes::{PassSpec, none_of};
use crate::bounds::{FLAT, LEAD, MM, RAMP};
use crate::cut::{BridgeSpec, Cutter, Knife, KnifeSpec, Many, RouteSpec};
use crate::error::Error;
use crate::length::Nm;

/// How a sheet is cut: speeds, passes, and the ways of each kind of tool. What is left out is as usual for the tool; what belongs to another kind of
/// tool is an error. (The usual values are common practice, no source; machines and boards differ.)
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct MotionSpec {
    /// Speed along a cut, in nanometres a second; 10 mm/s unless told otherwise.
    pub feed: i64,
    /// Speed of a tool that goes down, in nanometres a second; 2 mm/s unless told otherwise.
    pub plunge: i64,
    /// How high a tool stands above the board when it is up; 2 mm unless told otherwise. A beam does not move up and down.
    pub height: Nm,
    /// How often, how deep and how strong.
    pub passes: PassSpec,
    /// Beam: whether the machine may lower the power where it goes slower.
    pub dynamic: Option<bool>,
    /// Bit: turns a minute; 10,000 unless told otherwise.
    pub speed: Option<i64>,
    /// Bit: along what way it sinks to the depth of a pass; ten times what it sinks unless told otherwise, 0 to plunge straight down.
    pub ramp: Option<Nm>,
    /// Blade: corners that turn by more than this are taken by turning the blade about its tip; in millionths of a degree.
    pub swivel_above: Option<i64>,
    /// Blade: how far it goes on beyond the point where a closed line began.
    pub overcut: Option<Nm>,
    /// Blade: how deep it stays in the board while it is turned, so that thick board does not hold it; as deep as it cuts unless told otherwise.
    pub turn_depth: Option<Nm>,
    /// How many bridges hold each part; a beam's parts have one and a bit's two unless told otherwise, a blade's none.
    pub bridges: Option<Many>,
    /// How wide a bridge is; 0.5 mm, and 2 mm for a bit, unless told otherwise.
    pub bridge_width: Option<Nm>,
    /// How far apart the supports of the machine's bed are. Parts that rest on them whatever their place need no bridge.
    pub bed: Option<Nm>,
    /// Beam and bit: the length of the way in from the waste; 0 for none. A beam's is 1 mm unless told otherwise; so is that of a bit that plunges, as long as its diameter.
    pub lead: Option<Nm>,
    /// Chords in place of arcs, no farther from them than this; true arcs unless told. They are those of the axis: a blade's tip strays by up to four times as much.
    pub flat: Option<Nm>,
    /// The order of the lines, where each begins and which way round it goes.
    pub route: RouteSpec,
}

impl Default for MotionSpec {
    fn default() -> MotionSpec {
        MotionSpec {
            feed: 10 * MM,
            plunge: 2 * MM,
            height: Nm::raw(2 * MM),
            passes: PassSpec::default(),
            dynamic: None,
            speed: None,
            ramp: None,
            swivel_above: None,
            overcut: None,
            turn_depth: None,
            bridges: None,
            bridge_width: None,
            bed: None,
            lead: None,
            flat: None,
            route: RouteSpec::default(),
        }
    }
}

/// What the tool does at corners, starts and ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Ways {
    /// A blade; how deep it stays while it is turned, if less deep than it cuts.
    Blade {
        knife: Knife,
        turn: Option<Nm>,
    },
    Beam,
    /// A bit that sinks along so much way; ten times what it sinks, if none is told.
    Bit {
        ramp: Option<Nm>,
    },
}

impl MotionSpec {
    /// What the tool does at corners, starts and ends.
    ///
    /// # Errors
    /// [`crate::Code::NotOfThisTool`]; [`crate::Code::OutOfRange`].
    pub(super) fn ways(&self, cutter: Cutter, depth: Nm) -> Result<Ways, Error> {
        let blade = [("swivel above", self.swivel_above.is_some()), ("overcut", self.overcut.is_some()), ("turn depth", self.turn_depth.is_some())];
        let bit = [("ramp", self.ramp.is_some()), ("speed", self.speed.is_some())];
        let beam = [("dynamic", self.dynamic.is_some())];
        self.flat.map(|flat| FLAT.check(flat.nm())).transpose()?;
        match cutter {
            Cutter::Blade { trail, .. } => {
                none_of(&bit)?;
                none_of(&beam)?;
                none_of(&[("lead", self.lead.is_some())])?;
                let usual = KnifeSpec::new(trail);
                let knife = Knife::new(KnifeSpec {
                    swivel_above: self.swivel_above.unwrap_or(usual.swivel_above),
                    overcut: self.overcut.unwrap_or(usual.overcut),
                    ..usual
                })?;
                let turn = self.turn_depth.map(|turn| crate::bounds::DEPTH.named("turn depth").most(depth.nm()).check(turn.nm())).transpose()?;
                Ok(Ways::Blade { knife, turn: turn.map(Nm::raw) })
            }
            Cutter::Beam { .. } => {
                none_of(&blade)?;
                none_of(&bit)?;
                Ok(Ways::Beam)
            }
            Cutter::Bit { .. } => {
                none_of(&blade)?;
                none_of(&beam)?;
                let ramp = self.ramp.map(|ramp| RAMP.check(ramp.nm())).transpose()?;
                Ok(Ways::Bit { ramp: ramp.map(Nm::raw) })
            }
        }
    }

    /// The bridges of a tool.
    pub(super) fn bridges(&self, cutter: Cutter) -> BridgeSpec {
        let (count, width) = match cutter {
            Cutter::Blade { .. } => (0, MM / 2),
            Cutter::Beam { .. } => (1, MM / 2),
            Cutter::Bit { .. } => (2, 2 * MM),
        };
        BridgeSpec { many: self.bridges.unwrap_or(Many::Count(count)), width: self.bridge_width.unwrap_or(Nm::raw(width)), bed: self.bed }
    }

    /// The length of a tool's way in.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`].
    pub(super) fn lead(&self, cutter: Cutter) -> Result<Nm, Error> {
        let usual = match cutter {
            Cutter::Blade { .. } => Nm::ZERO,
            Cutter::Beam { .. } => Nm::raw(MM),
            // A bit that sinks along the line begins there.
            Cutter::Bit { diameter } if self.ramp == Some(Nm::ZERO) => diameter,
            Cutter::Bit { .. } => Nm::ZERO,
        };
        Ok(Nm::raw(LEAD.check(self.lead.unwrap_or(usual).nm())?))
    }
}
