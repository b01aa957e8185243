//! The upper rim of what lies on a sheet, as a row of level segments.

use alloc::vec::Vec;

/// A level stretch of the rim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Segment {
    pub x: i64,
    pub y: i64,
    pub width: i64,
}

impl Gap {
    /// The lower and the higher wall.
    pub fn sorted_walls(&self) -> [i64; 2] {
        let [left, right] = self.walls;
        [left.min(right), left.max(right)]
    }
}

/// The lowest stretch of the rim, and how high the rim rises beside it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Gap {
    segment: usize,
    pub at: Segment,
    /// Heights of the walls to the left and to the right; the sheet's own edges reach up to its top.
    pub walls: [i64; 2],
    /// From the gap up to the sheet's top.
    pub room: i64,
}

pub(super) struct Skyline {
    segments: Vec<Segment>,
    top: i64,
}

impl Skyline {
    pub fn new() -> Skyline {
        Skyline { segments: Vec::new(), top: 0 }
    }

    /// An empty sheet.
    pub fn clear(&mut self, width: i64, top: i64) {
        self.top = top;
        self.segments.clear();
        self.segments.push(Segment { x: 0, y: 0, width });
    }

    /// The lowest gap, the leftmost of several; none where all of the sheet is below the rim.
    pub fn lowest(&self) -> Option<Gap> {
        let (segment, at) = self.segments.iter().copied().enumerate().min_by_key(|(_, s)| s.y)?;
        if at.y >= self.top {
            return None;
        }
        let wall = |i: Option<usize>| i.and_then(|i| self.segments.get(i)).map_or(self.top, |s| s.y) - at.y;
        Some(Gap { segment, at, walls: [wall(segment.checked_sub(1)), wall(Some(segment + 1))], room: self.top - at.y })
    }

    /// Gives the gap up, up to its lower wall; what is lost: an area.
    pub fn raise(&mut self, gap: &Gap) -> i128 {
        let by = gap.walls[0].min(gap.walls[1]);
        self.set(gap.segment, gap.at.y + by);
        i128::from(by) * i128::from(gap.at.width)
    }

    /// Lays something into the gap, against its left or its right wall; where it begins in x.
    pub fn lay(&mut self, gap: &Gap, [width, height]: [i64; 2], right: bool) -> i64 {
        let (Segment { x, y, width: whole }, i) = (gap.at, gap.segment);
        if width == whole {
            self.set(i, y + height);
            return x;
        }
        let at = if right { x + whole - width } else { x };
        let (rest_x, new) = if right { (x, i + 1) } else { (x + width, i) };
        if let Some(segment) = self.segments.get_mut(i) {
            *segment = Segment { x: rest_x, y, width: whole - width };
        }
        self.segments.insert(new, Segment { x: at, y: y + height, width });
        self.join(new);
        at
    }

    fn set(&mut self, i: usize, y: i64) {
        if let Some(segment) = self.segments.get_mut(i) {
            segment.y = y;
        }
        self.join(i);
    }

    /// Joins a segment with neighbours of its level.
    fn join(&mut self, i: usize) {
        for i in [Some(i), i.checked_sub(1)].into_iter().flatten() {
            if let (Some(&a), Some(&b)) = (self.segments.get(i), self.segments.get(i + 1))
                && a.y == b.y
            {
                self.segments.remove(i + 1);
                if let Some(segment) = self.segments.get_mut(i) {
                    segment.width += b.width;
                }
            }
        }
    }
}
