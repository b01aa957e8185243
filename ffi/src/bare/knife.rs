//! A trailing blade.

use core::ffi::c_void;

use dryfit_core::{Error, Knife, KnifeSpec, Move};

use super::length::dryfit_nm;
use super::moves::{Each, dryfit_each_move, dryfit_move, dryfit_point};
use crate::answer::{call, dryfit_error};
use crate::buffer::Out;
use crate::given::{Given, List, at};
use crate::status::dryfit_status;

/// A blade whose tip lags behind its axis, as a castor does.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_knife {
    /// How far: 0 to 20 mm.
    pub trail: dryfit_nm,
    /// At corners that turn by more than this the blade is turned about its tip: millionths of a degree, 0 to 90 degrees; 10 degrees is usual.
    pub swivel_above: i64,
    /// How far the tip goes on beyond the point where a closed line began: 0 to 20 mm; 0.5 mm is usual.
    pub overcut: dryfit_nm,
}

impl dryfit_knife {
    pub(crate) fn core(&self) -> Result<Knife, Error> {
        let (trail, overcut) = Given::all(|given| (given.length(self.trail, "trail"), given.length(self.overcut, "overcut")))?;
        Knife::new(KnifeSpec { trail, swivel_above: self.swivel_above, overcut })
    }
}

/// The moves of a list.
fn moves(list: List<dryfit_move>) -> Result<impl Iterator<Item = Move> + Clone, Error> {
    Given::all(|given| {
        for way in list.clone() {
            way.core(given);
        }
    })?;
    // Whatever a callback makes of the list meanwhile, a number stays within its range.
    Ok(list.map(|way| way.core(&mut Given::default())))
}

/// Leads a blade's axis along a line.
///
/// # Safety
/// `offset` is NULL or leads to a point that nobody else uses meanwhile.
pub(crate) unsafe fn led(
    knife: &Knife,
    line: impl Iterator<Item = Move> + Clone,
    closed: bool,
    offset: *mut dryfit_point,
    each: &Each,
) -> Result<(), Error> {
    // SAFETY: as the caller promises.
    let before = match unsafe { offset.as_ref() } {
        Some(offset) => Some(Given::all(|given| given.point(offset))?),
        None => None,
    };
    let mut follow = knife.follow(line, closed, before);
    follow.by_ref().try_for_each(|axis| each.take(&dryfit_move::of(&axis.way, axis.swivel)))?;
    if let (Some(after), false) = (follow.offset(), offset.is_null()) {
        // SAFETY: as the caller promises.
        unsafe { offset.write(dryfit_point::of(after)) };
    }
    Ok(())
}

/// Hands the moves of a trailing blade's axis over, whose tip follows a line of `count` moves, each from where the last one ended.
///
/// `offset` may be NULL: the blade points along the line already. Else it is where the axis stands beside the tip before the line, (`trail`, 0) for a blade that
/// came from the left; the blade is turned from there into the first direction, and `offset` is how it stands after the line. Of a `closed` line the
/// start is gone over again for the overcut. Errors: 102, 810, before the first move; what `each` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_moves_drag(
    moves: *const dryfit_move,
    count: usize,
    closed: u32,
    knife: *const dryfit_knife,
    offset: *mut dryfit_point,
    each: dryfit_each_move,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, || {
            let (each, knife) = (Each::new(each, user)?, at(knife, "knife")?.core()?);
            led(&knife, self::moves(List::new(moves, count, "moves")?)?, Given::all(|given| given.flag(closed, "closed"))?, offset, &each)
        })
    }
}

/// How far the tip of a blade strays from a line at most, where turns are taken in passing.
///
/// Errors: 102, 810.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_knife_deviation(
    moves: *const dryfit_move,
    count: usize,
    closed: u32,
    knife: *const dryfit_knife,
    out: *mut dryfit_nm,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, || {
            let (out, knife) = (Out::new(out, "out")?, at(knife, "knife")?.core()?);
            out.put(knife.deviation(self::moves(List::new(moves, count, "moves")?)?, Given::all(|given| given.flag(closed, "closed"))?).nm());
            Ok(())
        })
    }
}
