//! Openings that a board is meant to have are filled before the dry fit looks at it; one that is not there is a fault.

use alloc::borrow::Cow;
use alloc::vec::Vec;

use crate::assembly::{Board, Opening};
use crate::joint::Vertex;
use crate::point::Point;
use crate::shape::Shape;

/// The outline with its openings filled, and the places of those that it lacks.
pub(super) fn plugged<'a>(board: &Board, shape: &'a Shape) -> (Cow<'a, Shape>, Vec<Point>) {
    if board.openings().is_empty() {
        return (Cow::Borrowed(shape), Vec::new());
    }
    let mut closed: Vec<(Shape, &Opening)> = board.openings().iter().filter_map(|opening| Some((opening.closed()?, opening))).collect();
    let mut open: Vec<([Point; 10], &Opening)> = board.openings().iter().filter_map(|opening| Some((opening.open()?.1, opening))).collect();
    let mut plugged = Shape::with_capacity(shape.vertices().len(), shape.loops().len());
    for ring in shape.rings() {
        let mut corners: Vec<(Vertex, Option<Point>)> = ring.bent().collect();
        let is_this = |hole: &Shape| {
            let mut places = hole.rings().flat_map(|ring| ring.bent()).map(|(v, centre)| (v.at, centre));
            hole.vertices().len() == corners.len() && corners.iter().all(|(v, centre)| places.next() == Some((v.at, *centre)))
        };
        if let Some(index) = closed.iter().position(|(hole, _)| is_this(hole)) {
            closed.swap_remove(index);
            continue;
        }
        open.retain(|(inner, _)| {
            let places = corners.iter().chain(&corners).map(|(v, _)| v.at);
            let found = (0..corners.len()).find(|&start| places.clone().skip(start).take(inner.len()).eq(inner.iter().copied()));
            if let Some(start) = found {
                corners.rotate_left(start);
                corners.drain(..inner.len().min(corners.len()));
            }
            found.is_none()
        });
        plugged.push_bent(corners);
    }
    let lacking = closed.iter().map(|(_, opening)| opening.place()).chain(open.iter().map(|(_, opening)| opening.place())).collect();
    (Cow::Owned(plugged), lacking)
}
