//! A trailing blade along any line.

use dryfit::*;

use super::{STOPPED, led};
use crate::contract::call;
use crate::made;
use crate::source::Source;
use crate::watch::{Watch, each};

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let (moves, closed, knife) = (made::line(s, 12).into_boxed_slice(), s.choice(2), made::knife(s));
    // Whether the numbers are good shows without a callback's doing.
    let mut watch = Watch::all();
    // SAFETY: the pointers lead to what they should.
    let status = call(s, "dryfit_moves_drag", &[], |_, error| unsafe {
        dryfit_moves_drag(moves.as_ptr(), moves.len(), closed, &knife, std::ptr::null_mut(), Some(each), watch.user(), error)
    });
    let refused = status != DRYFIT_OK;
    assert!(!refused || watch.moves.is_empty(), "refused after the first move");
    let goes_round = moves.first().map(|way| way.from) == moves.last().map(|way| way.to);
    if !refused && made::connected(&moves) && (closed == 0 || goes_round) {
        assert!(made::connected(&watch.moves), "the axis jumps: {:?}", watch.moves);
    }
    if !refused && knife.trail == 0 {
        // Without trail the axis is the tip.
        let way = |way: &dryfit_move| (way.from, way.to, way.bend, if way.bend == 0 { dryfit_point::default() } else { way.centre });
        let plain: Vec<_> = moves.iter().filter(|way| way.from != way.to).map(way).collect();
        let axis: Vec<_> = watch.moves.iter().map(way).collect();
        assert!(axis.starts_with(&plain), "{axis:?} for {plain:?}");
    }
    led(s, "dryfit_moves_drag", &moves, &knife, refused, |offset, user, error| {
        // SAFETY: the pointers lead to what they should.
        unsafe { dryfit_moves_drag(moves.as_ptr(), moves.len(), closed, &knife, offset, Some(each), user, error) }
    });
    deviation(s, &moves, closed, &knife, refused);
    call(s, "dryfit_moves_drag", &STOPPED, |s, error| {
        let (moves, count) = if s.null() { (std::ptr::null(), 1) } else { (moves.as_ptr(), moves.len()) };
        let (knife, callback) = (s.at(&knife), if s.null() { None } else { Some(each as _) });
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_moves_drag(moves, count, closed, knife, std::ptr::null_mut(), callback, Watch::all().user(), error) }
    });
}

fn deviation(s: &mut Source<'_>, moves: &[dryfit_move], closed: u32, knife: &dryfit_knife, refused: bool) {
    const UNTOUCHED: i64 = 0x5A5A_5A5A_5A5A;
    let mut out = UNTOUCHED;
    // SAFETY: the pointers lead to what they should.
    let status = call(s, "dryfit_knife_deviation", &[], |_, error| unsafe {
        dryfit_knife_deviation(moves.as_ptr(), moves.len(), closed, knife, &mut out, error)
    });
    assert_eq!(status != DRYFIT_OK, refused, "led, but not measured, or the other way");
    if refused {
        assert_eq!(out, UNTOUCHED, "refused, but out was written");
    } else if moves.iter().all(|way| way.bend == DRYFIT_STRAIGHT) {
        // It is rounded up by a tenth of a micrometre or two.
        assert!((0..=2 * knife.trail + 200).contains(&out), "a tip strays by {out}, its trail is {}", knife.trail);
    }
}
