//! The order of 100 to 10,000 lines (parts of four corners with a hole each, named in no order), and their minutes by a machine and by known jobs.

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{mm, nm};
use dryfit_core::{Contour, LineKind, Machine, MachineSpec, Pace, Point, Route, RouteSpec, Shape, Tally};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("route");
    group.sample_size(10);
    for count in [100, 1000, 10_000] {
        let contours = parts_in_rows(count);
        group.throughput(Throughput::Elements(count as u64));
        group.bench_function(BenchmarkId::new("lines", count), |b| b.iter(|| Route::new(black_box(&contours), &RouteSpec::default())));
        let route = Route::new(&contours, &RouteSpec::default());
        group.bench_function(BenchmarkId::new("motion", count), |b| b.iter(|| machine().seconds(black_box(&contours), &route, 1)));
    }
    for jobs in [2, 10, 100] {
        let known: Vec<(Tally, f64)> = (0..jobs).map(job).collect();
        group.bench_function(BenchmarkId::new("known", jobs), |b| b.iter(|| Pace::from_known(black_box(&known))));
    }
    group.finish();
}

fn machine() -> Machine {
    let speed = |mm: i64| mm * 1_000_000;
    let spec = MachineSpec { feed: speed(50), travel: speed(200), acceleration: speed(500), deviation: nm(10_000), lift: 0, swivel: 0 };
    Machine::new(spec).expect("a machine")
}

/// Jobs that cost in all there is, and a little of what nothing tells.
fn job(number: i64) -> (Tally, f64) {
    let (parts, turns) = (1 + number * 7 % 31, 4 + number * 5 % 29);
    let tally = Tally {
        cut: parts * (300 + turns * 20) * 1_000_000,
        parts,
        starts: 2 * parts,
        corners: parts * turns,
        travel: parts * 90_000_000,
        sheets: 1 + parts / 8,
    };
    let minutes = tally.cut as f64 / 1e9 + parts as f64 / 2.0 + tally.corners as f64 / 50.0 + tally.sheets as f64 + (number * 3 % 7) as f64 / 20.0;
    (tally, minutes)
}

/// Parts of 40 mm, 10 mm apart in a square, each with a hole in it, so many lines in all.
fn parts_in_rows(count: usize) -> Vec<Contour> {
    let parts = count / 2;
    let wide = parts.isqrt() + 1;
    // A step that has no factor in common with any of these numbers names them in no order.
    (0..parts).map(|k| k * 1009 % parts).flat_map(|k| part(50 * (k % wide), 50 * (k / wide))).collect()
}

fn part(x: usize, y: usize) -> [Contour; 2] {
    let at = |dx: usize, dy: usize| Point::new(mm((x + dx) as i64), mm((y + dy) as i64));
    let outer = [at(0, 0), at(40, 0), at(40, 40), at(0, 40)];
    let hole = [at(10, 10), at(10, 15), at(30, 15), at(30, 10)];
    let shape = Shape::from_loops([outer, hole]);
    let line = |kind, number| Contour::closed(kind, shape.rings().nth(number).expect("two loops").bent());
    [line(LineKind::CutOuter, 0), line(LineKind::CutInner, 1)]
}
