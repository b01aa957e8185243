//! Moves as the files that machines read: no heap, no formatting machinery.

use dryfit_core::{Action, Cutter, Dxf, Error, Gcode, GcodeSpec, Hpgl, LineKind, Move, Nm, Point, Svg};

use crate::files::Sum;

/// A move and how it is cut, in plain numbers.
#[repr(C)]
pub struct Asked {
    from: [i64; 2],
    to: [i64; 2],
    centre: [i64; 2],
    round: bool,
    clockwise: bool,
    tool: u32,
    width: i64,
    trail: i64,
    depth: i64,
    power: i64,
    feed: i64,
    plunge: i64,
    height: i64,
    speed: i64,
    /// Letters by their numbers.
    title: [u8; 16],
}

fn point([x, y]: [i64; 2]) -> Result<Point, Error> {
    Ok(Point::new(Nm::new(x)?, Nm::new(y)?))
}

impl Asked {
    fn way(&self) -> Result<Move, Error> {
        let centre = if self.round { Some(point(self.centre)?) } else { None };
        Ok(Move { from: point(self.from)?, to: point(self.to)?, centre, clockwise: self.clockwise })
    }

    fn actions(&self) -> Result<[Action; 7], Error> {
        let (way, depth) = (self.way()?, Nm::new(self.depth)?);
        let lower = Action::Lower { depth, power: self.power };
        let ramp = Action::Ramp { way: way.reversed(), depth };
        Ok([Action::Line(LineKind::CutInner), Action::Travel(way.from), lower, Action::Cut(way), ramp, Action::Lift, Action::Pause])
    }

    fn cutter(&self) -> Result<Cutter, Error> {
        let width = Nm::new(self.width)?;
        match self.tool {
            0 => Cutter::blade(width, Nm::new(self.trail)?),
            1 => Cutter::beam(width),
            _ => Cutter::bit(width),
        }
    }

    fn title(&self) -> &str {
        core::str::from_utf8(&self.title).unwrap_or("")
    }

    fn gcode(&self) -> Result<i64, Error> {
        let spec = GcodeSpec {
            cutter: self.cutter()?,
            feed: self.feed,
            plunge: self.plunge,
            height: Nm::new(self.height)?,
            dynamic: self.round,
            speed: self.speed,
        };
        let mut file = Gcode::begin(Sum(0), &spec, self.title())?;
        file.note(self.title())?;
        self.actions()?.iter().try_for_each(|action| file.act(action))?;
        file.end().map(|sum| sum.0)
    }

    fn hpgl(&self) -> Result<i64, Error> {
        let mut file = Hpgl::begin(Sum(0))?;
        self.actions()?.iter().try_for_each(|action| file.act(action))?;
        file.end().map(|sum| sum.0)
    }

    fn drawn(&self) -> Result<i64, Error> {
        let way = self.way()?;
        let size = Nm::new(self.height)?;
        let mut dxf = Dxf::begin(Sum(0), self.title())?;
        dxf.label(self.title(), way.from, size)?;
        dxf.line(LineKind::CutOuter, self.clockwise, [way, way.reversed()])?;
        let mut svg = Svg::begin(Sum(0), size, size, self.title(), "")?;
        svg.moves(LineKind::CutOuter, self.clockwise, [way, way.reversed()])?;
        Ok(dxf.end()?.0 ^ svg.end()?.0)
    }
}

/// A sum over the bytes of a G-code file.
#[unsafe(no_mangle)]
pub extern "C" fn proof_gcode(asked: &Asked) -> i64 {
    crate::status(asked.gcode())
}

/// A sum over the bytes of an HP-GL file.
#[unsafe(no_mangle)]
pub extern "C" fn proof_hpgl(asked: &Asked) -> i64 {
    crate::status(asked.hpgl())
}

/// A sum over the bytes of a DXF and an SVG file.
#[unsafe(no_mangle)]
pub extern "C" fn proof_drawn(asked: &Asked) -> i64 {
    crate::status(asked.drawn())
}
