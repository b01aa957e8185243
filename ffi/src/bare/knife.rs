//! A trailing blade.

use core::ffi::c_void;

use dryfit_core::{Knife, KnifeSpec, Move};

use super::length::{DRYFIT_DEGREE, DRYFIT_MM, dryfit_nm, or_usual};
use super::moves::{Each, dryfit_each_move, dryfit_move, dryfit_point};
use crate::answer::{call, dryfit_error};
use crate::given::{Given, List, Refused};
use crate::status::dryfit_status;

/// A blade whose tip lags behind its axis, as a castor does. 0 is the usual value of every field but `trail`, `DRYFIT_NONE` none of it.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_knife {
    /// How far: 0 to 20 mm.
    pub trail: dryfit_nm,
    /// At corners that turn by more than this the blade is turned about its tip: millionths of a degree, up to 90 degrees; usually `10 * DRYFIT_DEGREE`,
    /// `DRYFIT_NONE` at every corner.
    pub swivel_above: i64,
    /// How far the tip goes on beyond the point where a closed line began: up to 20 mm; usually 0.5 mm.
    pub overcut: dryfit_nm,
}

impl dryfit_knife {
    pub(crate) fn core(&self, given: &mut Given) -> Result<Knife, Refused> {
        let overcut = or_usual(self.overcut, DRYFIT_MM / 2);
        let (trail, overcut) = (given.length(self.trail, "trail"), given.length(overcut, "overcut"));
        given.done()?;
        given.good(Knife::new(KnifeSpec { trail, swivel_above: or_usual(self.swivel_above, 10 * DRYFIT_DEGREE), overcut }))
    }
}

/// The moves of a list.
fn moves(list: List<dryfit_move>, given: &mut Given) -> Result<impl Iterator<Item = Move> + Clone + use<>, Refused> {
    for way in list.clone() {
        way.core(given);
    }
    given.done()?;
    // Whatever a callback makes of the list meanwhile, a number stays within its range.
    Ok(list.map(|way| way.core(&mut Given::silent())))
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
    given: &mut Given,
) -> Result<(), Refused> {
    // SAFETY: as the caller promises.
    let before = unsafe { offset.as_ref() }.map(|offset| given.point(offset));
    given.done()?;
    let mut follow = knife.follow(line, closed, before);
    follow.by_ref().try_for_each(|axis| each.take(&dryfit_move::of(&axis.way, axis.swivel), given))?;
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
        call(error, |given| {
            let (each, knife) = (Each::new(each, user, given)?, given.at(knife, "knife")?.core(given)?);
            let line = self::moves(given.list(moves, count, "moves")?, given)?;
            led(&knife, line, given.flag(closed, "closed"), offset, &each, given)
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
        call(error, |given| {
            let (out, knife) = (given.out(out, "out")?, given.at(knife, "knife")?.core(given)?);
            let (line, closed) = (self::moves(given.list(moves, count, "moves")?, given)?, given.flag(closed, "closed"));
            given.done()?;
            out.put(knife.deviation(line, closed).nm());
            Ok(())
        })
    }
}
