//! Results in the caller's memory: `(out, cap, needed)`.

use dryfit::{DRYFIT_BUFFER_TOO_SMALL, DRYFIT_NULL_POINTER, DRYFIT_OK, dryfit_error};

use crate::contract::call;
use crate::source::Source;

const CANARY: u64 = 0xA5A5_A5A5_A5A5_A5A5;
/// So many words behind the room are watched where no sanitizer does.
const GUARD: usize = 4;
/// More is not asked for in one piece.
pub const MOST: usize = 20_000;

/// Memory that shows where it was written.
struct Room {
    words: Vec<u64>,
}

impl Room {
    fn new<T>(count: usize) -> Room {
        Room { words: vec![CANARY; (count * size_of::<T>()).div_ceil(8) + GUARD] }
    }

    fn out<T>(&mut self) -> *mut T {
        self.words.as_mut_ptr().cast()
    }

    /// Whether nothing was written behind so many bytes.
    fn untouched_from(&self, bytes: usize) -> bool {
        let all = self.words.iter().flat_map(|word| word.to_ne_bytes());
        all.skip(bytes).all(|byte| byte == CANARY as u8)
    }
}

/// How a call with a buffer ended.
pub enum Filled<T> {
    Refused(i32),
    /// More than is worth the memory.
    TooMany(usize),
    All(Vec<T>),
}

/// Asks how many there are, twice; asks with too little room, with enough and with more, as the bytes say; hands over what came.
pub fn filled<T: Copy>(s: &mut Source<'_>, name: &str, work: impl Fn(*mut T, usize, *mut usize, *mut dryfit_error) -> i32) -> Filled<T> {
    const UNTOUCHED: usize = usize::MAX - 7;
    let null = std::ptr::null_mut();
    let (mut needed, mut again) = (UNTOUCHED, UNTOUCHED);
    let status = call(s, name, &[], |_, error| work(null, 0, &mut needed, error));
    assert_eq!(status, call(s, name, &[], |_, error| work(null, 0, &mut again, error)), "{name}: asked twice");
    assert_eq!(needed, again, "{name}: asked twice");
    if s.one_in(16) {
        let status = call(s, name, &[], |_, error| work(null, 1, &mut again, error));
        assert_eq!((status, again), (DRYFIT_NULL_POINTER, needed), "{name}: out NULL, cap 1");
        assert_eq!(call(s, name, &[], |_, error| work(null, 0, null.cast(), error)), DRYFIT_NULL_POINTER, "{name}: needed NULL");
    }
    if status != DRYFIT_OK {
        assert_eq!(needed, UNTOUCHED, "{name}: refused, but needed was written");
        return Filled::Refused(status);
    }
    let cap = s.pick(&[0, 1, needed.saturating_sub(1), needed, needed + 1, needed / 2]).min(MOST);
    if cap < needed {
        let mut room = Room::new::<T>(cap);
        again = UNTOUCHED;
        let status = call(s, name, &[], |_, error| work(room.out(), cap, &mut again, error));
        assert_eq!((status, again), (DRYFIT_BUFFER_TOO_SMALL, needed), "{name}: cap {cap}");
        assert!(room.untouched_from(0), "{name}: too little room, but written");
    }
    if needed > MOST {
        return Filled::TooMany(needed);
    }
    let mut room = Room::new::<T>(cap.max(needed));
    again = UNTOUCHED;
    let status = call(s, name, &[], |_, error| work(room.out(), cap.max(needed), &mut again, error));
    assert_eq!((status, again), (DRYFIT_OK, needed), "{name}: enough room");
    assert!(room.untouched_from(needed * size_of::<T>()), "{name}: written behind the last entry");
    // SAFETY: so many were written, and any bytes make a T of plain numbers.
    Filled::All((0..needed).map(|at| unsafe { room.out::<T>().add(at).read() }).collect())
}
