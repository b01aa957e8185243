//! A closed box with twelve sides.

use criterion::{Criterion, Throughput};
use dryfit_benches::{nm, prism12};
use dryfit_core::{Cutter, Fit, Nm, Parts, dry_fit, dry_fit_parts, order};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let spec = prism12();
    let assembly = spec.assembly().expect("the box is sound");
    let panels = assembly.panels().expect("the box is sound");
    assert!(dry_fit(&panels).ok());
    let vertices: usize = panels.iter().map(|panel| panel.shape().vertices().len()).sum();
    assert_eq!(vertices, dryfit_benches::PRISM_VERTICES);
    let (cutter, fit) = (Cutter::beam(nm(180_000)).expect("a kerf"), Fit::new(nm(50_000), Nm::ZERO, Nm::ZERO).expect("a fit"));
    let parts = Parts::cut(&panels, cutter, fit, Nm::ZERO).expect("nothing closes");
    let mut group = c.benchmark_group("prism12");
    group.sample_size(20).throughput(Throughput::Elements(vertices as u64));
    group.bench_function("made", |b| b.iter(|| black_box(&spec).assembly().and_then(|made| made.panels()).expect("the box is sound")));
    group.bench_function("dry-fit", |b| b.iter(|| dry_fit(black_box(&panels))));
    group.bench_function("cut", |b| b.iter(|| Parts::cut(black_box(&panels), cutter, fit, Nm::ZERO).expect("nothing closes")));
    group.bench_function("dry-fit-parts", |b| b.iter(|| dry_fit_parts(black_box(&parts))));
    group.bench_function("order", |b| b.iter(|| order(black_box(&panels)).expect("it goes together")));
    group.finish();
}
