//! Parts that keep their places among themselves: what the packer moves as one rectangle.

use alloc::vec::Vec;

use super::job::Job;
use super::{Placement, Stock};
use crate::length::Nm;
use crate::point::Point;

/// One part, or several that interlock.
#[derive(Clone, Debug)]
pub(crate) struct Block {
    /// Where each lies, from the lower left corner of the rectangle around all.
    pub members: Vec<Placement>,
    /// That rectangle's width and height.
    pub size: [i64; 2],
}

impl Block {
    /// A part as it is drawn.
    pub fn single(job: &Job<'_>, part: usize) -> Option<Block> {
        let alone = Placement { part, ..Placement::default() };
        Some(Block { members: Vec::from([alone]), size: alone.size(job.item(part)?.path).map(Nm::nm) })
    }

    /// Whether all of it may lie on a stock after so many more quarter turns.
    pub fn may_turn(&self, job: &Job<'_>, stock: &Stock, quarter_turns: u8) -> bool {
        let turned = |placement: &Placement| placement.quarter_turns + quarter_turns;
        self.members.iter().all(|placement| job.item(placement.part).is_some_and(|item| job.may_turn(item, stock, turned(placement))))
    }

    /// The placements of its parts when its lower left corner lies at `at`, turned a quarter if so.
    pub fn at<'a>(&'a self, job: &'a Job<'_>, at: [i64; 2], turned: bool) -> impl Iterator<Item = Placement> + 'a {
        let [left, low] = at;
        self.members.iter().filter_map(move |member| {
            let (x, y) = (member.at.x.nm(), member.at.y.nm());
            let (x, y) = if turned {
                let [_, height] = member.size(job.item(member.part)?.path);
                (self.size[1] - y - height.nm(), x)
            } else {
                (x, y)
            };
            let quarter_turns = (member.quarter_turns + u8::from(turned)) % 4;
            Some(Placement { at: Point::raw(left + x, low + y), quarter_turns, ..*member })
        })
    }
}
