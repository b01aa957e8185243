//! Where a part's name goes: on solid board, as near the middle and as large as it can be.

use crate::bounds::MM;
use crate::length::Nm;
use crate::point::Point;
use crate::shape::Shape;
use crate::within::solid;

/// The largest and smallest font that may be used, in nm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Font {
    pub(crate) largest: i64,
    pub(crate) smallest: i64,
}

impl Font {
    /// Between 1 mm and 8 mm.
    pub(crate) const PLAIN: Font = Font { largest: 8 * MM, smallest: MM };
}

/// Places tried along each side of the bounding box; odd, so that the middle is one of them.
const PLACES: i64 = 15;

/// A place for a text: its middle and the font's height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Spot {
    pub(crate) centre: Point,
    pub(crate) size: Nm,
}

/// The place for `text` on a shape, if the smallest font finds any: on solid board, and where `allowed` agrees with the rectangle it takes.
pub(crate) fn spot(shape: &Shape, text: &str, font: Font, allowed: impl Fn(Point, Point) -> bool) -> Option<Spot> {
    if text.trim().is_empty() {
        return None;
    }
    let envelope = shape.is_bent().then(|| shape.envelope());
    let shape = envelope.as_ref().unwrap_or(shape);
    let (lo, hi) = shape.bounds();
    let (width, height) = ((hi.x - lo.x).nm(), (hi.y - lo.y).nm());
    let mut size = font.largest.min(width.min(height) / 3);
    while size >= font.smallest.max(1000) {
        // The rectangle with a quarter of a letter around it.
        let (half_x, half_y) = (text_width(text, size) / 2 + size / 4, size * 3 / 4);
        let mut best: Option<(i128, Point)> = None;
        for i in 0..PLACES * PLACES {
            let (i, j) = (i % PLACES, i / PLACES);
            let along = |start: Nm, length: i64, i: i64| start.nm() + (i128::from(length) * i128::from(2 * i + 1) / i128::from(2 * PLACES)) as i64;
            let centre = Point::raw(along(lo.x, width, i), along(lo.y, height, j));
            let (dx, dy) = (i128::from(2 * i + 1 - PLACES) * i128::from(width), i128::from(2 * j + 1 - PLACES) * i128::from(height));
            let far = dx * dx + dy * dy;
            if best.is_some_and(|(known, _)| known <= far) {
                continue;
            }
            let (a, b) = (Point::raw(centre.x.nm() - half_x, centre.y.nm() - half_y), Point::raw(centre.x.nm() + half_x, centre.y.nm() + half_y));
            if solid(shape, a, b, centre) && allowed(a, b) {
                best = Some((far, centre));
            }
        }
        if let Some((_, centre)) = best {
            return Some(Spot { centre, size: Nm::raw(size) });
        }
        size = size * 4 / 5;
    }
    None
}

/// A generous guess: 0.62 of the font's height a letter, the whole height for those beyond Latin, Greek and Cyrillic.
pub(crate) fn text_width(text: &str, size: i64) -> i64 {
    let hundredths: i64 = text.chars().map(|letter| if letter < '\u{0600}' { 62 } else { 100 }).sum();
    (i128::from(size) * i128::from(hundredths) / 100).min(i128::from(i64::MAX / 4)) as i64
}
