//! Where each line may be entered: the places among which the route chooses.

use alloc::vec::Vec;

use super::Start;
use super::tour::{Spot, Stop};
use crate::cut::contour::{Contour, Entry};
use crate::joint::Role;
use crate::point::Point;

/// A place where a walk may begin, and where it then ends.
#[derive(Clone, Copy)]
struct Seat {
    entry: Entry,
    stop: Stop,
}

/// The seats of all lines, those of one line together.
pub(super) struct Seats {
    seats: Vec<Seat>,
    /// Where those of each line end.
    ends: Vec<usize>,
}

impl Seats {
    pub(super) fn new(contours: &[Contour], start: Start) -> Seats {
        let mut all = Seats { seats: Vec::new(), ends: Vec::with_capacity(contours.len()) };
        for (contour, line) in contours.iter().enumerate() {
            if line.closed {
                for entry in entries(line, start) {
                    let Some(at) = line.entry_point(entry).map(spot) else { continue };
                    all.push(entry, Stop { contour, seat: 0, enter: at, leave: at, turned: false, one_way: false });
                }
            } else if let Some((first, last)) = line.ends().map(|(first, last)| (spot(first), spot(last))) {
                let forward = Stop { contour, seat: 0, enter: first, leave: last, turned: false, one_way: line.one_way };
                all.push(Entry::Point(0), forward);
                if !line.one_way {
                    all.push(Entry::Point(0), Stop { enter: last, leave: first, turned: true, ..forward });
                }
            }
            all.ends.push(all.seats.len());
        }
        all
    }

    fn push(&mut self, entry: Entry, stop: Stop) {
        self.seats.push(Seat { entry, stop: Stop { seat: self.seats.len(), ..stop } });
    }

    /// The stops that one line allows.
    pub(super) fn of(&self, contour: usize) -> impl Iterator<Item = Stop> + Clone + '_ {
        let start = contour.checked_sub(1).and_then(|before| self.ends.get(before)).copied().unwrap_or(0);
        let end = self.ends.get(contour).copied().unwrap_or(start);
        self.seats.get(start..end).unwrap_or(&[]).iter().map(|seat| seat.stop)
    }

    /// Where the walk from a seat begins.
    pub(super) fn entry(&self, seat: usize) -> Option<Entry> {
        self.seats.get(seat).map(|seat| seat.entry)
    }
}

/// Where a closed line may begin.
fn entries(line: &Contour, start: Start) -> Vec<Entry> {
    let count = line.points.len();
    let middles = || {
        let straight = |flanks: bool| {
            let edges =
                line.points.iter().enumerate().filter(move |(_, (vertex, centre))| centre.is_none() && (flanks || vertex.role != Role::Flank));
            let lengths: Vec<(usize, i64)> = edges.filter_map(|(number, _)| Some((number, line.edge(number)?.length()))).collect();
            let longest = lengths.iter().map(|&(_, length)| length).max().filter(|&length| length > 0);
            lengths.into_iter().filter(move |&(_, length)| Some(length) == longest).map(|(number, _)| Entry::Middle(number)).collect::<Vec<_>>()
        };
        let clear = straight(false);
        if clear.is_empty() { straight(true) } else { clear }
    };
    let corner = |&number: &usize| {
        let (before, after) = (line.edge(number + count - 1), line.edge(number));
        before.zip(after).is_some_and(|(before, after)| before.from != before.to && after.from != after.to && before.turns_into(&after))
    };
    let corners = || (0..count).filter(corner).map(Entry::Point).collect::<Vec<_>>();
    let wanted = if start == Start::Middle { middles() } else { Vec::new() };
    let wanted = if wanted.is_empty() { corners() } else { wanted };
    if wanted.is_empty() { (0..count).map(Entry::Point).collect() } else { wanted }
}

pub(super) fn spot(at: Point) -> Spot {
    [at.x.nm() as f64, at.y.nm() as f64]
}
