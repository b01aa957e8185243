//! A whole job: a drawer with dividers, from sizes to sheet files in memory.

use criterion::Criterion;
use dryfit_benches::{drawer, mm, nm};
use dryfit_core::{BoxSpec, Cutter, Failure, Fit, Item, LayoutSpec, Nm, Parts, Stock, dry_fit, dry_fit_parts, order, sheet_svg};
use std::hint::black_box;

fn job(spec: &BoxSpec) -> Result<usize, Failure> {
    let panels = spec.assembly()?.panels()?;
    let fit = Fit::new(nm(50_000), nm(100_000), Nm::ZERO)?;
    let parts = Parts::cut(&panels, Cutter::beam(nm(180_000))?, fit, mm(1))?;
    let proofs = [dry_fit(&panels), dry_fit_parts(&parts)];
    let steps = order(&panels)?;
    let items = Item::of(&parts);
    let stock = Stock::new(nm(2_500_000), [mm(500), mm(350)], mm(8), mm(1))?;
    let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
    let mut bytes = 0;
    for sheet in &layout.sheets {
        bytes += sheet_svg(sheet, &items, "Drawer")?.len();
    }
    Ok(bytes + steps.len() + proofs.iter().filter(|proof| proof.ok()).count())
}

pub fn measure(c: &mut Criterion) {
    let spec = drawer();
    job(&spec).expect("the job is sound");
    c.bench_function("job", |b| b.iter(|| job(black_box(&spec))));
}
