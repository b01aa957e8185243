//! An outline covered by rectangles.

use alloc::vec::Vec;

use crate::length::Nm;
use crate::point::Point;
use crate::shape::Shape;
use crate::sheet::area;

/// A rectangle: from where to where along x, and along y.
pub(super) type Rect = [[i64; 2]; 2];

/// Slanted edges are covered by stairs of at most so many steps.
const STEPS: i64 = 12;

/// Rectangles that together hold all of a part, from the lower left corner of the rectangle around it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Cover {
    pub size: [i64; 2],
    pub rects: Vec<Rect>,
}

impl Cover {
    /// Exact where all edges run along the axes, but that what is narrower than `bay` between solid and solid, or between solid and the
    /// sides of the rectangle around all, counts as solid. Arcs count as their chords, as they do in the proof of a layout.
    pub fn of(path: &Shape, twice_area: i128, bay: i64) -> Cover {
        let (low, high) = path.bounds();
        let size = [high.x - low.x, high.y - low.y].map(Nm::nm);
        let whole = [[0, size[0]], [0, size[1]]];
        let void = area(size) - twice_area / 2;
        if void < i128::from(bay) * i128::from(bay) {
            return Cover { size, rects: Vec::from([whole]) };
        }
        let rects = slabs(path, low, bay);
        let upright = closed(&rects, size, bay);
        let crosswise = closed(&flipped(&upright), [size[1], size[0]], bay);
        let mut rects = closed(&flipped(&crosswise), size, bay);
        if crosswise.len() < rects.len() {
            rects = flipped(&crosswise);
        }
        rects.sort_unstable();
        Cover { size, rects }
    }

    /// Mirrored in x.
    pub fn mirrored(&self) -> Cover {
        let [width, _] = self.size;
        self.with(self.size, |[[x0, x1], y]| [[width - x1, width - x0], y])
    }

    /// Turned a quarter counter-clockwise.
    pub fn turned(&self) -> Cover {
        let [width, height] = self.size;
        self.with([height, width], |[x, [y0, y1]]| [[height - y1, height - y0], x])
    }

    fn with(&self, size: [i64; 2], moved: impl Fn(Rect) -> Rect) -> Cover {
        let mut rects: Vec<Rect> = self.rects.iter().map(|&rect| moved(rect)).collect();
        rects.sort_unstable();
        Cover { size, rects }
    }
}

/// With x and y exchanged.
fn flipped(rects: &[Rect]) -> Vec<Rect> {
    rects.iter().map(|&[x, y]| [y, x]).collect()
}

/// The solid cut along y at every vertex and every step; of each slab what reaches from a left edge to the next right one.
fn slabs(path: &Shape, low: Point, bay: i64) -> Vec<Rect> {
    let from_low = |p: Point| [p.x - low.x, p.y - low.y].map(Nm::nm);
    let edges: Vec<[[i64; 2]; 2]> = path
        .edges()
        .map(|(a, b)| [from_low(a), from_low(b)])
        .filter(|[a, b]| a[1] != b[1])
        .map(|[a, b]| if a[1] < b[1] { [a, b] } else { [b, a] })
        .collect();
    let steps = |[a, b]: &[[i64; 2]; 2]| {
        let ([x0, y0], [x1, y1]) = (*a, *b);
        let rise = y1 - y0;
        let steps = if x0 == x1 { 1 } else { (2 * rise.min((x1 - x0).abs()) / bay + 1).min(STEPS) };
        (0..=steps).map(move |step| y0 + rise * step / steps)
    };
    let mut levels: Vec<i64> = edges.iter().flat_map(steps).collect();
    levels.sort_unstable();
    levels.dedup();
    let mut rects = Vec::new();
    let mut sides: Vec<[i64; 2]> = Vec::new();
    for (&y0, &y1) in levels.iter().zip(levels.iter().skip(1)) {
        sides.clear();
        sides.extend(edges.iter().filter(|[a, b]| a[1] <= y0 && y1 <= b[1]).map(|edge| within(edge, y0, y1)));
        sides.sort_unstable_by_key(|[lo, hi]| lo + hi);
        let mut rest = sides.iter();
        while let (Some(a), Some(b)) = (rest.next(), rest.next()) {
            rects.push([[a[0].min(b[0]), a[1].max(b[1])], [y0, y1]]);
        }
    }
    rects
}

/// Where an edge runs along x between two levels, rounded outwards.
fn within([a, b]: &[[i64; 2]; 2], y0: i64, y1: i64) -> [i64; 2] {
    let (dx, dy) = (i128::from(b[0] - a[0]), i128::from(b[1] - a[1]));
    let at = |y: i64, up: i128| a[0] + (i128::from(y - a[1]) * dx + up).div_euclid(dy) as i64;
    let (from, to) = if dx < 0 { (y1, y0) } else { (y0, y1) };
    [at(from, 0), at(to, dy - 1)]
}

/// The same area in slabs along y, with what is narrower than `bay` along x added, and slabs alike put together.
fn closed(rects: &[Rect], [width, _]: [i64; 2], bay: i64) -> Vec<Rect> {
    let mut levels: Vec<i64> = rects.iter().flat_map(|[_, y]| *y).collect();
    levels.sort_unstable();
    levels.dedup();
    let (mut done, mut open): (Vec<Rect>, Vec<Rect>) = (Vec::new(), Vec::new());
    for (&y0, &y1) in levels.iter().zip(levels.iter().skip(1)) {
        let mut solid: Vec<[i64; 2]> = rects.iter().filter(|[_, y]| y[0] <= y0 && y1 <= y[1]).map(|[x, _]| *x).collect();
        solid.sort_unstable();
        let mut spans: Vec<[i64; 2]> = Vec::new();
        for [x0, x1] in solid {
            match spans.last_mut() {
                Some([_, end]) if x0 - *end < bay => *end = x1.max(*end),
                _ => spans.push([if x0 < bay { 0 } else { x0 }, x1]),
            }
        }
        spans.iter_mut().for_each(|[_, end]| *end = if width - *end < bay { width } else { *end });
        let alike = open.len() == spans.len() && open.iter().zip(&spans).all(|([x, y], span)| x == span && y[1] == y0);
        if alike {
            open.iter_mut().for_each(|[_, y]| y[1] = y1);
        } else {
            done.append(&mut open);
            open.extend(spans.into_iter().map(|span| [span, [y0, y1]]));
        }
    }
    done.append(&mut open);
    done
}
