//! Points in square cells, so that near ones are found without looking at all.

use alloc::vec::Vec;

use super::tour::{Spot, apart};

/// Points by cell. Numbers are those of the list that it was made of.
pub(super) struct Grid<'a> {
    points: &'a [Spot],
    low: Spot,
    side: f64,
    columns: usize,
    rows: usize,
    cells: Vec<Vec<usize>>,
}

impl<'a> Grid<'a> {
    /// About two points a cell.
    pub(super) fn new(points: &'a [Spot]) -> Grid<'a> {
        let low = points.iter().fold([f64::MAX; 2], |[x, y], p| [x.min(p[0]), y.min(p[1])]);
        let high = points.iter().fold(low, |[x, y], p| [x.max(p[0]), y.max(p[1])]);
        let (width, height) = (high[0] - low[0], high[1] - low[1]);
        let share = 2.0 / points.len().max(1) as f64;
        let side = libm::sqrt(width * height * share).max(width.max(height) * share).max(1.0);
        let (columns, rows) = ((width / side) as usize + 1, (height / side) as usize + 1);
        let mut grid = Grid { points, low, side, columns, rows, cells: alloc::vec![Vec::new(); columns * rows] };
        for (number, &point) in points.iter().enumerate() {
            let cell = grid.cell(grid.place(point));
            if let Some(cell) = grid.cells.get_mut(cell) {
                cell.push(number);
            }
        }
        grid
    }

    /// Column and row of a point; of one outside, those nearest to it.
    fn place(&self, p: Spot) -> (usize, usize) {
        // Casts of floats saturate.
        let along = |axis: f64, low: f64, count: usize| (((axis - low) / self.side) as usize).min(count - 1);
        (along(p[0], self.low[0], self.columns), along(p[1], self.low[1], self.rows))
    }

    fn cell(&self, (column, row): (usize, usize)) -> usize {
        row * self.columns + column
    }

    /// Takes a point out.
    pub(super) fn remove(&mut self, number: usize) {
        let cell = self.points.get(number).map(|&point| self.cell(self.place(point)));
        if let Some(cell) = cell.and_then(|cell| self.cells.get_mut(cell))
            && let Some(at) = cell.iter().position(|&other| other == number)
        {
            cell.swap_remove(at);
        }
    }

    /// The points in the cells that are so many cells away from the one of `p`.
    fn ring(&self, p: Spot, distance: usize) -> impl Iterator<Item = usize> + '_ {
        let (column, row) = self.place(p);
        let span = |at: usize, count: usize| at.saturating_sub(distance)..=(at + distance).min(count - 1);
        span(row, self.rows).flat_map(move |y| {
            // Whole rows at the top and the bottom, two cells of those between.
            let whole = y.abs_diff(row) == distance;
            let step = if whole || distance == 0 { 1 } else { 2 * distance };
            let first = if whole { column.saturating_sub(distance) } else { column.wrapping_sub(distance) };
            let cells = (0..=2 * distance).step_by(step).map(move |k| first.wrapping_add(k)).take_while(move |&x| !whole || x <= column + distance);
            cells.filter(|&x| x < self.columns).filter_map(move |x| self.cells.get(self.cell((x, y)))).flatten().copied()
        })
    }

    fn rings(&self) -> core::ops::Range<usize> {
        0..self.columns.max(self.rows)
    }

    /// The nearest point; of several the first.
    pub(super) fn nearest(&self, p: Spot) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for distance in self.rings() {
            for number in self.ring(p, distance) {
                let Some(&point) = self.points.get(number) else { continue };
                let found = (apart(p, point), number);
                if best.is_none_or(|best| found < best) {
                    best = Some(found);
                }
            }
            // Whatever lies beyond this ring is farther away than so many cells.
            if best.is_some_and(|(length, _)| length <= distance as f64 * self.side) {
                break;
            }
        }
        best.map(|(_, number)| number)
    }

    /// About so many of the nearest points, nearest first.
    pub(super) fn near(&self, p: Spot, count: usize) -> Vec<usize> {
        let mut found: Vec<(f64, usize)> = Vec::new();
        let mut last = usize::MAX;
        for distance in self.rings() {
            found.extend(self.ring(p, distance).filter_map(|number| Some((apart(p, *self.points.get(number)?), number))));
            if last == usize::MAX && found.len() >= count {
                last = distance + 1;
            }
            if distance >= last {
                break;
            }
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        found.truncate(count);
        found.into_iter().map(|(_, number)| number).collect()
    }
}
