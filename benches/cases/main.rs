//! What the core costs: `cargo bench -p dryfit-benches`. `./benches/run` adds the Python peers and writes the record.

mod boards;
mod c_calls;
mod closed;
mod files;
mod growth;
mod job;
mod knife;
mod packing;
mod peer;
mod prism;
mod proved;
mod route;
mod seams;
mod splice;
mod vertex;

use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};

fn quick() -> Criterion {
    Criterion::default().sample_size(40).warm_up_time(Duration::from_millis(300)).measurement_time(Duration::from_millis(1500)).without_plots()
}

criterion_group! {
    name = all;
    config = quick();
    targets = packing::measure, vertex::measure, closed::measure, peer::measure, job::measure, growth::measure, boards::measure, splice::measure, prism::measure, route::measure, proved::measure, seams::measure, files::measure, knife::measure, c_calls::measure
}
criterion_main!(all);
