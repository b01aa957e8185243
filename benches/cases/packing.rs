//! Six panels of a closed box as plain rectangles, laid out on a sheet. What more parts cost: `benches/strips`.

use criterion::Criterion;
use dryfit_benches::{laid_out, mm, rectangle};
use dryfit_core::Shape;
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let six: Vec<Shape> = [[110, 60], [110, 60], [85, 60], [85, 60], [110, 85], [110, 85]].map(|side| rectangle(side.map(mm))).into();
    assert_eq!(laid_out(&six, [mm(500), mm(350)]).sheets.len(), 1);
    c.bench_function("packing/six", |b| b.iter(|| laid_out(black_box(&six), [mm(500), mm(350)])));
}
