//! A callback that takes moves, and what it does besides.

use std::ffi::c_void;

use dryfit::*;

use crate::source::Source;

/// What a callback returns to stop the work: a host's own numbers, and such as look like the library's.
pub const STOPS: [i32; 5] = [77, -1, i32::MIN, DRYFIT_OUT_OF_RANGE, DRYFIT_WRONG_HANDLE];
/// What it returns where there is too much.
pub const ENOUGH: i32 = 4242;
/// So many moves are enough.
pub const MOST: usize = 20_000;

/// Takes moves, stops at the nth, and calls the library from within.
pub struct Watch {
    pub moves: Vec<dryfit_move>,
    stop: Option<(usize, i32)>,
    within: Option<dryfit_edge>,
    /// The statuses of the calls from within.
    inner: Vec<i32>,
}

impl Watch {
    /// One that takes all.
    pub fn all() -> Watch {
        Watch { moves: Vec::new(), stop: None, within: None, inner: Vec::new() }
    }

    /// One that may stop, and may call the library from within.
    pub fn any(s: &mut Source<'_>, edge: &dryfit_edge) -> Watch {
        let stop = (s.below(2) == 0).then(|| (s.below(12), s.pick(&STOPS)));
        Watch { stop, within: s.one_in(4).then_some(*edge), ..Watch::all() }
    }

    pub fn user(&mut self) -> *mut c_void {
        (&raw mut *self).cast()
    }

    /// Whether a call that ended with this status did as it was told: it went on after 0, and after nothing else.
    pub fn holds(&self, status: i32, all: usize) {
        assert!(self.inner.windows(2).all(|pair| pair[0] == pair[1]), "calls from within: {:?}", self.inner);
        match self.stop {
            Some((at, number)) if at < all.min(MOST) => assert_eq!((status, self.moves.len()), (number, at + 1), "stopped at move {at}"),
            _ if all > MOST => assert_eq!((status, self.moves.len()), (ENOUGH, MOST + 1)),
            _ => assert_eq!((status, self.moves.len()), (DRYFIT_OK, all)),
        }
    }
}

/// The callback.
///
/// # Safety
/// `user` leads to a [`Watch`].
pub unsafe extern "C" fn each(user: *mut c_void, way: *const dryfit_move) -> i32 {
    // SAFETY: as the caller promises.
    let (watch, way) = unsafe { (&mut *user.cast::<Watch>(), *way) };
    let at = watch.moves.len();
    watch.moves.push(way);
    if let Some(edge) = &watch.within
        && at < 4
    {
        let mut inner = Watch { stop: Some((3, 5)), ..Watch::all() };
        // SAFETY: the pointers lead to what they should.
        watch.inner.push(unsafe { dryfit_edge_moves(edge, Some(each), inner.user(), std::ptr::null_mut()) });
    }
    match watch.stop {
        Some((stop, number)) if at == stop => number,
        _ if at >= MOST => ENOUGH,
        _ => 0,
    }
}
