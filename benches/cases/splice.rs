//! Two boards of one plane, spliced by 10 to 1,000 tails, beside plain fingers of the same numbers.

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{mm, nm, spliced};
use dryfit_core::{Cutter, Fingers, Fit, Nm, Parts, Profile, Ratio, Side, Tails, dry_fit, order};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("splice");
    group.sample_size(20);
    for tails in [10, 100, 1000] {
        let panels = spliced(tails, true).panels().expect("the splice is sound");
        assert!(dry_fit(&panels).ok());
        let vertices: usize = panels.iter().map(|panel| panel.shape().vertices().len()).sum();
        group.throughput(Throughput::Elements(vertices as u64));
        let run = mm(10 * i64::from(tails));
        let profile = |pattern| Profile::new(pattern, Side::A, mm(8), Fit::EXACT, Nm::ZERO).expect("the profile is sound");
        let leaning = profile(Tails::new(tails, Ratio::EIGHTH).pattern(run, mm(8)).expect("the tails fit"));
        let plain = profile(Fingers::count(2 * tails + 1).least(nm(1)).pattern(run, mm(8)).expect("the fingers fit"));
        for (name, profile) in [("profile", leaning), ("profile-plain", plain)] {
            group.bench_function(BenchmarkId::new(name, tails), |b| {
                b.iter(|| black_box(&profile).vertices().fold(0i64, |sum, v| sum ^ v.at.x.nm() ^ v.at.y.nm() ^ v.role as i64));
            });
        }
        let (cutter, fit) = (Cutter::beam(nm(180_000)).expect("a kerf"), Fit::new(nm(50_000), Nm::ZERO, Nm::ZERO).expect("a fit"));
        for (suffix, slanted) in [("", true), ("-plain", false)] {
            let assembly = spliced(tails, slanted);
            let panels = assembly.panels().expect("the splice is sound");
            let id = |name: &str| BenchmarkId::new(format!("{name}{suffix}"), tails);
            group.bench_function(id("made"), |b| b.iter(|| black_box(&assembly).panels().expect("the splice is sound")));
            group.bench_function(id("dry-fit"), |b| b.iter(|| dry_fit(black_box(&panels))));
            group.bench_function(id("cut"), |b| b.iter(|| Parts::cut(black_box(&panels), cutter, fit, Nm::ZERO).expect("nothing closes")));
            group.bench_function(id("order"), |b| b.iter(|| order(black_box(&panels)).expect("it goes together")));
        }
    }
    group.finish();
}
