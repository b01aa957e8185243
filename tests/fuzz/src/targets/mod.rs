//! One file a target: what is called, and what must hold.

use std::ffi::c_void;

use dryfit::{DRYFIT_OK, DRYFIT_OUT_OF_RANGE, dryfit_error, dryfit_knife, dryfit_point};

use crate::contract::call;
use crate::made;
use crate::source::Source;
use crate::watch::{ENOUGH, MOST, STOPS, Watch};

pub mod blades;
pub mod boxes;
pub mod edges;
pub mod files;
pub mod host;
pub mod lengths;
pub mod messages;
pub mod patterns;

/// What a call may return because a callback did.
pub const STOPPED: [i32; 6] = [STOPS[0], STOPS[1], STOPS[2], STOPS[3], STOPS[4], ENOUGH];

/// A blade along a line: its axis goes on where it ended, and stands beside the tip as far as it trails.
fn led<L: std::fmt::Debug>(
    s: &mut Source<'_>,
    name: &str,
    line: &L,
    knife: &dryfit_knife,
    refused: bool,
    work: impl Fn(*mut dryfit_point, *mut c_void, *mut dryfit_error) -> i32,
) {
    let mut all = Watch::all();
    let before = match s.below(4) {
        0 => dryfit_point::default(),
        1 => made::point(s),
        _ => dryfit_point { x: knife.trail, y: 0 },
    };
    let mut offset = before;
    let given = s.below(2) == 0;
    let status = call(s, name, &STOPPED, |_, error| work(if given { &mut offset } else { std::ptr::null_mut() }, all.user(), error));
    if status == ENOUGH {
        assert!(all.moves.len() > MOST);
        return;
    }
    if refused {
        assert_ne!(status, DRYFIT_OK, "{name}: {line:?}");
    }
    if status != DRYFIT_OK {
        assert!(refused || [DRYFIT_OUT_OF_RANGE].contains(&status), "{name}: {status}");
        assert_eq!((all.moves.len(), offset), (0, before), "{name}: refused, but written");
        return;
    }
    let reach = i128::from(knife.trail) + 1;
    let far = i128::from(offset.x).pow(2) + i128::from(offset.y).pow(2);
    assert!(all.moves.is_empty() || !given || far <= reach * reach, "{name}: the axis stands at {offset:?}, the trail is {}", knife.trail);
    assert!(all.moves.iter().all(|way| way.from != way.to), "{name}: a move without length");
    let mut watch = Watch::any(s, &dryfit::dryfit_edge::default());
    let mut offset = before;
    let status = call(s, name, &STOPPED, |_, error| work(if given { &mut offset } else { std::ptr::null_mut() }, watch.user(), error));
    watch.holds(status, all.moves.len());
    assert_eq!(watch.moves, all.moves[..watch.moves.len()], "{name}: the same line twice");
    if status != DRYFIT_OK {
        assert_eq!(offset, before, "{name}: stopped, but the offset was written");
    }
}
