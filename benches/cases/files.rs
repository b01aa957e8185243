//! 100,000 vertices as a file of each format, and the same lines by the language's own formatting in the same run.

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{comb, mm, rounds, zigzag};
use dryfit_core::{Action, Cutter, Dxf, Gcode, GcodeSpec, Hpgl, LineKind, Move, Nm, Svg};

const VERTICES: i64 = 100_000;

/// As the plan of a sheet hands them over.
fn actions(moves: &[Move]) -> impl Iterator<Item = Action> + Clone + '_ {
    let start = moves.first().map_or_else(Default::default, |way| way.from);
    let lower = Action::Lower { depth: mm(2), power: 0 };
    [Action::Line(LineKind::CutOuter), Action::Travel(start), lower].into_iter().chain(moves.iter().copied().map(Action::Cut)).chain([Action::Lift])
}

fn gcode(bytes: Vec<u8>, moves: &[Move]) -> Vec<u8> {
    let cutter = Cutter::blade(Nm::ZERO, Nm::ZERO).expect("a blade");
    let spec = GcodeSpec { cutter, feed: 10_000_000, plunge: 2_000_000, height: mm(2), dynamic: false, speed: 1 };
    let mut file = Gcode::begin(bytes, &spec, "zigzag").expect("a file");
    actions(moves).try_for_each(|action| file.act(&action)).expect("in order");
    file.end().expect("room")
}

fn hpgl(bytes: Vec<u8>, moves: &[Move]) -> Vec<u8> {
    let mut file = Hpgl::begin(bytes).expect("a file");
    actions(moves).try_for_each(|action| file.act(&action)).expect("in order");
    file.end().expect("room")
}

fn dxf(bytes: Vec<u8>, moves: &[Move]) -> Vec<u8> {
    let mut file = Dxf::begin(bytes, "zigzag").expect("a file");
    file.line(LineKind::CutOuter, false, moves.iter().copied()).expect("in order");
    file.end().expect("room")
}

fn svg(bytes: Vec<u8>, moves: &[Move]) -> Vec<u8> {
    let mut file = Svg::begin(bytes, Nm::MAX, Nm::MAX, "zigzag", "").expect("a file");
    file.moves(LineKind::CutOuter, false, moves.iter().copied()).expect("in order");
    file.end().expect("room")
}

/// The same numbers, a vertex a line; places that are not needed stay.
fn plain_gcode(bytes: Vec<u8>, moves: &[Move]) -> Vec<u8> {
    let mut text = String::from_utf8(bytes).expect("empty");
    for way in moves {
        let [x, y] = [way.to.x, way.to.y].map(|at| (at.nm() + 50) / 100);
        writeln!(text, "G1 X{}.{:04} Y{}.{:04}", x / 10_000, x % 10_000, y / 10_000, y % 10_000).expect("room");
    }
    text.into_bytes()
}

fn plain_svg(bytes: Vec<u8>, moves: &[Move]) -> Vec<u8> {
    let mut text = String::from_utf8(bytes).expect("empty");
    for way in moves {
        let [x, y] = [way.to.x, Nm::MAX - way.to.y].map(Nm::nm);
        write!(text, "L{}.{:06} {}.{:06}", x / 1_000_000, x % 1_000_000, y / 1_000_000, y % 1_000_000).expect("room");
    }
    text.into_bytes()
}

type Writer = fn(Vec<u8>, &[Move]) -> Vec<u8>;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("files");
    for (scene, moves) in [("zigzag", zigzag(VERTICES)), ("comb", comb(VERTICES)), ("rounds", rounds(VERTICES))] {
        let all: [(&str, Writer); 6] =
            [("gcode", gcode), ("svg", svg), ("dxf", dxf), ("hpgl", hpgl), ("std-fmt-gcode", plain_gcode), ("std-fmt-svg", plain_svg)];
        // The last three know no arcs.
        for (name, write) in all.into_iter().take(if scene == "rounds" { 3 } else { 6 }) {
            // The same memory again: what is measured is the writing.
            let mut bytes = write(Vec::new(), &moves);
            group.throughput(Throughput::Bytes(bytes.len() as u64));
            group.bench_function(BenchmarkId::new(name, scene), |b| {
                b.iter(|| {
                    let mut empty = std::mem::take(&mut bytes);
                    empty.clear();
                    bytes = black_box(write(empty, black_box(&moves)));
                });
            });
        }
    }
    group.finish();
}
