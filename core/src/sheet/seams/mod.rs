//! Shared cuts: parts that interlock, so that one cut is the edge of two.
//!
//! ```text
//!   +-----------+         +------------------+
//!   |           |__    __ |                  |        A's fingers lie in B's notches and B's in A's:
//!   |     A      __|  |__ |    A #### B      |        the line between them is cut once. Apart, both
//!   |           |__    __ |      #           |        edges would be cut, and a gap would be lost.
//!   |___________|     |___|__________________|
//! ```
//!
//! What may be shared is asked of the cut paths alone: where two of them coincide, one cut does for both. With a kerf of 0 the path is
//! the outline. Where the fit asks for gaps as wide as the kerf (flank and cheek), a fingered edge's path is its nominal line: each side
//! loses half the kerf, which is the gap that was asked for. Straight free edges stand a kerf apart when their paths coincide, so they share with any kerf.
//!
//! Parts of one block do not overlap, and parallel edges that face each other coincide or stand at least the gap apart.

mod grow;
mod pairs;
mod shared;
mod variant;

use alloc::vec::Vec;

use self::grow::{State, grow};
use self::pairs::Pairs;
use self::variant::Variants;
use super::Placement;
use super::area;
use super::block::Block;
use super::job::Job;
use super::watch::Watch;
use crate::length::Nm;
use crate::point::Point;

/// So many parts are looked at together; more are taken in the order given, so that the time grows with their number.
const TOGETHER: usize = 24;

/// How many parts a block has at most, one alternative each: large blocks share most, small ones fill sheets better.
const MOST: [usize; 5] = [usize::MAX, 8, 6, 4, 2];

/// Of more parts than these only the largest blocks are tried.
const VERY_MANY: usize = 10 * TOGETHER;

/// So many blocks are grown at a time, and so many where there are more parts than are looked at together.
const WIDTH: usize = 32;
const OF_MANY: usize = 6;
const OF_VERY_MANY: usize = 2;

/// Ways to join the wanted parts to blocks that share cuts; each part is in one block of each way, those that share nothing alone.
/// Where there are several groups, the last way joins no parts of different groups.
pub(crate) fn clusterings(job: &Job<'_>, watch: &mut Watch<'_>) -> Vec<Vec<Block>> {
    let parts = job.wanted.len();
    let most: Vec<usize> = MOST.into_iter().filter(|&most| most == usize::MAX || most < parts && parts <= VERY_MANY).collect();
    let all: Vec<&[usize]> = job.wanted.chunks(TOGETHER).collect();
    let group = |part: &usize| job.item(*part).map(|item| item.group);
    let groups: Vec<&[usize]> = job.wanted.chunk_by(|a, b| group(a) == group(b)).collect();
    let mut ways = ways(job, &all, &most, &mut watch.stretch(0.0, 0.8));
    if groups.len() > 1 {
        let apart: Vec<&[usize]> = groups.iter().flat_map(|group| group.chunks(TOGETHER)).collect();
        ways.extend(self::ways(job, &apart, &[usize::MAX], &mut watch.stretch(0.8, 1.0)));
    }
    ways
}

/// One way for each number of parts that a block may have; parts of different chunks are not joined.
fn ways(job: &Job<'_>, chunks: &[&[usize]], most: &[usize], watch: &mut Watch<'_>) -> Vec<Vec<Block>> {
    let parts = job.wanted.len();
    let width = if parts <= TOGETHER {
        WIDTH
    } else if parts <= VERY_MANY {
        OF_MANY
    } else {
        OF_VERY_MANY
    };
    let mut ways: Vec<Vec<Block>> = most.iter().map(|_| Vec::new()).collect();
    let steps = (chunks.len() * most.len()).max(1) as f64;
    let mut done = 0.0;
    for chunk in chunks {
        let variants = Variants::of(job, chunk);
        let mut pairs = Pairs::new(&variants.all, job.gap());
        for (way, &most) in ways.iter_mut().zip(most) {
            way.extend(blocks(job, &variants, &mut pairs, (most, width), &mut watch.stretch(done / steps, (done + 1.0) / steps)));
            done += 1.0;
        }
    }
    ways
}

/// Block after block, each begun with the largest part that is left.
fn blocks(job: &Job<'_>, variants: &Variants, pairs: &mut Pairs<'_>, limits: (usize, usize), watch: &mut Watch<'_>) -> Vec<Block> {
    let mut left: Vec<usize> = variants.classes.iter().map(Vec::len).collect();
    let around = |class: usize| {
        let variant = variants.all.iter().find(|variant| variant.class == class);
        variant.map_or(0, |variant| area(variant.size))
    };
    let mut order: Vec<usize> = (0..left.len()).collect();
    order.sort_by_key(|&class| -around(class));
    let mut blocks = Vec::new();
    for class in order {
        while left.get(class).is_some_and(|&left| left > 0) {
            let grown = if watch.go_on(0.0) { grow(job, pairs, &left, class, limits, watch) } else { None };
            let Some(state) = grown else {
                let taken = left.get_mut(class).map(|left| {
                    *left -= 1;
                    *left
                });
                let part = variants.classes.get(class).zip(taken).and_then(|(items, place)| items.get(place));
                blocks.extend(part.and_then(|&part| Block::single(job, part)));
                continue;
            };
            blocks.push(block(variants, &left, &state));
            left = state.left().to_vec();
        }
    }
    blocks
}

/// A block of real parts; of each class the last that are left are taken.
fn block(variants: &Variants, left: &[usize], state: &State) -> Block {
    let mut left = left.to_vec();
    let members = state.members.iter().filter_map(|&(number, at)| {
        let variant = variants.all.get(number)?;
        let place = left.get_mut(variant.class)?;
        *place = place.checked_sub(1)?;
        let part = *variants.classes.get(variant.class)?.get(*place)?;
        let at = Point::new(Nm::raw(at[0] - state.lo[0]), Nm::raw(at[1] - state.lo[1]));
        Some(Placement { part, at, quarter_turns: variant.quarter_turns, flipped: variant.flipped })
    });
    Block { members: members.collect(), size: state.size() }
}

#[cfg(test)]
#[path = "seams_tests.rs"]
mod tests;
