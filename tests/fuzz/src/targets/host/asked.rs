//! Boards, boxes, cuts, stock and motions that a host might ask for. Small ones: what is large is slow, not different.

use dryfit::*;
use dryfit_core::bounds::*;

use crate::made;
use crate::source::Source;

const MM: i64 = 1_000_000;
const NAMES: [&[u8]; 8] = [b"front", b"back", b"left", b"right", b"base", b"shelf", "Bödele".as_bytes(), b"\xffboard"];

/// A name that a board may have, mostly.
pub fn name(s: &mut Source<'_>) -> Vec<u8> {
    if s.one_in(16) { s.text() } else { s.pick(&NAMES).to_vec() }
}

/// A joint of few fingers.
pub fn joint(s: &mut Source<'_>, kinds: u32) -> dryfit_joint {
    let mut joint = made::joint(s, kinds);
    if (60..=100_000).contains(&joint.count) {
        joint.count = 100_001;
    }
    if joint.kind == DRYFIT_JOINT_FINGERS && (1..MM).contains(&joint.width) {
        joint.width = -joint.width;
    }
    if joint.kind != DRYFIT_JOINT_WHOLE && joint.least > 0 && joint.least < MM / 4 {
        joint.least = 0;
    }
    if joint.kind == DRYFIT_JOINT_TABS && (1..2 * MM).contains(&joint.spacing) {
        joint.spacing = 10 * MM;
    }
    joint
}

/// A slab of a box of 120 x 90 x 60 mm in 4 mm board, or of any size.
pub fn board(s: &mut Source<'_>) -> dryfit_board {
    let t = 4 * MM;
    let (normal, at, size) = s.pick(&[
        (1, [0, 0, 0], [120 * MM, 60 * MM]),
        (1, [0, 90 * MM - 4 * MM, 0], [120 * MM, 60 * MM]),
        (0, [0, 0, 0], [90 * MM, 60 * MM]),
        (0, [120 * MM - 4 * MM, 0, 0], [90 * MM, 60 * MM]),
        (2, [0, 0, 0], [120 * MM, 90 * MM]),
        (2, [0, 0, 30 * MM], [120 * MM, 90 * MM]),
        (0, [60 * MM, 0, 0], [90 * MM, 60 * MM]),
        (1, [0, 40 * MM, 0], [120 * MM, 60 * MM]),
    ]);
    let mut board = dryfit_board { normal, at, size, thickness: t, ..dryfit_board::default() };
    if s.one_in(4) {
        board.at = [(); 3].map(|()| s.number(0..=120 * MM, LENGTH));
    }
    if s.one_in(4) {
        board.size = [(); 2].map(|()| s.number(10 * MM..=120 * MM, SIZE));
    }
    if s.one_in(8) {
        (board.normal, board.thickness) = (s.choice(3), s.number(MM..=12 * MM, THICKNESS));
    }
    if s.one_in(8) {
        let angle = if s.below(2) == 0 { s.pick(&[15, 30, 45, 60, 90, 22, 360, 361]) * DRYFIT_DEGREE } else { s.number(-360 * MM..=360 * MM, TURN) };
        (board.turned, board.turn, board.turn_axis) = (s.choice(2), angle, s.choice(3));
    }
    board
}

pub fn opening(s: &mut Source<'_>) -> dryfit_opening {
    let kind = s.choice(3);
    let mut side = |most| s.number(2 * MM..=most, SIZE);
    let (x, y, width, height) = (side(110 * MM), side(50 * MM), side(20 * MM), side(20 * MM));
    let height = if kind == DRYFIT_OPENING_ROUND && !s.one_in(16) { 0 } else { height };
    dryfit_opening { centre: dryfit_point { x, y }, width, height, kind }
}

/// A box; `shelves` is its memory.
pub fn boxed(s: &mut Source<'_>, shelves: &mut Vec<i64>) -> dryfit_box {
    let few = |s: &mut Source<'_>| if s.below(3) == 0 { s.pick(&[1, 2, 3, 201, u32::MAX]) } else { 0 };
    let count = if s.below(3) == 0 { s.below(3) } else { 0 };
    let usual = |s: &mut Source<'_>, most, bound| if s.below(4) == 0 { s.number(MM / 10..=most, bound) } else { 0 };
    *shelves = (0..count).map(|_| s.number(10 * MM..=60 * MM, LENGTH)).collect();
    let top = s.choice(4);
    dryfit_box {
        size: [(); 3].map(|()| s.number(40 * MM..=200 * MM, SIZE)),
        thickness: s.number(2 * MM..=6 * MM, THICKNESS),
        fingers: if s.below(2) == 0 { dryfit_joint::default() } else { joint(s, 1) },
        clearance: if top >= DRYFIT_TOP_LIFT_OFF || s.one_in(16) { usual(s, MM, LID_CLEARANCE) } else { 0 },
        feet: usual(s, 20 * MM, FEET),
        shelves: if shelves.is_empty() { std::ptr::null() } else { shelves.as_ptr() },
        shelf_count: shelves.len(),
        dividers: [few(s), few(s)],
        into_base: s.choice(2),
        top,
        inside: s.choice(2),
    }
}

fn cutter(s: &mut Source<'_>) -> dryfit_cutter {
    let tool = s.choice(3);
    let width = if tool == DRYFIT_TOOL_BIT || s.below(2) == 0 { s.number(MM / 10..=3 * MM, DIAMETER) } else { 0 };
    let trail = if tool == DRYFIT_TOOL_BLADE && s.below(2) == 0 { s.number(0..=MM, TRAIL) } else { 0 };
    dryfit_cutter { width, trail, tool }
}

/// All zeros in a third of all cases.
pub fn cut(s: &mut Source<'_>) -> dryfit_cut {
    if s.below(3) == 0 {
        return dryfit_cut::default();
    }
    let web = if s.below(4) == 0 { s.number(0..=3 * MM, WEB) } else { 0 };
    let relief = if s.below(4) == 0 { s.number(MM / 2..=2 * MM, RELIEF) } else { 0 };
    dryfit_cut { cutter: cutter(s), fit: made::fit(s), web, relief, reach: s.choice(3) }
}

pub fn stock(s: &mut Source<'_>) -> dryfit_stock {
    dryfit_stock {
        thickness: if s.below(4) == 0 { s.number(2 * MM..=6 * MM, THICKNESS) } else { 4 * MM },
        width: s.number(200 * MM..=800 * MM, SHEET),
        height: s.number(200 * MM..=800 * MM, SHEET),
        border: if s.below(2) == 0 { s.number(0..=10 * MM, BORDER) } else { 0 },
        gap: if s.below(2) == 0 { s.number(0..=10 * MM, GAP) } else { 0 },
        count: if s.below(3) == 0 { s.number(1..=3, SHEETS) as u32 } else { 0 },
        grain: s.choice(3),
    }
}

pub fn layout_spec(s: &mut Source<'_>) -> dryfit_layout_spec {
    let mut flag = || if s.below(3) == 0 { s.choice(2) } else { 0 };
    let (share_cuts, unturned, flips, together) = (flag(), flag(), flag(), flag());
    let grain = if s.below(3) == 0 { s.choice(3) } else { 0 };
    dryfit_layout_spec { seed: s.any() as u64, share_cuts, unturned, flips, together, grain }
}

pub fn motion(s: &mut Source<'_>) -> dryfit_motion {
    let cutter = cutter(s);
    let mut motion = dryfit_motion { cutter, ..dryfit_motion::default() };
    let (beam, bit) = (cutter.tool == DRYFIT_TOOL_BEAM, cutter.tool == DRYFIT_TOOL_BIT);
    for _ in 0..s.below(6) {
        let stray = s.one_in(16);
        match s.below(20) {
            0 => motion.feed = s.number(MM..=100 * MM, FEED),
            1 => motion.plunge = s.number(MM..=20 * MM, PLUNGE),
            2 => motion.height = s.number(MM..=10 * MM, HEIGHT),
            3 if !beam || stray => motion.depth = s.number(MM..=8 * MM, DOWN),
            4 if !beam || stray => motion.step = s.number(MM..=4 * MM, DOWN),
            5 if !beam || stray => motion.light = s.number(MM / 10..=MM, DOWN),
            6 => motion.passes = s.number(1..=4, Bound { least: -1, most: 5, ..PASSES }),
            7 if beam || stray => motion.power = s.number(0..=1000 * MM, POWER),
            8 if beam || stray => motion.light_power = s.number(0..=1000 * MM, POWER),
            9 if bit || stray => motion.speed = s.number(1000..=24_000, SPEED),
            10 if bit || stray => motion.ramp = s.number(-1..=40 * MM, RAMP),
            11 => motion.swivel_above = s.number(0..=40 * MM, SWIVEL_ABOVE),
            12 => motion.overcut = s.number(0..=2 * MM, OVERCUT),
            13 => motion.turn_depth = s.number(0..=MM, DOWN),
            14 => motion.bridges = s.number(-1..=4, BRIDGES),
            15 => motion.bridge_width = s.number(MM / 2..=5 * MM, BRIDGE_WIDTH),
            16 if cutter.tool != DRYFIT_TOOL_BLADE || stray => motion.lead = s.number(0..=10 * MM, LEAD),
            17 => motion.flat = s.number(10_000..=MM / 10, FLAT),
            18 => (motion.sheet_by_sheet, motion.pause) = (s.choice(2), s.choice(2)),
            _ if beam || stray => motion.dynamic = s.choice(2),
            _ => {}
        }
    }
    motion
}
