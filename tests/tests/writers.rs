//! Files for machines: what a vertex costs in memory, which is nothing, and how far it moves, which is less than half a micrometre.

use std::alloc::{GlobalAlloc, Layout, System};
use std::cell::Cell;

use dryfit_core::{Action, Cutter, Dxf, Gcode, GcodeSpec, Hpgl, LineKind, Move, Nm, Point, Sink, Svg};

/// The system's allocator, which counts what each thread asks of it.
struct Counting;

thread_local! {
    static ASKED: Cell<usize> = const { Cell::new(0) };
}

// What is passed on is what came.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        ASKED.set(ASKED.get() + 1);
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        unsafe { System.dealloc(at, layout) }
    }

    unsafe fn realloc(&self, at: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        ASKED.set(ASKED.get() + 1);
        unsafe { System.realloc(at, layout, size) }
    }
}

#[global_allocator]
static ALLOCATOR: Counting = Counting;

const VERTICES: i64 = 100_000;

fn mm(value: i64) -> Nm {
    Nm::new(value * 1_000_000).unwrap()
}

/// Points of any nanometre in 1 m x 1 m.
fn at(n: i64) -> Point {
    let [x, y] = [7_919_317, 104_729_351].map(|step| Nm::new(n * step % 1_000_000_000).unwrap());
    Point::new(x, y)
}

/// Straight moves between them, or quarters of a circle.
fn moves(round: bool) -> impl Iterator<Item = Move> + Clone {
    let on = |n: i64| [(250, 150), (150, 250), (50, 150), (150, 50)].map(|(x, y)| Point::new(mm(x), mm(y)))[n as usize % 4];
    (0..VERTICES).map(move |n| match round {
        true => Move { from: on(n), to: on(n + 1), centre: Some(Point::new(mm(150), mm(150))), clockwise: false },
        false => Move { from: at(n), to: at(n + 1), centre: None, clockwise: true },
    })
}

fn actions(moves: impl Iterator<Item = Move> + Clone) -> impl Iterator<Item = Action> {
    let start = moves.clone().next().unwrap().from;
    let lower = Action::Lower { depth: mm(2), power: 0 };
    [Action::Line(LineKind::CutOuter), Action::Travel(start), lower].into_iter().chain(moves.map(Action::Cut)).chain([Action::Lift])
}

fn gcode<S: Sink>(sink: S, moves: impl Iterator<Item = Move> + Clone) -> S {
    let spec = GcodeSpec {
        cutter: Cutter::blade(Nm::ZERO, Nm::ZERO).unwrap(),
        feed: 10_000_000,
        plunge: 2_000_000,
        height: mm(2),
        dynamic: false,
        speed: 1,
    };
    let mut file = Gcode::begin(sink, &spec, "t").unwrap();
    actions(moves).try_for_each(|action| file.act(&action)).unwrap();
    file.end().unwrap()
}

fn hpgl<S: Sink>(sink: S, moves: impl Iterator<Item = Move> + Clone) -> S {
    let mut file = Hpgl::begin(sink).unwrap();
    actions(moves).try_for_each(|action| file.act(&action)).unwrap();
    file.end().unwrap()
}

fn dxf<S: Sink>(sink: S, moves: impl Iterator<Item = Move> + Clone) -> S {
    let mut file = Dxf::begin(sink, "t").unwrap();
    file.line(LineKind::CutOuter, false, moves).unwrap();
    file.end().unwrap()
}

fn svg<S: Sink>(sink: S, moves: impl Iterator<Item = Move> + Clone) -> S {
    let mut file = Svg::begin(sink, mm(1000), mm(1000), "t", "").unwrap();
    file.moves(LineKind::CutOuter, false, moves).unwrap();
    file.end().unwrap()
}

/// How often the heap is asked while a file is written into memory that is there.
fn asked(write: impl FnOnce(Vec<u8>) -> Vec<u8>) -> usize {
    let memory = Vec::with_capacity(100_000_000);
    let before = ASKED.get();
    let bytes = write(memory);
    assert!(bytes.len() > 500_000);
    ASKED.get() - before
}

#[test]
fn no_vertex_asks_the_heap_for_anything() {
    for round in [false, true] {
        assert_eq!(asked(|bytes| gcode(bytes, moves(round))), 0);
        // An arc is many chords.
        assert_eq!(asked(|bytes| hpgl(bytes, moves(round).take(if round { 2000 } else { VERTICES as usize }))), 0);
        assert_eq!(asked(|bytes| dxf(bytes, moves(round))), 0);
        assert_eq!(asked(|bytes| svg(bytes, moves(round))), 0);
    }
    // The counter counts.
    assert!(asked(|_| vec![0; 1_000_000]) > 0);
}

/// Millimetres in nanometres.
fn value(text: &str) -> f64 {
    text.parse::<f64>().unwrap() * 1e6
}

/// Every vertex is read back from its text by the language's own reader of numbers.
fn near(read: impl Iterator<Item = [f64; 2]>, tolerance: f64) {
    let mut count = 0;
    for (n, [x, y]) in (1..).zip(read) {
        let off = (x - at(n).x.nm() as f64).hypot(y - at(n).y.nm() as f64);
        assert!(off <= tolerance, "{n}: {off} nm");
        count = n;
    }
    assert_eq!(count, VERTICES);
}

#[test]
fn vertices_are_read_back_within_half_a_micrometre() {
    let text = String::from_utf8(gcode(Vec::new(), moves(false))).unwrap();
    let mut here = [0.0; 2];
    near(
        text.lines().filter_map(|line| line.strip_prefix("G1 ")).filter(|line| !line.starts_with('Z')).map(|line| {
            for word in line.split(' ') {
                let axis = usize::from(word.starts_with('Y'));
                if word.starts_with(['X', 'Y']) {
                    here[axis] = value(&word[1..]);
                }
            }
            here
        }),
        71.0,
    );

    let text = String::from_utf8(svg(Vec::new(), moves(false))).unwrap();
    let path = text.split("<path d=\"M").nth(1).unwrap().split('"').next().unwrap();
    near(
        path.split('L').skip(1).map(|pair| {
            let (x, y) = pair.split_once(' ').unwrap();
            [value(x), 1e9 - value(y)]
        }),
        0.01,
    );

    let text = String::from_utf8(dxf(Vec::new(), moves(false))).unwrap();
    let vertices = text.split("\r\nVERTEX\r\n8\r\ncut-outer\r\n10\r\n").skip(2);
    near(
        vertices.map(|rest| {
            let lines: Vec<&str> = rest.split("\r\n").take(3).collect();
            [value(lines[0]), value(lines[2])]
        }),
        0.01,
    );

    let text = String::from_utf8(hpgl(Vec::new(), moves(false))).unwrap();
    let strokes = text.lines().filter_map(|line| line.strip_prefix("PD")).map(|line| line.trim_end_matches(';'));
    let numbers: Vec<f64> = strokes.flat_map(|line| line.split(',')).map(|number| number.parse::<f64>().unwrap() * 25_000.0).collect();
    // Half a unit along each axis.
    near(numbers.chunks(2).map(|pair| [pair[0], pair[1]]), 12_500.0 * 2f64.sqrt());
}
