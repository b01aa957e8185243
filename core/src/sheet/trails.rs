//! Pieces of lines joined to lines as long as can be.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use crate::joint::Vertex;
use crate::plane::cross;
use crate::point::Point;

/// Joins pieces, each from a vertex to a point, end to end, so that every piece is walked once: from an odd point first, since a line has to end
/// there, and straight on where there is a choice.
pub(super) fn trails(pieces: &[(Vertex, Point)]) -> Vec<Vec<(Vertex, Option<Point>)>> {
    let mut ends: BTreeMap<[i64; 2], Vec<usize>> = BTreeMap::new();
    for (number, (from, to)) in pieces.iter().enumerate() {
        ends.entry(key(from.at)).or_default().push(number);
        ends.entry(key(*to)).or_default().push(number);
    }
    let odd = ends.iter().filter(|(_, at)| at.len() % 2 == 1);
    let starts: Vec<[i64; 2]> = odd.chain(ends.iter()).map(|(point, _)| *point).collect();
    let mut trails = Vec::new();
    for start in starts {
        // Several lines may begin at one point.
        while let Some(trail) = walk(pieces, &mut ends, start) {
            trails.push(trail);
        }
    }
    trails
}

/// One line from a point on, through pieces that are not yet walked; none if there is no more.
fn walk(pieces: &[(Vertex, Point)], ends: &mut BTreeMap<[i64; 2], Vec<usize>>, start: [i64; 2]) -> Option<Vec<(Vertex, Option<Point>)>> {
    let mut trail: Vec<(Vertex, Option<Point>)> = Vec::new();
    let mut at = start;
    let mut came: Option<[Point; 2]> = None;
    while let Some(next) = ends.get(&at).and_then(|near| straightest(pieces, near, at, came)) {
        let (vertex, to) = *pieces.get(next)?;
        let forth = key(vertex.at) == at;
        let (from, to) = if forth { (vertex.at, to) } else { (to, vertex.at) };
        for end in [from, to] {
            if let Some(near) = ends.get_mut(&key(end)) {
                near.retain(|&piece| piece != next);
            }
        }
        // A point where the line goes straight on is none of its corners.
        let goes_on = came.is_some_and(|[before, here]| cross(before, here, to) == 0);
        if !goes_on {
            trail.push((Vertex { at: from, ..vertex }, None));
        }
        came = Some([from, to]);
        at = key(to);
    }
    let [_, last] = came?;
    let end = trail.last().map(|(vertex, _)| Vertex { at: last, ..*vertex })?;
    trail.push((end, None));
    Some(trail)
}

/// The piece at a point that turns least off the way come by.
fn straightest(pieces: &[(Vertex, Point)], near: &[usize], at: [i64; 2], came: Option<[Point; 2]>) -> Option<usize> {
    let turn = |&piece: &usize| {
        let ([before, here], (vertex, to)) = (came?, pieces.get(piece)?);
        let on = if key(vertex.at) == at { *to } else { vertex.at };
        Some(cross(before, here, on) != 0)
    };
    near.iter().min_by_key(|piece| (turn(piece).unwrap_or(false), **piece)).copied()
}

fn key(point: Point) -> [i64; 2] {
    [point.x.nm(), point.y.nm()]
}
