//! A corner dovetail: its lines, warnings and sheet.

use dryfit_core::{DovetailCorner, DovetailWarning, Error, Nm, Ratio, write_corner};

use crate::files::Sum;

/// What a corner is asked for, in plain numbers.
#[repr(C)]
pub struct Asked {
    width: i64,
    tail_board: i64,
    pin_board: i64,
    count: u32,
    rise: u32,
    run: u32,
    socket: i64,
    lap: i64,
    gauge: i64,
}

fn made(asked: &Asked) -> Result<i64, Error> {
    let [width, tail, pin] = [Nm::new(asked.width)?, Nm::new(asked.tail_board)?, Nm::new(asked.pin_board)?];
    let mut corner = DovetailCorner::new(width, tail, pin, asked.count, Ratio::new(asked.rise, asked.run)?).gauge(Nm::new(asked.gauge)?);
    if asked.socket != 0 {
        corner = corner.socket(Nm::new(asked.socket)?);
    }
    if asked.lap != 0 {
        corner = corner.lapped(Nm::new(asked.lap)?);
    }
    let layout = corner.layout()?;
    let lines = layout.lines().fold(0i64, |sum, line| sum.wrapping_mul(3).wrapping_add((line.from.x - line.to.x + line.from.y).nm()));
    let warned = layout.warnings().filter(|warning| !matches!(warning, DovetailWarning::PinNarrow(_))).count() as i64;
    let sheet = write_corner(Sum(0), &layout, "Corner")?.0;
    Ok(lines ^ warned ^ sheet ^ layout.widths().tail[0].nm())
}

/// A sum over the lines, the warnings and the bytes of the sheet.
#[unsafe(no_mangle)]
pub extern "C" fn proof_dovetail(asked: &Asked) -> i64 {
    crate::status(made(asked))
}
