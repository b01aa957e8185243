//! Shared cuts: the search for parts that interlock, for one box and for four.

use criterion::Criterion;
use dryfit_benches::mm;
use dryfit_core::{BoxSpec, Cutter, Fit, Item, Layout, LayoutSpec, Nm, Parts, Stock};
use std::hint::black_box;

fn boxes(sizes: &[[i64; 3]]) -> Parts {
    let one = |size: &[i64; 3]| {
        let panels = BoxSpec::outside(size.map(mm), mm(2)).assembly().and_then(|assembly| assembly.panels()).expect("the box is sound");
        Parts::cut(&panels, Cutter::blade(Nm::ZERO, Nm::ZERO).expect("a thin blade"), Fit::EXACT, Nm::ZERO).expect("nothing moves")
    };
    sizes.iter().map(one).reduce(Parts::join).expect("there is a box")
}

fn lay(parts: &Parts) -> Layout {
    let stock = Stock::new(mm(2), [mm(500), mm(400)], mm(8), mm(1)).expect("a sound sheet");
    let spec = LayoutSpec { share_cuts: true, ..LayoutSpec::default() };
    spec.lay_out(&Item::of(parts), &[stock], &mut |_| true).expect("all parts fit")
}

pub fn measure(c: &mut Criterion) {
    let (six, equal) = (boxes(&[[90; 3]]), boxes(&[[90; 3]; 4]));
    let unequal = boxes(&[[110, 85, 60], [90, 70, 50], [120, 60, 40], [75, 75, 75]]);
    assert!(lay(&six).shared_length(&Item::of(&six)).is_ok_and(|shared| shared > 0));
    let mut group = c.benchmark_group("seams");
    group.sample_size(10);
    for (name, parts) in [("six", &six), ("24, four equal boxes", &equal), ("24, four unequal boxes", &unequal)] {
        group.bench_function(name, |b| b.iter(|| lay(black_box(parts))));
    }
    group.finish();
}
