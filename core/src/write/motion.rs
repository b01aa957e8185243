//! The files that machines read, of a planned sheet, and the DXF of any.

use alloc::string::String;
use alloc::vec::Vec;

use super::cautions::{AXIS, BLADE};
use super::dxf::Dxf;
use super::gcode::{Gcode, GcodeSpec};
use super::hpgl::Hpgl;
use super::label::Spot;
use super::sheet::{begun, names, text};
use super::sink::Sink;
use crate::cut::{Cutter, Plan, Track};
use crate::error::{Code, Error};
use crate::kind::LineKind;
use crate::sheet::{Item, Sheet};

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

/// The HP-GL of a planned sheet; see [`Hpgl`].
///
/// # Errors
/// [`Code::NotInFormat`] for what the format cannot say and the job cannot do without: a pause, a first light pass, a depth to turn the blade at, the power of
/// a beam, several passes of a bit.
pub fn hpgl(plan: &Plan) -> Result<String, Error> {
    let (spec, passes) = (plan.spec(), plan.spec().passes);
    let unsaid = [
        ("pause", passes.pause),
        ("light", passes.light.is_some()),
        ("light power", passes.light_power.is_some()),
        ("power", passes.power.is_some()),
        ("turn depth", spec.turn_depth.is_some()),
        ("passes", matches!(plan.cutter(), Cutter::Bit { .. }) && plan.passes().len() > 1),
    ];
    if let Some((name, _)) = unsaid.into_iter().find(|(_, asked)| *asked) {
        return Err(Error::bare(Code::NotInFormat, name));
    }
    let mut file = Hpgl::begin(Vec::new())?;
    plan.act(|action| file.act(action))?;
    Ok(text(file.end()?))
}

/// The DXF of a sheet; see [`Dxf`]: the lines as they are, or as the axis of a planned tool goes, once, in the order of the cut. Names are on the layer `mark`.
///
/// # Errors
/// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
///
/// ```
/// use dryfit_core::{Item, LayoutSpec, Nm, Point, Shape, Stock, sheet_dxf};
/// let mm = |v| Nm::from_mm(v);
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let tile = Shape::from_loops([[p(0.0, 0.0)?, p(40.0, 0.0)?, p(40.0, 25.0)?, p(0.0, 25.0)?]]);
/// let items = [Item::new("tile", &tile)];
/// let stock = Stock::new(mm(2.5)?, [mm(100.0)?, mm(50.0)?], mm(8.0)?, mm(1.0)?)?;
/// let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
/// let text = sheet_dxf(&layout.sheets[0], &items, None, "Tiles")?;
/// assert_eq!(text.matches("VERTEX").count(), 4);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn sheet_dxf(sheet: &Sheet, items: &[Item<'_>], plan: Option<&Plan>, title: &str) -> Result<String, Error> {
    let notes = plan.map_or(["", ""], notes);
    let mut file = Dxf::with(Vec::new(), [title].into_iter().chain(notes.into_iter().filter(|note| !note.is_empty())))?;
    for (name, Spot { centre, size }) in names(sheet, items)? {
        file.label(name, centre, size)?;
    }
    for track in tracks(sheet, items, plan)? {
        file.line(track.kind, track.closed, track.moves)?;
    }
    Ok(text(file.end()?))
}

/// The SVG of a sheet as the axis of a planned tool goes, once; see [`crate::write_sheet`] for the rest. The lines of each kind are in the order of the cut.
///
/// # Errors
/// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
pub fn plan_svg(sheet: &Sheet, items: &[Item<'_>], plan: &Plan, title: &str) -> Result<String, Error> {
    let [axis, blade] = notes(plan);
    let mut svg = begun(Vec::new(), sheet, items, title, &alloc::format!(" {axis} {blade}"))?;
    let tracks = plan.tracks();
    for kind in LineKind::ALL {
        for track in tracks.iter().filter(|track| track.kind == kind) {
            svg.moves(kind, track.closed, track.moves.iter().copied())?;
        }
    }
    Ok(text(svg.end()?))
}

/// What a file says that has the way of the axis.
fn notes(plan: &Plan) -> [&'static str; 2] {
    [AXIS, if matches!(plan.cutter(), Cutter::Blade { .. }) { BLADE } else { "" }]
}

fn tracks(sheet: &Sheet, items: &[Item<'_>], plan: Option<&Plan>) -> Result<Vec<Track>, Error> {
    match plan {
        Some(plan) => Ok(plan.tracks()),
        None => Ok(sheet.lines(items)?.iter().map(Track::of).collect()),
    }
}
