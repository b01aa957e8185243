//! One edge into a buffer of the caller, in Rust and through the C function of the library as it is installed: from sizes to vertices.

use std::hint::black_box;
use std::path::PathBuf;
use std::process::Command;
use std::ptr::null_mut;

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit::{DRYFIT_JOINT_FINGERS, DRYFIT_OK, dryfit_edge, dryfit_error, dryfit_joint, dryfit_status, dryfit_vertex};
use dryfit_benches::{mm, nm};
use dryfit_core::{Error, Fingers, Fit, Nm, Profile, Side};
use libloading::Library;

type Vertices = unsafe extern "C" fn(*const dryfit_edge, *mut dryfit_vertex, usize, *mut usize, *mut dryfit_error) -> dryfit_status;

/// What a Rust program would write: every number checked once, and as many vertices as there is room for.
fn in_rust(sizes: &dryfit_edge, out: &mut [dryfit_vertex]) -> Result<usize, Error> {
    let pattern = Fingers::count(sizes.joint.count).least(nm(sizes.joint.least)).pattern(Nm::new(sizes.run)?, Nm::new(sizes.thickness)?)?;
    let fit = Fit::new(Nm::new(sizes.fit.flank)?, Nm::new(sizes.fit.cheek)?, Nm::new(sizes.fit.tip)?)?;
    let vertices = Profile::new(pattern, Side::A, Nm::new(sizes.depth)?, fit, Nm::new(sizes.kerf)?)?.vertices();
    let count = vertices.len();
    for (to, vertex) in out.iter_mut().zip(vertices) {
        to.at.x = vertex.at.x.nm();
        to.at.y = vertex.at.y.nm();
        to.role = vertex.role as u32;
    }
    Ok(count)
}

/// The shared library, where a plugin's author would get it from.
fn installed() -> Library {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..");
    let place = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("installed");
    let done = Command::new(root.join("ffi/install")).arg("--prefix").arg(&place).output().expect("ffi/install runs");
    assert!(done.status.success(), "ffi/install: {}", String::from_utf8_lossy(&done.stderr));
    // SAFETY: a library of ours, which does nothing when it is loaded.
    unsafe { Library::new(place.join("lib/libdryfit.so")) }.expect("the library loads")
}

pub fn measure(c: &mut Criterion) {
    let library = installed();
    // SAFETY: the type is that of the header.
    let called = *unsafe { library.get::<Vertices>(b"dryfit_edge_vertices") }.expect("the function is there");
    let mut group = c.benchmark_group("c-calls");
    for fingers in [1, 10, 100, 1000, 10_000] {
        let joint = dryfit_joint { kind: DRYFIT_JOINT_FINGERS, count: fingers, least: 1, ..dryfit_joint::default() };
        let [run, board] = [mm(1000), mm(3)].map(Nm::nm);
        let edge = dryfit_edge { joint, run, thickness: board, depth: board, ..dryfit_edge::default() };
        let mut out = vec![dryfit_vertex::default(); 2 * fingers as usize];
        group.throughput(Throughput::Elements(out.len() as u64));
        group.bench_function(BenchmarkId::new("rust", fingers), |b| {
            b.iter(|| {
                let count = in_rust(black_box(&edge), black_box(&mut out));
                assert_eq!(count, Ok(2 * fingers as usize));
            });
        });
        group.bench_function(BenchmarkId::new("c", fingers), |b| {
            b.iter(|| {
                let (mut needed, cap) = (0, out.len());
                let status = unsafe { called(black_box(&edge), black_box(out.as_mut_ptr()), cap, &mut needed, null_mut()) };
                assert_eq!((status, needed), (DRYFIT_OK, cap));
            });
        });
    }
    group.finish();
}
