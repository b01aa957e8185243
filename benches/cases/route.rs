//! The order of 100 to 10,000 lines: parts of four corners in rows, named in no order.

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::mm;
use dryfit_core::{Contour, LineKind, Point, Route, RouteSpec, Shape};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("route");
    group.sample_size(10);
    for count in [100, 1000, 10_000] {
        let contours = parts_in_rows(count);
        group.throughput(Throughput::Elements(count as u64));
        group.bench_function(BenchmarkId::new("lines", count), |b| b.iter(|| Route::new(black_box(&contours), &RouteSpec::default())));
    }
    group.finish();
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
