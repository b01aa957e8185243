//! Files in the making: calls in any order on several of them, after failures and on the wrong ones; callbacks that fail, and that call back.

mod calls;
pub mod formats;
pub mod writer;

use dryfit::*;

use crate::contract::{call, completed, is_stated};
use crate::made;
use crate::source::Source;
use calls::{Act, Format};
use writer::{FULL, Writer};

const FILES: usize = 3;

/// A file and what is known of it.
struct Slot {
    file: Box<dryfit_file>,
    writer: Box<Writer>,
    is: Option<Format>,
    at: dryfit_point,
}

impl Slot {
    fn new() -> Slot {
        Slot { file: Box::new(dryfit_file { state: [0; 40] }), writer: Box::new(Writer::new()), is: None, at: dryfit_point::default() }
    }
}

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let mut slots = [(); FILES].map(|()| Slot::new());
    for _ in 0..4 + s.below(40) {
        let slot = &mut slots[s.below(FILES)];
        if s.one_in(8) {
            // A file may be moved between two calls.
            let elsewhere = Box::new(*slot.file);
            slot.file = elsewhere;
            slot.writer.moved(&mut slot.file);
        }
        let act = Act::any(s);
        // Mostly what the file is for.
        let format = if let (Some(format), true) = (slot.is, s.below(8) > 0) { format } else { s.pick(&Format::ALL) };
        if act != Act::Begin && slot.is.is_none() && s.below(4) > 0 {
            begin(s, slot, format);
        } else if act == Act::Begin {
            if slot.is.is_none() || s.below(8) == 0 {
                begin(s, slot, format);
            }
        } else {
            go_on(s, slot, format, act);
        }
    }
    for slot in &mut slots {
        if let Some(format) = slot.is {
            go_on(s, slot, format, Act::End);
        }
    }
}

fn own(slot: &Slot) -> Vec<i32> {
    vec![slot.writer.number, FULL]
}

fn begin(s: &mut Source<'_>, slot: &mut Slot, format: Format) {
    *slot.writer = Writer::any(s);
    slot.writer.inside(&mut slot.file, format);
    let own = own(slot);
    let status = call(s, format.name(Act::Begin), &own, |s, error| format.begin(s, &mut slot.file, &mut slot.writer, error));
    slot.is = (status == DRYFIT_OK).then_some(format);
    if s.nulls > 0 {
        // Perhaps it was the file that was NULL, and an older one still stands there.
        slot.file.state = [0; 40];
    }
    slot.at = dryfit_point::default();
    after(slot, status, format);
    assert!(status != DRYFIT_OK || !slot.writer.failed, "it goes on after a failure");
    assert!(status == DRYFIT_OK || slot.writer.failed || slot.writer.bytes.is_empty(), "refused, but written");
}

fn go_on(s: &mut Source<'_>, slot: &mut Slot, format: Format, act: Act) {
    let own = own(slot);
    let before = slot.writer.bytes.len();
    let status = match act {
        Act::Cut => {
            let way = made::next_move(s, slot.at);
            slot.at = way.to;
            s.nulls = 0;
            let status = format.cut(&mut *slot.file, s.at(&way));
            is_stated(s, format.name(act), &own, status);
            if status != DRYFIT_OK {
                let told = completed(format.name(act), &slot.file, status);
                assert!(told || slot.is != Some(format) || slot.writer.failed, "{}: {status}, and no word why", format.name(act));
            }
            status
        }
        Act::Edge => {
            let edge = dryfit_edge { run: 60_000_000 + s.below(100) as i64 * 1_000_000, joint: dryfit_joint::default(), ..made::edge(s) };
            let own = [&own[..], &[DRYFIT_OUT_OF_RANGE, DRYFIT_WRONG_HANDLE]].concat();
            call(s, "dryfit_edge_moves", &own, |_, error| format.edge(&edge, &mut slot.file, error))
        }
        _ if !format.has(act) => return,
        _ => call(s, format.name(act), &own, |s, error| format.act(s, act, &mut slot.file, error)),
    };
    if slot.is != Some(format) {
        assert_ne!(status, DRYFIT_OK, "{} took a file that is {:?}", format.name(act), slot.is);
        assert_eq!(slot.writer.bytes.len(), before, "written into a file of another kind");
    } else {
        assert!(status != DRYFIT_WRONG_HANDLE || slot.writer.failed, "{} does not know its file", format.name(act));
        after(slot, status, format);
    }
    if act == Act::End && slot.is == Some(format) && s.nulls == 0 {
        if status == DRYFIT_OK && !slot.writer.failed {
            format.whole(&slot.writer.bytes);
        }
        slot.is = None;
    }
    if slot.writer.failed {
        // What lacks a line is a file no more.
        slot.is = None;
    }
}

/// Whatever became of the call, what was written is lines of the format, and a callback's calls from within were refused.
fn after(slot: &mut Slot, status: i32, format: Format) {
    let writer = &slot.writer;
    assert!(writer.inner.iter().all(|inner| *inner == DRYFIT_WRONG_HANDLE), "calls on a file in use: {:?}", writer.inner);
    if writer.just_failed {
        assert!(status == writer.number || status == FULL, "{status}, but the callback returned {}", writer.number);
    }
    slot.writer.just_failed = false;
    format.so_far(&slot.writer);
}
