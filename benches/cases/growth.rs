//! A closed box with 10 to 10,000 fingers along each of its twelve runs.

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{nm, run_box};
use dryfit_core::{Cutter, Face, Fingers, Fit, FlatBox, Nm, Parts, dry_fit, order};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("growth");
    group.sample_size(10);
    for fingers in [10, 100, 1000, 10_000] {
        let spec = run_box(fingers);
        let assembly = spec.assembly().expect("the box is sound");
        let panels = assembly.panels().expect("the box is sound");
        let flat = FlatBox::new([dryfit_benches::mm(5000); 3], dryfit_benches::mm(3), true, Fingers::count(fingers).least(nm(1))).expect("sound");
        assert!(dry_fit(&panels).ok());
        let vertices: usize = panels.iter().map(|panel| panel.shape().vertices().len()).sum();
        group.throughput(Throughput::Elements(vertices as u64));
        group.bench_function(BenchmarkId::new("flat", fingers), |b| {
            let sum = |face| dryfit_benches::nominal(black_box(&flat), face).fold(0i64, |sum, v| sum ^ v.at.x.nm() ^ v.at.y.nm());
            b.iter(|| Face::ALL.into_iter().map(sum).fold(0, |a, b| a ^ b));
        });
        group.bench_function(BenchmarkId::new("made", fingers), |b| {
            b.iter(|| black_box(&assembly).panels().expect("the box is sound"));
        });
        group.bench_function(BenchmarkId::new("dry-fit", fingers), |b| b.iter(|| dry_fit(black_box(&panels))));
        group.bench_function(BenchmarkId::new("order", fingers), |b| b.iter(|| order(black_box(&panels))));
        let beam = Cutter::beam(Nm::ZERO).expect("no kerf");
        group.bench_function(BenchmarkId::new("cut", fingers), |b| b.iter(|| Parts::cut(black_box(&panels), beam, Fit::EXACT, Nm::ZERO)));
    }
    group.finish();
}
