//! Bridges: short stretches of a part's outline that are left uncut, so that the part neither falls nor tips before it is taken out.

mod room;

use alloc::collections::{BTreeMap, BTreeSet};
use alloc::vec::Vec;

use self::room::{Room, Rooms};
use super::contour::Contour;
use super::moves::Move;
use crate::bounds::{BED, BRIDGE_WIDTH, BRIDGES, SPACING};
use crate::error::Error;
use crate::joint::{Role, Vertex};
use crate::kind::LineKind;
use crate::length::Nm;
use crate::plane::twice_cross;
use crate::point::Point;
use crate::round::{half, nearest};

/// How many bridges a part has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Many {
    /// So many, spread evenly: 0 to 100.
    Count(i64),
    /// So many that two of them are no farther apart along the outline, as far as there is room for them where they should be.
    Spacing(Nm),
}

/// What is asked of [`Bridges`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct BridgeSpec {
    /// How many a part has.
    pub many: Many,
    /// How wide the board is that is left between the two ends of the cut: 0.05 to 50 mm.
    pub width: Nm,
    /// How far apart the supports of the machine's bed are, if that is known: 1 to 1000 mm. A part whose centre of gravity lies as far as that from all four sides of
    /// the rectangle around it rests on a support at either side of it, however they lie, and has no bridge.
    pub bed: Option<Nm>,
}

/// The lines of a sheet with bridges in them.
///
/// They lie on straight edges of outlines that touch no other board; where a part has no room there, on the tips of its fingers. They are never on a
/// flank, and from each corner at least as far as they are long. Beside them there is board between this cut and the next, as wide as the bridge, or a quarter of
/// that where there is no better place. What a part shares with another is cut through.
///
/// ```text
///   +--------- ---------+      the path stops at one side of the gap and goes on at the other:
///   |        ^ ^        |      width + kerf apart, so that `width` of board is left
///   |                   |
///   +-------------------+
/// ```
///
/// ```
/// use dryfit_core::{BridgeSpec, Bridges, Contour, LineKind, Many, Nm, Point, Shape};
/// let mm = |v| Nm::from_mm(v);
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let plate = Shape::from_loops([[at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 40.0)?, at(0.0, 40.0)?]]);
/// let outline = Contour::closed(LineKind::CutOuter, plate.rings().next().unwrap().bent()).of_part(0);
/// let spec = BridgeSpec { many: Many::Count(2), width: mm(0.5)?, bed: None };
/// let bridges = Bridges::place(vec![outline], &spec, mm(0.2)?)?;
/// let gaps: Vec<_> = bridges.lines[0].edges().filter(|edge| bridges.is_gap(edge)).collect();
/// assert_eq!((bridges.count(), gaps.len(), gaps[0].length()), (2, 2, 700_000));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bridges {
    /// All lines, with the ends of the gaps among their points.
    pub lines: Vec<Contour>,
    /// The numbers of the parts that should have bridges and have no room for one.
    pub bare: Vec<usize>,
    gaps: BTreeSet<[Point; 2]>,
}

impl Bridges {
    /// Puts bridges into the outlines of all parts.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] with the parameter's name.
    pub fn place(lines: Vec<Contour>, spec: &BridgeSpec, kerf: Nm) -> Result<Bridges, Error> {
        match spec.many {
            Many::Count(count) => BRIDGES.check(count)?,
            Many::Spacing(spacing) => SPACING.check(spacing.nm())?,
        };
        let gap = BRIDGE_WIDTH.check(spec.width.nm())? + kerf.nm();
        spec.bed.map(|bed| BED.check(bed.nm())).transpose()?;
        let mut made = Bridges { lines, ..Bridges::default() };
        if spec.many == Many::Count(0) {
            return Ok(made);
        }
        let mut parts: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (number, line) in made.lines.iter().enumerate() {
            if let Some(part) = line.part {
                parts.entry(part).or_default().push(number);
            }
        }
        let rooms = Rooms::new(&made.lines, gap, kerf);
        let mut cuts: BTreeMap<(usize, usize), Vec<i64>> = BTreeMap::new();
        for (part, own) in parts {
            let all = || own.iter().filter_map(|&number| Some((number, made.lines.get(number)?)));
            if spec.bed.is_some_and(|bed| rests(all().map(|(_, line)| line), bed)) {
                continue;
            }
            let outer: Vec<(usize, &Contour)> = all().filter(|(_, line)| line.kind == LineKind::CutOuter).collect();
            let length: i64 = outer.iter().map(|(_, line)| line.length()).sum();
            let found = spread(&outer, &rooms, spec, length, gap);
            if found.is_empty() {
                made.bare.push(part);
            }
            for (place, along) in found {
                cuts.entry(place).or_default().push(along);
            }
        }
        made.cut(cuts, gap);
        Ok(made)
    }

    /// Whether a move of a walk along one of the lines, either way, is a gap.
    pub fn is_gap(&self, way: &Move) -> bool {
        self.gaps.contains(&sorted(way.from, way.to))
    }

    /// How many bridges there are.
    pub fn count(&self) -> usize {
        self.gaps.len()
    }

    /// Puts the ends of the gaps, given by their middles along their edges, among the points of the lines.
    fn cut(&mut self, mut cuts: BTreeMap<(usize, usize), Vec<i64>>, gap: i64) {
        for (number, line) in self.lines.iter_mut().enumerate() {
            if cuts.range((number, 0)..=(number, usize::MAX)).next().is_none() {
                continue;
            }
            let mut points = Vec::with_capacity(line.points.len() + 4);
            for (edge, &(vertex, centre)) in line.points.iter().enumerate() {
                points.push((vertex, centre));
                let Some(mut middles) = cuts.remove(&(number, edge)) else { continue };
                middles.sort_unstable();
                let Some(way) = line.edge(edge) else { continue };
                for middle in middles {
                    let from = middle - half(gap);
                    let [from, to] = [from, from + gap].map(|along| way.split(along)[0].to);
                    self.gaps.insert(sorted(from, to));
                    points.extend([from, to].map(|at| (Vertex { at, ..vertex }, None)));
                }
            }
            line.points = points;
        }
    }
}

fn sorted(a: Point, b: Point) -> [Point; 2] {
    if a < b { [a, b] } else { [b, a] }
}

/// Where the middles of a part's gaps lie: line and edge, and how far along the edge.
fn spread(lines: &[(usize, &Contour)], rooms: &Rooms, spec: &BridgeSpec, length: i64, gap: i64) -> Vec<((usize, usize), i64)> {
    // The best places first: board beside the cut as wide as the bridge, else a quarter of that.
    let tried = [Role::Free, Role::Tip].into_iter().flat_map(|role| [1, 4].map(|share| (role, spec.width.nm() / share)));
    let mut tried = tried.map(|(role, board)| rooms.of(lines, role, board)).filter(|rooms| !rooms.is_empty());
    let Some(mut rooms) = tried.next() else { return Vec::new() };
    // The first in the middle of the longest of them, the others from there on.
    let longest = rooms.iter().copied().reduce(|a, b| if b.to - b.from > a.to - a.from { b } else { a });
    let start = longest.map_or(0, |room| half(room.from + room.to));
    let count = match spec.many {
        Many::Count(count) => count,
        Many::Spacing(spacing) => ((length + spacing.nm() - 1) / spacing.nm().max(1)).max(1),
    };
    // Two gaps have as much board between them as a gap is from a corner.
    let beside = |room: Room, at: i64| room.without(at - 2 * gap, at + 2 * gap);
    let mut found: Vec<(Room, i64)> = Vec::new();
    for number in 0..count {
        // A count is kept where it can be, on places of the next kind.
        while rooms.is_empty() && matches!(spec.many, Many::Count(_)) {
            let Some(more) = tried.next() else { break };
            let left = |room: Room| {
                let taken = found.iter().filter(move |(other, _)| other.place == room.place);
                taken.fold(Vec::from([room]), |left, &(_, at)| left.into_iter().flat_map(|room| beside(room, at)).collect())
            };
            rooms = more.into_iter().flat_map(left).collect();
        }
        let wanted = (start + nearest(i128::from(length) * i128::from(number), i128::from(count))).rem_euclid(length.max(1));
        let far = |room: &Room| {
            let off = (room.from - wanted).max(wanted - room.to).max(0);
            // Round the outline there is another way.
            let back = (room.from + length - wanted).min(wanted + length - room.to);
            if off > 0 { off.min(back.max(0)) } else { 0 }
        };
        let Some((index, room)) = rooms.iter().copied().enumerate().min_by_key(|(_, room)| far(room)) else { break };
        let near = |at: i64| (wanted - at).abs().min(length - (wanted - at).abs());
        let at = if (room.from..=room.to).contains(&wanted) {
            wanted
        } else if near(room.from) <= near(room.to) {
            room.from
        } else {
            room.to
        };
        found.push((room, at));
        rooms.swap_remove(index);
        rooms.extend(beside(room, at));
    }
    found.into_iter().map(|(room, at)| (room.place, at - room.start)).collect()
}

/// Whether a part lies on supports so far apart, whatever their place: its centre of gravity is as far as that from all sides of the rectangle around it. Only a part
/// whose outline is whole is judged.
fn rests<'a>(lines: impl Iterator<Item = &'a Contour> + Clone, bed: Nm) -> bool {
    let closed = lines.clone().all(|line| line.closed);
    let Some((lo, hi)) = lines.clone().find(|line| line.kind == LineKind::CutOuter).and_then(Contour::bounds).filter(|_| closed) else {
        return false;
    };
    let (mut area, mut x, mut y) = (0i128, 0i128, 0i128);
    for way in lines.flat_map(Contour::edges) {
        // From the lower corner, so that the sums stay small.
        let [a, b] = [way.from, way.to].map(|p| Point::new(p.x - lo.x, p.y - lo.y));
        let piece = twice_cross(a, b);
        area += piece;
        x += piece * i128::from((a.x + b.x).nm());
        y += piece * i128::from((a.y + b.y).nm());
    }
    let (wide, high) = (i128::from((hi.x - lo.x).nm()), i128::from((hi.y - lo.y).nm()));
    let inside = |moment: i128, size: i128| {
        let [least, most] = [i128::from(bed.nm()), size - i128::from(bed.nm())].map(|place| 3 * area * place);
        least <= moment && moment <= most
    };
    area > 0 && inside(x, wide) && inside(y, high)
}

#[cfg(test)]
#[path = "../bridge_tests.rs"]
mod tests;
