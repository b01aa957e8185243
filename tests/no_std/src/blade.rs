//! The way of a trailing blade, its arcs as chords: no heap.

use dryfit_core::{Error, Knife, KnifeSpec, Move, Nm, Point, flat};

/// A line of three moves and a blade, in plain numbers.
#[repr(C)]
pub struct Asked {
    points: [[i64; 2]; 4],
    centres: [[i64; 2]; 3],
    round: [bool; 3],
    clockwise: bool,
    closed: bool,
    trail: i64,
    swivel_above: i64,
    overcut: i64,
    tolerance: i64,
}

fn point([x, y]: [i64; 2]) -> Result<Point, Error> {
    Ok(Point::new(Nm::new(x)?, Nm::new(y)?))
}

fn led(asked: &Asked) -> Result<i64, Error> {
    let spec = KnifeSpec { trail: Nm::new(asked.trail)?, swivel_above: asked.swivel_above, overcut: Nm::new(asked.overcut)? };
    let (knife, tolerance) = (Knife::new(spec)?, Nm::new(asked.tolerance)?);
    let mut moves = [Move { from: point(asked.points[0])?, to: Point::default(), centre: None, clockwise: asked.clockwise }; 3];
    let mut from = moves[0].from;
    for (way, (to, (centre, round))) in moves.iter_mut().zip(asked.points.iter().skip(1).zip(asked.centres.iter().zip(asked.round))) {
        *way = Move { from, to: point(*to)?, centre: if round { Some(point(*centre)?) } else { None }, ..*way };
        from = way.to;
    }
    let mut follow = knife.follow(moves.into_iter(), asked.closed, Some(from));
    let mut sum = knife.deviation(moves.into_iter(), asked.closed).nm();
    if let Some(at) = follow.start() {
        sum = sum.wrapping_mul(3).wrapping_add((at.x + at.y).nm());
    }
    for axis in follow.by_ref() {
        for chord in flat(axis.way, Some(tolerance)) {
            sum = sum.wrapping_mul(3).wrapping_add((chord.to.x + chord.to.y).nm()).wrapping_add(i64::from(axis.swivel));
        }
    }
    Ok(follow.offset().map_or(sum, |offset| sum ^ offset.x.nm()))
}

/// A sum over the axis' way and what it costs.
#[unsafe(no_mangle)]
pub extern "C" fn proof_blade(asked: &Asked) -> i64 {
    crate::status(led(asked))
}
