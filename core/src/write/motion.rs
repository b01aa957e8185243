//! The files that machines read, of a planned sheet.

use alloc::string::String;
use alloc::vec::Vec;

use super::gcode::{Gcode, GcodeSpec};
use super::sheet::text;
use super::sink::Sink;
use crate::cut::Plan;
use crate::error::Error;

/// A bit turns so many times a minute unless told otherwise.
const TURNS: i64 = 10_000;

/// The G-code of a planned sheet; see [`write_gcode`].
///
/// # Errors
/// As [`Gcode::begin`].
pub fn gcode(plan: &Plan, title: &str) -> Result<String, Error> {
    Ok(text(write_gcode(Vec::new(), plan, title)?))
}

/// Writes the G-code of a planned sheet into a sink and gives the sink back.
///
/// # Errors
/// As [`Gcode::begin`]; what the sink says.
///
/// ```
/// use dryfit_core::{Contour, Cutter, LineKind, MotionSpec, Nm, Plan, Point, Shape, gcode};
/// let mm = |v| Nm::from_mm(v);
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let tile = Shape::from_loops([[p(10.0, 10.0)?, p(50.0, 10.0)?, p(50.0, 35.0)?, p(10.0, 35.0)?]]);
/// let line = Contour::closed(LineKind::CutOuter, tile.rings().next().unwrap().bent());
/// let blade = Cutter::blade(Nm::ZERO, mm(0.25)?)?;
/// let plan = Plan::new(vec![line], mm(2.0)?, [p(0.0, 0.0)?, p(60.0, 45.0)?], blade, &MotionSpec::default())?;
/// let text = gcode(&plan, "A tile")?;
/// assert!(text.starts_with("(title: A tile)\n") && text.contains("G1 X50.25 F600\nG3 X50 Y10.25 I-0.25 J0\n"));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn write_gcode<S: Sink>(sink: S, plan: &Plan, title: &str) -> Result<S, Error> {
    let spec = plan.spec();
    let spec = GcodeSpec {
        cutter: plan.cutter(),
        feed: spec.feed,
        plunge: spec.plunge,
        height: spec.height,
        dynamic: spec.dynamic.unwrap_or(false),
        speed: spec.speed.unwrap_or(TURNS),
    };
    let mut file = Gcode::begin(sink, &spec, title)?;
    plan.act(|action| file.act(action))?;
    file.end()
}
