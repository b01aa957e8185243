//! The same six panels by a general-purpose boolean library (`i_overlay`), from rectangles that are given for free.

use criterion::Criterion;
use dryfit_benches::{Lost, Rect, cells, flat_box, nominal};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::Overlay;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;
use std::hint::black_box;

type Contour = Vec<IntPoint>;

fn contour(rect: &Rect) -> Contour {
    let [x0, y0, x1, y1] = rect.map(|nm| nm as i32);
    vec![IntPoint::new(x0, y0), IntPoint::new(x1, y0), IntPoint::new(x1, y1), IntPoint::new(x0, y1)]
}

/// The slab less what it lost.
fn difference((slab, lost): &([Contour; 1], Vec<Contour>)) -> Vec<Vec<Contour>> {
    Overlay::from_subj_and_clip(slab, lost).overlay(OverlayRule::Difference, FillRule::NonZero)
}

/// The core with its fingers.
fn union((core, kept): &([Contour; 1], Vec<Contour>)) -> Vec<Vec<Contour>> {
    Overlay::from_subj_and_clip(core, kept).overlay(OverlayRule::Union, FillRule::NonZero)
}

fn twice_area(shapes: &[Vec<Contour>]) -> i128 {
    let next = |ring: &Contour| ring.iter().skip(1).chain(ring.first()).copied().collect::<Vec<_>>();
    let cross = |(a, b): (&IntPoint, IntPoint)| i128::from(a.x) * i128::from(b.y) - i128::from(b.x) * i128::from(a.y);
    shapes.iter().flatten().map(|ring| ring.iter().zip(next(ring)).map(cross).sum::<i128>()).sum()
}

pub fn measure(c: &mut Criterion) {
    let flat = flat_box();
    let prepare = |slab: &Rect, others: &[Rect]| ([contour(slab)], others.iter().map(contour).collect::<Vec<_>>());
    let panels: Vec<Lost> = cells();
    let slabs: Vec<_> = panels.iter().map(|panel| prepare(&panel.slab, &panel.lost)).collect();
    let cores: Vec<_> = panels.iter().map(|panel| prepare(&panel.core, &panel.kept)).collect();
    for ((panel, slab), core) in panels.iter().zip(&slabs).zip(&cores) {
        let ours = nominal(&flat, panel.face).twice_area();
        assert_eq!(twice_area(&difference(slab)), ours, "{}", panel.face.name());
        assert_eq!(twice_area(&union(core)), ours, "{}", panel.face.name());
    }
    let mut group = c.benchmark_group("i_overlay");
    group.bench_function("difference", |b| b.iter(|| black_box(&slabs).iter().map(difference).collect::<Vec<_>>()));
    group.bench_function("union", |b| b.iter(|| black_box(&cores).iter().map(union).collect::<Vec<_>>()));
    group.finish();
}
