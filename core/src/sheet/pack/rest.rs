//! What a search has left out is put where there is room for it all the same.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::fill::area;
use super::{Packing, Problem, Spot};

/// Puts what is left out into holes, or on sheets that are not yet used, the largest first. So nothing is left out that would fit.
pub(super) fn place_rest(problem: &Problem<'_>, packing: &mut Packing) {
    let mut rest = core::mem::take(&mut packing.unplaced);
    rest.sort_by_key(|&rect| Reverse(problem.rects.get(rect).map_or(0, |rect| area(rect.size))));
    for rect in rest {
        match hole(problem, packing, rect).or_else(|| unopened(problem, packing, rect)) {
            Some(spot) => packing.spots.push(spot),
            None => packing.unplaced.push(rect),
        }
    }
    packing.unplaced.sort_unstable();
}

/// The lowest hole of a sheet, whose corner lies at the ends of others.
fn hole(problem: &Problem<'_>, packing: &Packing, rect: usize) -> Option<Spot> {
    packing.sheets.iter().enumerate().find_map(|(sheet, &bin)| {
        let size = problem.bins.get(bin)?.size;
        let corners = |spot: &Spot| {
            let [width, height] = problem.rects.get(spot.rect)?.lying(spot.turned);
            let [x, y] = spot.at;
            Some([x, y, x + width, y + height])
        };
        let lying: Vec<[i64; 4]> = packing.spots.iter().filter(|spot| spot.sheet == sheet).filter_map(corners).collect();
        let ends = |pick: fn(&[i64; 4]) -> i64| {
            let mut ends: Vec<i64> = lying.iter().map(pick).chain([0]).collect();
            ends.sort_unstable();
            ends.dedup();
            ends
        };
        let (xs, ys) = (ends(|corners| corners[2]), ends(|corners| corners[3]));
        problem.ways(rect, bin).find_map(|(turned, [width, height])| {
            let free = |x: i64, y: i64| {
                let apart = |&[left, low, right, high]: &[i64; 4]| x >= right || left >= x + width || y >= high || low >= y + height;
                x + width <= size[0] && y + height <= size[1] && lying.iter().all(apart)
            };
            let at = ys.iter().find_map(|&y| xs.iter().find(|&&x| free(x, y)).map(|&x| [x, y]))?;
            Some(Spot { rect, sheet, at, turned })
        })
    })
}

/// The corner of a new sheet, kinds in their order; sheets of later kinds move on.
fn unopened(problem: &Problem<'_>, packing: &mut Packing, rect: usize) -> Option<Spot> {
    let (bin, turned) = problem.bins.iter().enumerate().find_map(|(bin, kind)| {
        let taken = packing.sheets.iter().filter(|&&known| known == bin).count();
        let there = kind.count.is_none_or(|count| u32::try_from(taken).is_ok_and(|taken| taken < count));
        problem.ways(rect, bin).next().filter(|_| there).map(|(turned, _)| (bin, turned))
    })?;
    let sheet = packing.sheets.partition_point(|&known| known <= bin);
    packing.sheets.insert(sheet, bin);
    packing.spots.iter_mut().filter(|spot| spot.sheet >= sheet).for_each(|spot| spot.sheet += 1);
    Some(Spot { rect, sheet, at: [0, 0], turned })
}
