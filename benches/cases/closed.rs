//! One closed box of about 500 vertices, step by step.

use criterion::{Criterion, Throughput};
use dryfit_benches::{VERTICES, closed_box, flat_box, nm, nominal};
use dryfit_core::{Cutter, Face, Fingers, Fit, FlatBox, Nm, Parts, dry_fit, dry_fit_parts, order};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("box");
    let flat = flat_box();
    let spec = closed_box();
    let assembly = spec.assembly().expect("the box is sound");
    let panels = assembly.panels().expect("the box is sound");
    let vertices: usize = panels.iter().map(|panel| panel.shape().vertices().len()).sum();
    assert_eq!(vertices, VERTICES);
    group.throughput(Throughput::Elements(vertices as u64));
    let cutter = Cutter::beam(nm(180_000)).expect("a kerf");
    let fit = Fit::new(nm(50_000), nm(100_000), Nm::ZERO).expect("a fit");
    let parts = Parts::cut(&panels, cutter, fit, Nm::ZERO).expect("nothing closes");
    assert!(dry_fit(&panels).ok() && dry_fit_parts(&parts).ok() && order(&panels).is_ok());

    // Without heap, from the sizes: every vertex goes into a checksum.
    group.bench_function("flat", |b| {
        b.iter(|| {
            let size = dryfit_benches::OUTSIDE.map(dryfit_benches::mm);
            let made = FlatBox::new(black_box(size), dryfit_benches::mm(3), true, Fingers::count(11)).expect("the box is sound");
            let sum = |face| nominal(&made, face).fold(0i64, |sum, v| sum ^ v.at.x.nm() ^ v.at.y.nm());
            Face::ALL.into_iter().map(sum).fold(0, |a, b| a ^ b)
        });
    });
    // The same into one buffer.
    group.bench_function("flat-kept", |b| {
        let mut room = Vec::with_capacity(vertices);
        b.iter(|| {
            room.clear();
            for face in Face::ALL {
                room.extend(nominal(black_box(&flat), face));
            }
            room.len()
        });
    });
    group.bench_function("assembly", |b| b.iter(|| black_box(&spec).assembly().expect("the box is sound")));
    group.bench_function("panels", |b| b.iter(|| black_box(&assembly).panels().expect("the box is sound")));
    group.bench_function("made", |b| {
        b.iter(|| black_box(&spec).assembly().and_then(|assembly| assembly.panels()).expect("the box is sound"));
    });
    group.bench_function("dry-fit", |b| b.iter(|| dry_fit(black_box(&panels))));
    group.bench_function("cut", |b| b.iter(|| Parts::cut(black_box(&panels), cutter, fit, Nm::ZERO)));
    group.bench_function("dry-fit-parts", |b| b.iter(|| dry_fit_parts(black_box(&parts))));
    group.bench_function("order", |b| b.iter(|| order(black_box(&panels))));
    group.finish();
}
