//! Six panels of a closed box as plain rectangles, laid out on a sheet; a frame with small parts inside. What more parts cost: `benches/strips`.

use criterion::Criterion;
use dryfit_benches::{laid_out, mm, rectangle, rectangles};
use dryfit_core::{Nm, Point, Shape};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let six: Vec<Shape> = [[110, 60], [110, 60], [85, 60], [85, 60], [110, 85], [110, 85]].map(|side| rectangle(side.map(mm))).into();
    assert_eq!(laid_out(&six, [mm(500), mm(350)]).sheets.len(), 1);
    let corners = |a: Nm, b: Nm| [Point::new(a, a), Point::new(a, b), Point::new(b, b), Point::new(b, a)];
    let (mut outer, hole) = (corners(mm(0), mm(480)), corners(mm(40), mm(440)));
    outer.reverse();
    let framed: Vec<Shape> = rectangles(24).into_iter().chain([Shape::from_loops([outer, hole])]).collect();
    let mut group = c.benchmark_group("packing");
    group.bench_function("frame", |b| b.iter(|| laid_out(black_box(&framed), [mm(1000), mm(1000)])));
    group.bench_function("six", |b| b.iter(|| laid_out(black_box(&six), [mm(500), mm(350)])));
    group.finish();
}
