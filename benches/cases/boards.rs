//! Many boards: an open tray with a grid of dividers, about 100 and about 400 boards.

use criterion::{BenchmarkId, Criterion};
use dryfit_benches::grid;
use dryfit_core::{dry_fit, order};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("boards");
    group.sample_size(10);
    for dividers in [10, 48, 198] {
        let assembly = grid(dividers);
        let panels = assembly.panels().expect("the grid is sound");
        let boards = assembly.boards().len();
        group.bench_function(BenchmarkId::new("panels", boards), |b| b.iter(|| black_box(&assembly).panels().expect("the grid is sound")));
        group.bench_function(BenchmarkId::new("dry-fit", boards), |b| b.iter(|| dry_fit(black_box(&panels))));
        group.bench_function(BenchmarkId::new("order", boards), |b| b.iter(|| order(black_box(&panels))));
    }
    group.finish();
}
