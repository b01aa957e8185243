//! The ways rectangles may lie on one kind of sheet, and which of them suits a gap best.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::order::Order;
use super::skip::Skip;
use super::skyline::Gap;

/// How many candidates of a kind are looked at, at most, before the next kind of them is tried.
const MOST: usize = 64;

/// As wide as a gap is what leaves no more than this share of it.
const SLIVER: i64 = 32;

/// A rectangle as it may lie.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    pub size: [i64; 2],
    pub rect: usize,
    pub turned: bool,
}

/// The ways in falling order of one side, of those still to be placed.
struct Falling {
    side: usize,
    ways: Vec<Way>,
    /// Where in `ways` a rectangle's are.
    places: Vec<[Option<u32>; 2]>,
    left: Skip,
}

impl Falling {
    fn new(mut ways: Vec<Way>, rects: usize, side: usize) -> Falling {
        ways.sort_by_key(|way| (Reverse(pick(way.size, side)), Reverse(pick(way.size, 1 - side)), way.rect));
        let mut places = alloc::vec![[None; 2]; rects];
        for (at, way) in ways.iter().enumerate() {
            if let Some([lying, turned]) = places.get_mut(way.rect) {
                *(if way.turned { turned } else { lying }) = u32::try_from(at).ok();
            }
        }
        Falling { side, ways, places, left: Skip::default() }
    }

    fn drop(&mut self, rect: usize) {
        for at in self.places.get(rect).into_iter().flatten().flatten() {
            self.left.drop(*at as usize);
        }
    }

    /// Where those begin whose side is at most `most`.
    fn from(&self, most: i64) -> usize {
        self.ways.partition_point(|way| pick(way.size, self.side) > most)
    }

    /// The next way left at or after a place, and its place.
    fn next(&mut self, at: usize) -> Option<(usize, Way)> {
        let at = self.left.find(at);
        self.ways.get(at).map(|way| (at, *way))
    }

    fn way(&self, rect: usize, turned: bool) -> Option<Way> {
        let [as_is, quarter] = self.places.get(rect)?;
        self.ways.get((if turned { *quarter } else { *as_is })? as usize).copied()
    }
}

fn pick([width, height]: [i64; 2], side: usize) -> i64 {
    if side == 0 { width } else { height }
}

/// The ways to lie on one kind of sheet, of the rectangles still to be placed.
pub(super) struct Ways {
    by_width: Falling,
    by_height: Falling,
}

impl Ways {
    /// From all ways that are allowed and no larger than the sheet; `rects` is how many rectangles there are.
    pub fn new(ways: Vec<Way>, rects: usize) -> Ways {
        Ways { by_width: Falling::new(ways.clone(), rects, 0), by_height: Falling::new(ways, rects, 1) }
    }

    /// All are there.
    pub fn renew(&mut self) {
        self.by_width.left.renew(self.by_width.ways.len());
        self.by_height.left.renew(self.by_height.ways.len());
    }

    pub fn drop(&mut self, rect: usize) {
        self.by_width.drop(rect);
        self.by_height.drop(rect);
    }

    /// Whether none is left.
    pub fn is_empty(&mut self) -> bool {
        self.by_width.next(0).is_none()
    }

    /// What suits the gap best: as wide as the gap and flush with a wall; as wide as the gap; flush with a wall; the first in order that fits.
    /// Of those as wide, one that leaves no sliver counts one class more.
    /// None only where nothing fits.
    pub fn best(&mut self, gap: &Gap, order: &mut Order) -> Option<Way> {
        let start = self.by_width.from(gap.at.width);
        self.by_width.next(start)?;
        self.as_wide(start, gap, order).or_else(|| self.flush(gap, order)).or_else(|| self.first(start, gap, order))
    }

    fn as_wide(&mut self, mut at: usize, gap: &Gap, order: &Order) -> Option<Way> {
        let [low, high] = gap.sorted_walls();
        let mut best = None;
        for _ in 0..MOST {
            let Some((place, way)) = self.by_width.next(at) else { break };
            let [width, height] = way.size;
            if width < gap.at.width - gap.at.width / SLIVER {
                break;
            }
            at = place + 1;
            if height <= gap.room {
                let flush = if height == high {
                    3
                } else if height == low {
                    2
                } else {
                    u8::from(height < high)
                };
                let score = (flush + u8::from(width == gap.at.width), Reverse(order.rank(way.rect)));
                if best.is_none_or(|(known, _)| known < score) {
                    best = Some((score, way));
                }
            }
        }
        best.map(|(_, way)| way)
    }

    fn flush(&mut self, gap: &Gap, order: &Order) -> Option<Way> {
        let [low, high] = gap.sorted_walls();
        let mut best: Option<(u32, Way)> = None;
        for wall in [high, low] {
            let mut at = self.by_height.from(wall);
            for _ in 0..MOST {
                let Some((place, way)) = self.by_height.next(at) else { break };
                if way.size[1] < wall {
                    break;
                }
                at = place + 1;
                let rank = order.rank(way.rect);
                if way.size[0] <= gap.at.width && best.is_none_or(|(known, _)| rank < known) {
                    best = Some((rank, way));
                }
            }
            if best.is_some() {
                break;
            }
        }
        best.map(|(_, way)| way)
    }

    fn first(&mut self, start: usize, gap: &Gap, order: &mut Order) -> Option<Way> {
        let fits = |way: &Way| way.size[0] <= gap.at.width && way.size[1] <= gap.room;
        let narrow = self.by_width.ways.len() - start;
        if narrow > MOST / 2 {
            let mut at = 0;
            for _ in 0..4 * MOST {
                let Some((rank, rect)) = order.next(at) else { break };
                at = rank + 1;
                let turned = order.would_turn(rect);
                for turned in [turned, !turned] {
                    if let Some(way) = self.by_width.way(rect, turned).filter(fits) {
                        return Some(way);
                    }
                }
            }
        }
        let (mut at, mut best): (_, Option<((u32, bool), Way)>) = (start, None);
        while let Some((place, way)) = self.by_width.next(at) {
            at = place + 1;
            let key = (order.rank(way.rect), order.would_turn(way.rect) != way.turned);
            if fits(&way) && best.is_none_or(|(known, _)| key < known) {
                best = Some((key, way));
                if narrow > MOST / 2 {
                    break;
                }
            }
        }
        best.map(|(_, way)| way)
    }
}
