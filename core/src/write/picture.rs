//! The exploded picture: boards in isometric view, as SVG.

use alloc::string::String;
use alloc::vec::Vec;

use super::label::{Font, Spot, spot, text_width};
use super::number::millimetres;
use super::order::paint_order;
use super::path::path;
use super::sheet::text;
use super::sink::Sink;
use super::slab::{Slab, View};
use super::svg::{drop, head};
use super::text::escaped;
use crate::assembly::Board;
use crate::bounds::MM;
use crate::error::Error;
use crate::length::Nm;
use crate::point::{Axis, Point};
use crate::shape::Shape;

/// Lightest from above, darkest from the right; the board's own faces and, a little darker, its cut edges.
const FACES: [&str; 3] = ["#D9BC8A", "#EBD5AC", "#F8EBD3"];
const EDGES: [&str; 3] = ["#A98450", "#C39E66", "#DDBE8B"];
const INK: &str = "#4A3518";
/// For names beside the picture: can be read on light and dark pages.
const BESIDE: &str = "#8F6F40";
/// Arcs are drawn as chords no farther from them than this.
const FLAT: Nm = Nm::raw(MM / 20);
/// Places along each side of a board that are tried for the end of a leader.
const LEADER_PLACES: i64 = 24;

/// The picture of boards, each moved by its offset in nm: seen from the front, the right and above, in mm, as large as it needs to be.
///
/// Every board is a slab with its true outline (measured from the slab's lowest corner), its holes and its cut edges. Its name is written on
/// its face where that can be seen, else beside the picture with a leader, unless all of the face is hidden. Boards without an offset stay
/// where they are. Offsets that part the slabs ([`crate::explode`] does) give a true picture; where slabs overlap, as in a box that is put
/// together, the one that is nearer by their least overlap is painted last, and walls inside a mate are left out; boards that cross are
/// then not quite true.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, exploded};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let shapes: Vec<_> = panels.iter().map(|panel| panel.shape().clone()).collect();
/// let boards: Vec<_> = panels.iter().map(|panel| panel.board()).zip(&shapes).collect();
/// let svg = exploded(&boards[..1], &[[0, 0, 0]]);
/// assert!(svg.contains(">front</text>"));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn exploded(boards: &[(&Board, &Shape)], offsets: &[[i64; 3]]) -> String {
    let offsets = offsets.iter().copied().chain(core::iter::repeat([0; 3]));
    // Seen at a slant a circle is none.
    let shapes: Vec<Shape> = boards.iter().map(|(_, shape)| shape.flattened(FLAT)).collect();
    let turned = boards.iter().any(|(board, _)| board.turned_by().is_some());
    let slabs: Vec<Slab<'_>> =
        boards.iter().zip(&shapes).zip(offsets).map(|((&(board, _), shape), offset)| Slab::new(board, shape, offset, turned)).collect();
    let behind = |i: usize, j: usize| matches!((slabs.get(i), slabs.get(j)), (Some(a), Some(b)) if a.behind(b));
    let order = paint_order(slabs.len(), behind);
    let slabs: Vec<Slab<'_>> = order.into_iter().filter_map(|i| slabs.get(i).copied()).collect();
    // A vector takes all bytes.
    draw(&slabs).map(text).unwrap_or_default()
}

/// What is to be drawn, and where it lies in the picture.
struct Picture {
    view: View,
    /// Upper left and lower right corner.
    lo: (i64, i64),
    hi: (i64, i64),
    font: Font,
    out: Vec<u8>,
}

fn draw(slabs: &[Slab<'_>]) -> Result<Vec<u8>, Error> {
    let view = View::isometric();
    let corners = slabs.iter().flat_map(|slab| {
        let (a, b) = slab.shape.bounds();
        let patch = [a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)];
        patch.into_iter().flat_map(move |p| [slab.point(p, true), slab.point(p, false)])
    });
    let corners = corners.map(|p| view.project(p));
    let start = ((i64::MAX, i64::MAX), (i64::MIN, i64::MIN));
    let (mut lo, mut hi) = corners.fold(start, |(lo, hi), (x, y)| ((lo.0.min(x), lo.1.min(y)), (hi.0.max(x), hi.1.max(y))));
    if slabs.is_empty() {
        (lo, hi) = ((0, 0), (0, 0));
    }
    let largest = ((hi.0 - lo.0).max(hi.1 - lo.1) / 32).max(MM);
    let font = Font { largest, smallest: largest / 2 };
    let mut picture = Picture { view, lo, hi, font, out: Vec::new() };
    // Names on faces, where nothing painted later hides them; the others beside the picture.
    let mut spots = Vec::with_capacity(slabs.len());
    let mut beside = Vec::new();
    for (i, slab) in slabs.iter().enumerate() {
        let later = slabs.get(i + 1..).unwrap_or(&[]);
        let free = |lo: Point, hi: Point| later.iter().all(|other| !slab.covered_by(other, lo, hi));
        let spot = spot(slab.shape, slab.board.name(), font, free);
        if spot.is_none()
            && let Some(seen) = seen_point(slab, free)
        {
            beside.push((view.project(slab.point(seen, true)), slab.board.name()));
        }
        spots.push(spot);
    }
    let leaders = picture.leaders(beside);
    picture.open()?;
    for (slab, spot) in slabs.iter().zip(spots) {
        picture.slab(slab, slabs, spot)?;
    }
    for leader in leaders {
        picture.leader(&leader)?;
    }
    picture.out.put(b"</g>\n</svg>\n")?;
    Ok(picture.out)
}

/// A point of the face that can be seen, nearest to its middle.
fn seen_point(slab: &Slab<'_>, free: impl Fn(Point, Point) -> bool) -> Option<Point> {
    let (lo, hi) = slab.shape.bounds();
    let (width, height) = ((hi.x - lo.x).nm(), (hi.y - lo.y).nm());
    let (half_x, half_y) = (width / LEADER_PLACES / 2, height / LEADER_PLACES / 2);
    let all = (0..LEADER_PLACES * LEADER_PLACES).map(|i| (i % LEADER_PLACES, i / LEADER_PLACES));
    let far = |(i, j): (i64, i64)| ((2 * i + 1 - LEADER_PLACES) * half_x).abs().max(((2 * j + 1 - LEADER_PLACES) * half_y).abs());
    let point = |(i, j)| Point::raw(lo.x.nm() + (2 * i + 1) * half_x, lo.y.nm() + (2 * j + 1) * half_y);
    let seen = all.filter(|&at| {
        let p: Point = point(at);
        let (a, b) = (Point::raw(p.x.nm() - half_x, p.y.nm() - half_y), Point::raw(p.x.nm() + half_x, p.y.nm() + half_y));
        free(a, b) && crate::within::solid(slab.shape, a, b, p)
    });
    seen.min_by_key(|&at| far(at)).map(point)
}

/// A name beside the picture: its left end or, to the left of the picture, its right end; and the point it names.
struct Leader<'a> {
    name: &'a str,
    end: (i64, i64),
    left: bool,
    seen: (i64, i64),
}

impl Picture {
    /// Places names to the left and right of the picture, as high as what they name, and makes room for them.
    fn leaders<'a>(&mut self, beside: Vec<((i64, i64), &'a str)>) -> Vec<Leader<'a>> {
        let size = self.font.largest;
        let middle = self.lo.0 / 2 + self.hi.0 / 2;
        let mut leaders = Vec::with_capacity(beside.len());
        let (lo, hi) = (self.lo, self.hi);
        for left in [true, false] {
            let mut side: Vec<_> = beside.iter().filter(|(seen, _)| (seen.0 < middle) == left).collect();
            side.sort_by_key(|(seen, _)| seen.1);
            let mut next = i64::MIN;
            for &(seen, name) in side {
                let y = seen.1.max(next);
                next = y + size * 3 / 2;
                let (x, far) =
                    if left { (lo.0 - size, lo.0 - size - text_width(name, size)) } else { (hi.0 + size, hi.0 + size + text_width(name, size)) };
                self.lo = (self.lo.0.min(far), self.lo.1.min(y - size));
                self.hi = (self.hi.0.max(far), self.hi.1.max(y + size));
                leaders.push(Leader { name, end: (x, y), left, seen });
            }
        }
        leaders
    }

    fn open(&mut self) -> Result<(), Error> {
        let margin = self.font.largest / 2;
        self.lo = (self.lo.0 - margin, self.lo.1 - margin);
        self.hi = (self.hi.0 + margin, self.hi.1 + margin);
        head(&mut self.out, self.hi.0 - self.lo.0, self.hi.1 - self.lo.1, "Exploded view")?;
        self.out.put(b"<g stroke=\"")?;
        self.out.put(INK.as_bytes())?;
        self.out.put(b"\" stroke-linejoin=\"round\" stroke-width=\"")?;
        millimetres(&mut self.out, self.font.largest / 25_000 * 1000)?;
        self.out.put(b"\" font-family=\"sans-serif\">\n")
    }

    fn slab(&mut self, slab: &Slab<'_>, slabs: &[Slab<'_>], spot: Option<Spot>) -> Result<(), Error> {
        self.out.put(b"<g><title>")?;
        escaped(&mut self.out, slab.board.name())?;
        self.out.put(b"</title>\n")?;
        for wall in slab.walls().iter().filter(|wall| !slab.is_joined(wall, slabs)) {
            let tone = tone(EDGES, wall.facing);
            // No line where a round wall goes on.
            self.fill(tone, if wall.smooth { tone } else { INK })?;
            self.ring(slab.corners(wall))?;
            self.out.put(b"\"/>\n")?;
        }
        self.fill(tone(FACES, slab.facing()), INK)?;
        for ring in slab.shape.loops() {
            self.ring(ring.iter().map(|v| slab.point(v.at, true)))?;
        }
        self.out.put(b"\"/>\n")?;
        if let Some(spot) = spot {
            self.on_face(slab, spot)?;
        }
        self.out.put(b"</g>\n")
    }

    /// Starts a path; `stroke` is said where it is not the group's.
    fn fill(&mut self, colour: &str, stroke: &str) -> Result<(), Error> {
        self.out.put(b"<path fill-rule=\"evenodd\" fill=\"")?;
        self.out.put(colour.as_bytes())?;
        if stroke != INK {
            self.out.put(b"\" stroke=\"")?;
            self.out.put(stroke.as_bytes())?;
        }
        self.out.put(b"\" d=\"")
    }

    fn ring(&mut self, points: impl IntoIterator<Item = [i64; 3]>) -> Result<(), Error> {
        let (view, lo) = (self.view, self.lo);
        let points = points.into_iter().map(|p| view.project(p)).map(|(x, y)| (x - lo.0, y - lo.1));
        path(&mut self.out, points, true)
    }

    /// Writes a name as if it were printed on the face.
    fn on_face(&mut self, slab: &Slab<'_>, spot: Spot) -> Result<(), Error> {
        let View { cos, sin } = self.view;
        // Where the letters' right and down point in the picture.
        let square = match slab.board.normal() {
            Axis::X => [cos, -sin, 0.0, 1.0],
            Axis::Y => [cos, sin, 0.0, 1.0],
            Axis::Z => [cos, sin, -cos, sin],
        };
        let matrix = slab.letters().map_or(square, |[[a, b, c], [d, e, f]]| [(a + b) * cos, (a - b) * sin - c, (d + e) * cos, (d - e) * sin - f]);
        let (x, y) = self.view.project(slab.point(spot.centre, true));
        self.out.put(b"<text transform=\"matrix(")?;
        for number in matrix {
            millimetres(&mut self.out, libm::round(number * 1e6) as i64)?;
            self.out.put(b" ")?;
        }
        millimetres(&mut self.out, x - self.lo.0)?;
        self.out.put(b" ")?;
        millimetres(&mut self.out, y - self.lo.1)?;
        self.out.put(b")\" y=\"")?;
        millimetres(&mut self.out, drop(spot.size))?;
        self.name(slab.board.name(), spot.size.nm(), INK, "middle")
    }

    fn leader(&mut self, leader: &Leader<'_>) -> Result<(), Error> {
        let (x, y) = (leader.end.0 - self.lo.0, leader.end.1 - self.lo.1);
        let size = self.font.largest;
        let seen = (leader.seen.0 - self.lo.0, leader.seen.1 - self.lo.1);
        let near = if leader.left { x + size / 4 } else { x - size / 4 };
        for (ink, wide) in [("#FFFFFF", 8_000), (BESIDE, 16_000)] {
            self.out.put(b"<path fill=\"none\" stroke=\"")?;
            self.out.put(ink.as_bytes())?;
            self.out.put(b"\" stroke-width=\"")?;
            millimetres(&mut self.out, size / wide * 1000)?;
            self.out.put(b"\" d=\"")?;
            path(&mut self.out, [(near, y), seen], false)?;
            self.out.put(b"\"/>\n")?;
        }
        self.out.put(b"<text x=\"")?;
        millimetres(&mut self.out, x)?;
        self.out.put(b"\" y=\"")?;
        millimetres(&mut self.out, y + drop(Nm::raw(size)))?;
        self.name(leader.name, size, BESIDE, if leader.left { "end" } else { "start" })
    }

    /// The rest of a text element.
    fn name(&mut self, name: &str, size: i64, colour: &str, anchor: &str) -> Result<(), Error> {
        self.out.put(b"\" font-size=\"")?;
        millimetres(&mut self.out, size / 1000 * 1000)?;
        self.out.put(b"\" text-anchor=\"")?;
        self.out.put(anchor.as_bytes())?;
        self.out.put(b"\" stroke=\"none\" fill=\"")?;
        self.out.put(colour.as_bytes())?;
        self.out.put(b"\">")?;
        escaped(&mut self.out, name)?;
        self.out.put(b"</text>\n")
    }
}

fn tone([right, front, top]: [&'static str; 3], facing: Axis) -> &'static str {
    match facing {
        Axis::X => right,
        Axis::Y => front,
        Axis::Z => top,
    }
}
