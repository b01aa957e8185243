//! The way of a trailing blade's axis, a vertex of the line, and the same by sines and cosines of the standard library in the same run.

use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{comb, mm, nm, rounds, zigzag};
use dryfit_core::{Knife, KnifeSpec, Move, Point};

const VERTICES: i64 = 10_000;

/// The axis beside a tip, and the direction in which the line leaves or arrives there.
fn beside(way: &Move, tip: Point, trail: f64) -> (f64, [f64; 2]) {
    let at = |point: Point| [point.x.mm(), point.y.mm()];
    let ([ax, ay], [bx, by]) = (at(way.from), at(way.to));
    let ahead = match way.centre.map(at) {
        None => (by - ay).atan2(bx - ax),
        Some([cx, cy]) => {
            let [x, y] = at(tip);
            let quarter = std::f64::consts::FRAC_PI_2;
            (y - cy).atan2(x - cx) + if way.clockwise { -quarter } else { quarter }
        }
    };
    let [x, y] = at(tip);
    (ahead, [x + trail * ahead.cos(), y + trail * ahead.sin()])
}

/// Every end of the axis' moves, in millimetres; a turn where the angle is more than 10 degrees.
fn by_angles(moves: &[Move], trail: f64) -> f64 {
    let (mut sum, mut turns, mut before) = (0.0, 0, None);
    for way in moves {
        let (ahead, [x, y]) = beside(way, way.from, trail);
        if let Some(before) = before {
            let turn: f64 = ahead - before;
            turns += i32::from(turn.cos() < 10f64.to_radians().cos());
        }
        let (arriving, [u, v]) = beside(way, way.to, trail);
        before = Some(arriving);
        sum += x - y + u - v;
    }
    sum + f64::from(turns)
}

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("knife");
    let knife = Knife::new(KnifeSpec::new(nm(250_000))).expect("a blade");
    group.throughput(Throughput::Elements(VERTICES as u64));
    for (scene, moves) in [("zigzag", zigzag(VERTICES)), ("comb", comb(VERTICES)), ("rounds", rounds(VERTICES))] {
        group.bench_function(BenchmarkId::new("follow", scene), |b| {
            // A checksum, so that every coordinate has to be made.
            b.iter(|| {
                let axis = knife.follow(black_box(&moves).iter().copied(), false, None);
                axis.fold(0i64, |sum, axis| sum ^ axis.way.to.x.nm() ^ axis.way.to.y.nm() ^ i64::from(axis.swivel))
            });
        });
        group.bench_function(BenchmarkId::new("std-angles", scene), |b| b.iter(|| by_angles(black_box(&moves), mm(1).mm() / 4.0)));
    }
    group.finish();
}
