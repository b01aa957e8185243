//! Joints, edges, boxes, blades and moves that a host might ask for.

use dryfit::*;
use dryfit_core::bounds::*;

use crate::source::Source;

const MM: i64 = 1_000_000;

/// A field that the kind has no use for is set rarely.
pub fn joint(s: &mut Source<'_>, kinds: u32) -> dryfit_joint {
    let kind = s.choice(kinds);
    let mut joint = dryfit_joint { kind, first: s.choice(2), ..dryfit_joint::default() };
    match kind {
        DRYFIT_JOINT_FINGERS => fingers(s, &mut joint),
        DRYFIT_JOINT_TABS => {
            joint.width = s.number(MM..=40 * MM, TAB_WIDTH);
            joint.spacing = s.number(10 * MM..=100 * MM, TAB_SPACING);
            joint.end = or_usual(s, MM..=40 * MM, TAB_END);
        }
        DRYFIT_JOINT_HALVES => ratio(s, &mut joint, 1..=8),
        DRYFIT_JOINT_TAILS => {
            joint.count = s.number(1..=8, FINGER_COUNT) as u32;
            joint.ends = s.choice(2);
            joint.width = or_usual(s, MM..=20 * MM, TAB_WIDTH);
            ratio(s, &mut joint, 1..=12);
        }
        DRYFIT_JOINT_THROUGH_FACE => {
            joint.parity = s.choice(3);
            joint.least = or_usual(s, MM..=10 * MM, FINGER_WIDTH);
        }
        _ => {}
    }
    if s.one_in(24) {
        let junk = s.any();
        match s.below(10) {
            0 => joint.count = junk as u32,
            1 => joint.parity = junk as u32,
            2 => joint.numerator = junk as u32,
            3 => joint.denominator = junk as u32,
            4 => joint.ends = 1,
            5 => joint.width = 1,
            6 => joint.spacing = junk,
            7 => joint.end = junk,
            8 => joint.least = junk,
            _ => joint.first = junk as u32,
        }
    }
    joint
}

fn fingers(s: &mut Source<'_>, joint: &mut dryfit_joint) {
    if s.below(2) == 0 {
        joint.count = s.number(0..=25, FINGER_COUNT) as u32;
    } else {
        joint.width = or_usual(s, MM..=40 * MM, FINGER_WIDTH);
    }
    joint.parity = s.choice(3);
    joint.least = or_usual(s, MM / 2..=10 * MM, FINGER_WIDTH);
}

fn or_usual(s: &mut Source<'_>, range: std::ops::RangeInclusive<i64>, bound: Bound) -> i64 {
    if s.below(2) == 0 { 0 } else { s.number(range, bound) }
}

fn ratio(s: &mut Source<'_>, joint: &mut dryfit_joint, range: std::ops::RangeInclusive<i64>) {
    if s.below(2) == 1 {
        (joint.numerator, joint.denominator) = (s.number(1..=2, RATIO_TERM) as u32, s.number(range, RATIO_TERM) as u32);
    }
}

/// Half of all fits are exact.
pub fn fit(s: &mut Source<'_>) -> dryfit_fit {
    if s.below(2) == 0 {
        return dryfit_fit::default();
    }
    let mut allowance = || s.number(-MM / 4..=MM / 4, ALLOWANCE);
    dryfit_fit { flank: allowance(), cheek: allowance(), tip: allowance() }
}

pub fn kerf(s: &mut Source<'_>) -> i64 {
    if s.below(2) == 0 { 0 } else { s.number(0..=3 * MM, KERF) }
}

pub fn point(s: &mut Source<'_>) -> dryfit_point {
    dryfit_point { x: s.coordinate(), y: s.coordinate() }
}

pub fn run(s: &mut Source<'_>) -> i64 {
    s.number(20 * MM..=600 * MM, RUN)
}

pub fn thickness(s: &mut Source<'_>) -> i64 {
    s.number(MM..=12 * MM, THICKNESS)
}

pub fn edge(s: &mut Source<'_>) -> dryfit_edge {
    let (joint, thickness) = (joint(s, 6), thickness(s));
    let depth = if s.below(4) < 3 { thickness } else { s.number(MM..=12 * MM, DEPTH) };
    dryfit_edge { joint, run: run(s), thickness, depth, fit: fit(s), kerf: kerf(s), at: point(s), side: s.choice(2) }
}

pub fn flat_box(s: &mut Source<'_>) -> dryfit_flat_box {
    let mut fingers = joint(s, 1);
    if s.below(2) == 0 {
        fingers = dryfit_joint::default();
    }
    let outside = [(); 3].map(|()| s.number(40 * MM..=400 * MM, SIZE));
    dryfit_flat_box { outside, thickness: thickness(s), fingers, fit: fit(s), kerf: kerf(s), at: point(s), top: s.choice(2) }
}

pub fn knife(s: &mut Source<'_>) -> dryfit_knife {
    dryfit_knife { trail: s.number(0..=MM, TRAIL), swivel_above: s.number(0..=30 * MM, SWIVEL_ABOVE), overcut: s.number(0..=2 * MM, OVERCUT) }
}

pub fn machine(s: &mut Source<'_>) -> dryfit_machine {
    let tool = s.choice(3);
    let mut machine = dryfit_machine { tool, feed: or_usual(s, MM..=100 * MM, FEED), ..dryfit_machine::default() };
    let (beam, bit) = (tool == DRYFIT_TOOL_BEAM, tool == DRYFIT_TOOL_BIT);
    if beam || s.one_in(32) {
        (machine.dynamic, machine.power) = (s.choice(2), s.number(0..=1000 * MM, POWER));
    }
    if !beam || s.one_in(32) {
        (machine.plunge, machine.height) = (or_usual(s, MM..=10 * MM, PLUNGE), or_usual(s, MM..=10 * MM, HEIGHT));
        machine.depth = s.number(MM..=12 * MM, dryfit_core::bounds::DEPTH);
    }
    if bit || s.one_in(32) {
        machine.speed = or_usual(s, 1000..=24_000, SPEED);
    } else if !beam || s.one_in(32) {
        machine.turn_depth = or_usual(s, 0..=MM, DOWN);
    }
    machine
}

/// A move that begins at a point: straight, or an arc of quarters about a centre; rarely one that begins elsewhere, or that is no circle.
pub fn next_move(s: &mut Source<'_>, from: dryfit_point) -> dryfit_move {
    let swivel = u32::from(s.one_in(8));
    let from = if s.one_in(16) { point(s) } else { from };
    let mut reach = || s.number(-50 * MM..=50 * MM, LENGTH);
    let (a, b) = (reach(), reach());
    let bends = if s.below(4) == 0 { 3 } else { 1 };
    let bend = s.choice(bends);
    let plus = |x: i64, y: i64| dryfit_point { x: from.x.saturating_add(x), y: from.y.saturating_add(y) };
    if bend == DRYFIT_STRAIGHT {
        let to = if s.below(2) == 0 { plus(a, 0) } else { plus(a, b) };
        return dryfit_move { from, to, centre: dryfit_point::default(), bend, swivel };
    }
    let (a, b) = (a / 4, b / 4);
    let to = match s.below(6) {
        0..=1 => plus(a.saturating_sub(b), b.saturating_add(a)),
        2..=3 => plus(a.saturating_mul(2), b.saturating_mul(2)),
        4 => plus(0, 0),
        _ => point(s),
    };
    dryfit_move { from, to, centre: plus(a, b), bend, swivel }
}

/// A line of up to `most` moves.
pub fn line(s: &mut Source<'_>, most: usize) -> Vec<dryfit_move> {
    let mut from = point(s);
    let count = s.below(most + 1);
    let mut moves = Vec::new();
    for _ in 0..count {
        let way = next_move(s, from);
        from = way.to;
        moves.push(way);
    }
    moves
}

/// Whether each move begins where the last one ended.
pub fn connected(moves: &[dryfit_move]) -> bool {
    moves.windows(2).all(|pair| pair[0].to == pair[1].from)
}
