use std::vec::Vec;

use super::*;
use crate::bounds::MM;
use crate::point::Point;

fn square() -> Vec<Move> {
    let corners = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)].map(|(x, y)| Point::raw(x * MM, y * MM));
    corners.windows(2).map(|ends| Move { from: ends[0], to: ends[1], centre: None, clockwise: true }).collect()
}

/// Every action, in a list.
fn all(moves: &[Move], closed: bool, ramp: i64) -> Vec<Action> {
    let mut list = Vec::new();
    let pass = Pass { from: Nm::raw(MM), depth: Nm::raw(2 * MM), power: 0 };
    sink(moves, closed, pass, Nm::raw(ramp), &mut |action| {
        list.push(*action);
        Ok(())
    })
    .unwrap();
    list
}

/// The way of an action, and how deep it ends.
fn way(action: &Action) -> (Move, i64) {
    match *action {
        Action::Cut(way) => (way, 2 * MM),
        Action::Ramp { way, depth } => (way, depth.nm()),
        _ => panic!("{action:?}"),
    }
}

#[test]
fn the_way_is_one_and_all_of_it_is_cut_at_full_depth() {
    for closed in [true, false] {
        let moves = if closed { square() } else { square()[..3].to_vec() };
        let lap: i64 = moves.iter().map(Move::length).sum();
        for ramp in [1, 3 * MM, 10 * MM, 25 * MM, 40 * MM, 95 * MM, 10_000 * MM] {
            let list = all(&moves, closed, ramp);
            let mut at = moves[0].from;
            let mut deep = 0;
            let mut sunk = MM;
            for action in &list {
                let (edge, depth) = way(action);
                assert_eq!(edge.from, at);
                assert!(depth >= sunk && depth <= 2 * MM);
                (at, sunk) = (edge.to, depth);
                deep += if matches!(action, Action::Cut(_)) { edge.length() } else { 0 };
            }
            assert_eq!(sunk, 2 * MM);
            let sloped: i64 = list.iter().filter(|action| matches!(action, Action::Ramp { .. })).map(|action| way(action).0.length()).sum();
            assert_eq!(sloped, ramp.min(LAPS * lap));
            // Once round; or back to the start the shorter way, and along all of it.
            if closed {
                assert_eq!(deep, lap);
            } else {
                let into = sloped % (2 * lap);
                assert_eq!((deep, at), (lap + into.min(2 * lap - into), moves[2].to));
            }
        }
    }
}

#[test]
fn the_slope_is_even() {
    let list = all(&square(), true, 25 * MM);
    let depths: Vec<i64> = list.iter().map(|action| way(action).1).collect();
    // 1 mm deeper over 25 mm: 0.4 after the first side, 0.8 after the second.
    assert_eq!(depths[..3], [1_400_000, 1_800_000, 2_000_000]);
}

#[test]
fn without_a_ramp_the_line_is_cut_as_it_is() {
    assert_eq!(all(&square(), true, 0), square().into_iter().map(Action::Cut).collect::<Vec<_>>());
}
