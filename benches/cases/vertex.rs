//! Vertices of one profile, from 10 to 10,000 fingers.

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{mm, nm};
use dryfit_core::{Fingers, Fit, Nm, Profile, Side};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("profile");
    for fingers in [10, 100, 1000, 10_000] {
        let pattern = Fingers::count(fingers).least(nm(1)).pattern(mm(1000), mm(3)).expect("the fingers fit");
        let profile = Profile::new(pattern, Side::A, mm(3), Fit::EXACT, Nm::ZERO).expect("the profile is sound");
        group.throughput(Throughput::Elements(profile.vertices().len() as u64));
        // A checksum, so that every coordinate has to be made.
        group.bench_function(BenchmarkId::from_parameter(fingers), |b| {
            b.iter(|| black_box(&profile).vertices().fold(0i64, |sum, v| sum ^ v.at.x.nm() ^ v.at.y.nm() ^ v.role as i64));
        });
    }
    group.finish();
}
