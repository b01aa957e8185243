use std::vec::Vec;

use super::*;
use crate::assembly::BoxSpec;
use crate::bounds::MM;
use crate::cut::{BridgeSpec, Cutter, Many, Parts, Route, RouteSpec, Start, Turning};
use crate::joint::Fit;
use crate::shape::Shape;

const ROOM: [Point; 2] = [Point::raw(-1_000 * MM, -1_000 * MM), Point::raw(1_000 * MM, 1_000 * MM)];

fn at(x: i64, y: i64) -> Point {
    Point::raw(x * MM, y * MM)
}

fn mm(length: f64) -> Nm {
    Nm::from_mm(length).unwrap()
}

fn lines(shapes: &[Shape]) -> Vec<Contour> {
    let kind = |hole| if hole { LineKind::CutInner } else { LineKind::CutOuter };
    let of = |(part, shape): (usize, &Shape)| {
        shape.rings().map(|ring| Contour::closed(kind(ring.is_hole()), ring.bent()).of_part(part)).collect::<Vec<_>>()
    };
    shapes.iter().enumerate().flat_map(of).collect()
}

/// Lines without bridges.
fn whole(lines: &[Contour]) -> Bridges {
    Bridges::place(lines.to_vec(), &BridgeSpec { many: Many::Count(0), width: mm(0.5), bed: None }, Nm::ZERO).unwrap()
}

fn rectangle(lo: Point, hi: Point) -> Shape {
    Shape::from_loops([[lo, Point::new(hi.x, lo.y), hi, Point::new(lo.x, hi.y)]])
}

/// Whether a point lies in a part: rays to the right cross its chords an odd number of times. (Holes, and arcs as fine chords, count likewise.)
fn in_part(lines: &[Contour], part: usize, (x, y): (f64, f64)) -> bool {
    let chords =
        lines.iter().filter(|line| line.part == Some(part)).flat_map(Contour::edges).flat_map(|way| crate::cut::flat(way, Some(Nm::raw(100))));
    let crossed = chords.filter(|way| {
        let ((x0, y0), (x1, y1)) = ((way.from.x.mm(), way.from.y.mm()), (way.to.x.mm(), way.to.y.mm()));
        (y0 > y) != (y1 > y) && x < x0 + (y - y0) / (y1 - y0) * (x1 - x0)
    });
    crossed.count() % 2 == 1
}

/// Two plates of one line: what is left of the upper one's outline begins and ends where the lower one has its corners.
#[test]
fn a_line_that_is_left_beside_a_shared_one_is_not_entered_through_the_neighbour() {
    let vertex = |at| (crate::Vertex { at, role: Role::Free }, None);
    let line = |kind, points: &[Point]| Contour::open(kind, points.iter().copied().map(vertex));
    let plates = [
        line(LineKind::CutShared, &[at(20, 30), at(40, 30)]),
        line(LineKind::CutOuter, &[at(40, 30), at(50, 30), at(50, 50), at(10, 50), at(10, 30), at(20, 30)]),
        line(LineKind::CutOuter, &[at(20, 30), at(20, 10), at(40, 10), at(40, 30)]),
    ];
    let whole = whole(&plates);
    let leads = Leads::new(&whole, ROOM, mm(0.2), mm(2.0));
    for (number, reversed) in [(1, false), (1, true), (2, false), (2, true)] {
        let first = plates[number].walk(Entry::Point(0), reversed).next().unwrap();
        let lead = leads.open(&first, reversed).unwrap();
        for (x, y) in inner(&lead.moves) {
            let (upper, lower) = (10.0 < x && x < 50.0 && y > 30.0, 20.0 < x && x < 40.0 && y < 30.0);
            assert!(!upper && !lower, "{number} {reversed}: {x} {y}");
        }
    }
}

/// Points along moves, their ends left aside.
fn inner(moves: &[Move]) -> Vec<(f64, f64)> {
    let fine = moves.iter().flat_map(|&way| crate::cut::flat(way, Some(Nm::raw(100))));
    fine.flat_map(|way| {
        let part = move |part: f64| {
            let along = |a: Nm, b: Nm| a.mm() + (b.mm() - a.mm()) * part;
            (along(way.from.x, way.to.x), along(way.from.y, way.to.y))
        };
        [0.02, 0.3, 0.6, 0.9].map(part)
    })
    .collect()
}

/// Every closed line with a way in, after asking what each has to hold.
fn checked(lines: &[Contour], kerf: f64, length: f64, spec: &RouteSpec) -> usize {
    let route = Route::new(lines, spec);
    let whole = whole(lines);
    let leads = Leads::new(&whole, ROOM, mm(kerf), mm(length));
    let parts = lines.iter().filter_map(|line| line.part).max().unwrap_or(0) + 1;
    let mut found = 0;
    for cut in route.cuts() {
        let line = &lines[cut.contour];
        let Some(lead) = leads.closed(cut) else { continue };
        found += 1;
        let entry = lead.entry.unwrap();
        let first = line.walk(entry, cut.reversed).next().unwrap();
        assert_eq!(lead.moves.last().unwrap().to, first.from);
        let total: i64 = lead.moves.iter().map(Move::length).sum();
        assert!([1, 2, 4].iter().any(|share| (total - mm(length).nm() / share).abs() <= 3));
        for point in inner(&lead.moves) {
            assert!((0..parts).all(|part| !in_part(lines, part, point)), "{point:?} {:?}", lead.moves);
        }
    }
    found
}

#[test]
fn at_a_corner_the_way_in_runs_on_into_the_edge() {
    let plate = lines(&[rectangle(at(10, 10), at(50, 30))]);
    let whole = whole(&plate);
    let leads = Leads::new(&whole, ROOM, mm(0.2), mm(2.0));
    for reversed in [false, true] {
        let lead = leads.closed(&Cut { contour: 0, entry: Entry::Point(0), reversed }).unwrap();
        let from = if reversed { at(10, 8) } else { at(8, 10) };
        assert_eq!((lead.entry, lead.moves[0].from, lead.moves[0].to), (Some(Entry::Point(0)), from, at(10, 10)));
    }
}

#[test]
fn on_an_edge_it_is_a_quarter_circle_from_the_waste() {
    let plate = lines(&[rectangle(at(10, 10), at(50, 30))]);
    let whole = whole(&plate);
    let leads = Leads::new(&whole, ROOM, mm(0.2), mm(2.0));
    let lead = leads.closed(&Cut { contour: 0, entry: Entry::Middle(0), reversed: false }).unwrap();
    let arc = lead.moves[0];
    let radius = 2_000_000.0 * core::f64::consts::FRAC_2_PI;
    assert_eq!(arc.centre, Some(Point::raw(30 * MM, 10 * MM - libm::round(radius) as i64)));
    assert!(arc.clockwise && (arc.length() - 2 * MM).abs() <= 2);
    // The last direction is the edge's.
    let (x, y) = arc.arriving();
    assert!(x > 0 && y == 0);
}

#[test]
fn a_hole_is_entered_from_its_inside() {
    let hole = [at(20, 15), at(20, 25), at(30, 25), at(30, 15)];
    let plate = lines(&[Shape::from_loops([[at(10, 10), at(50, 10), at(50, 30), at(10, 30)], hole])]);
    for spec in [
        RouteSpec::default(),
        RouteSpec { start: Start::Middle, inner: Turning::CounterClockwise, outer: Turning::Clockwise, ..RouteSpec::default() },
    ] {
        assert_eq!(checked(&plate, 0.2, 2.0, &spec), 2);
        assert_eq!(checked(&plate, 0.2, 9.0, &spec), 2);
    }
    // A round one, and one with room for a short way only.
    let round = |r: i64| {
        let half = |from: i64, to: i64| (crate::Vertex { at: at(from, 0), role: Role::Free }, Some(at(0, to)));
        Contour::closed(LineKind::CutInner, [half(-r, 0), half(r, 0)]).of_part(0)
    };
    let mut washer = lines(&[rectangle(at(-30, -30), at(30, 30))]);
    washer.push(round(10));
    assert_eq!(checked(&washer, 0.2, 2.0, &RouteSpec::default()), 2);
    let slit = lines(&[Shape::from_loops([[at(0, 0), at(50, 0), at(50, 30), at(0, 30)], [at(10, 10), at(10, 11), at(11, 11), at(11, 10)]])]);
    assert_eq!(checked(&slit, 0.9, 8.0, &RouteSpec::default()), 1);
}

#[test]
fn neighbours_and_the_sheets_edge_are_kept_clear_of() {
    // 1 mm apart: 2 mm do not fit between, but where the plates end.
    let plates = lines(&[rectangle(at(10, 10), at(50, 30)), rectangle(at(51, 10), at(90, 30)), rectangle(at(10, 31), at(50, 60))]);
    assert_eq!(checked(&plates, 0.2, 2.0, &RouteSpec::default()), 3);
    // A plate in a frame of 1 mm all round gets a quarter of the length.
    let framed = lines(&[
        Shape::from_loops([[at(0, 0), at(60, 0), at(60, 40), at(0, 40)], [at(9, 9), at(9, 31), at(51, 31), at(51, 9)]]),
        rectangle(at(10, 10), at(50, 30)),
    ]);
    assert_eq!(checked(&framed, 0.2, 3.0, &RouteSpec::default()), 3);
    // The whole sheet is the plate: there is nowhere to come from.
    let plate = lines(&[rectangle(at(0, 0), at(50, 30))]);
    let whole = whole(&plate);
    let leads = Leads::new(&whole, [at(0, 0), at(50, 30)], mm(0.2), mm(1.0));
    assert!(leads.closed(&Cut { contour: 0, entry: Entry::Point(0), reversed: false }).is_none());
}

#[test]
fn real_parts_are_entered_outside_their_joints() {
    let panels = BoxSpec::outside([mm(110.0), mm(85.0), mm(60.0)], mm(3.0)).assembly().unwrap().panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::beam(mm(0.2)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    for part in parts.iter() {
        let own = lines(core::slice::from_ref(part.path()));
        assert_eq!(checked(&own, 0.2, 1.0, &RouteSpec::default()), own.len());
        let cut = Route::new(&own, &RouteSpec::default()).cuts()[0];
        let lead = Leads::new(&whole(&own), ROOM, mm(0.2), mm(1.0)).closed(&cut).unwrap();
        assert!(!in_joint(&own[cut.contour], lead.entry.unwrap()));
    }
}

#[test]
fn a_piece_beyond_a_bridge_is_entered_square_to_it() {
    let spec = BridgeSpec { many: Many::Count(1), width: mm(0.5), bed: None };
    let bridges = Bridges::place(lines(&[rectangle(at(10, 10), at(50, 30))]), &spec, mm(0.2)).unwrap();
    let leads = Leads::new(&bridges, ROOM, mm(0.2), mm(1.0));
    let moves: Vec<Move> = bridges.lines[0].walk(Entry::Point(0), false).collect();
    let after = moves.iter().position(|way| bridges.is_gap(way)).unwrap() + 1;
    let lead = leads.open(&moves[after], false).unwrap();
    // Square to the edge; a quarter circle would come over the bridge.
    let [from, to] = [lead.moves[0].from, lead.moves[0].to];
    assert_eq!((to, from.x - to.x, (from.y - to.y).nm().abs(), lead.moves[0].centre), (moves[after].from, Nm::ZERO, MM, None));
    assert!(inner(&lead.moves).iter().all(|&point| !in_part(&bridges.lines, 0, point)));
}

#[test]
fn ways_in_leave_the_board_beyond_a_bridge() {
    // Bridges of a plate in the middle of a frame's rail of 2 mm: the hole of the frame is entered elsewhere.
    let frame = Shape::from_loops([[at(0, 0), at(60, 0), at(60, 40), at(0, 40)], [at(8, 8), at(8, 32), at(52, 32), at(52, 8)]]);
    let both = lines(&[frame, rectangle(at(10, 10), at(50, 30))]);
    let spec = BridgeSpec { many: Many::Count(1), width: mm(1.0), bed: None };
    let bridges = Bridges::place(both, &spec, mm(0.2)).unwrap();
    let gap = bridges.lines[2].edges().find(|way| bridges.is_gap(way)).unwrap();
    let leads = Leads::new(&bridges, ROOM, mm(0.2), mm(2.0));
    for edge in 0..4 {
        for reversed in [false, true] {
            let lead = leads.closed(&Cut { contour: 1, entry: Entry::Middle(edge), reversed }).unwrap();
            let far = |(x, y): (f64, f64)| {
                let [left, right] = [gap.from.x.mm(), gap.to.x.mm()];
                let (dx, dy) = ((left - x).max(x - right).max(0.0), y - gap.from.y.mm());
                dx.hypot(dy)
            };
            assert!(inner(&lead.moves).into_iter().all(|point| far(point) > 1.19), "{:?} {gap:?}", lead.moves);
        }
    }
}

/// How far a point is from the nearest of these moves, in millimetres; arcs as fine chords.
fn away(moves: &[Move], (x, y): (f64, f64)) -> f64 {
    let chords = moves.iter().flat_map(|&way| crate::cut::flat(way, Some(Nm::raw(100))));
    let far = chords.map(|way| {
        let ((ax, ay), (bx, by)) = ((way.from.x.mm(), way.from.y.mm()), (way.to.x.mm(), way.to.y.mm()));
        let (dx, dy) = (bx - ax, by - ay);
        let part = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy).max(1e-12)).clamp(0.0, 1.0);
        libm::hypot(x - ax - part * dx, y - ay - part * dy)
    });
    far.fold(f64::MAX, f64::min)
}

#[test]
fn a_bridge_keeps_its_width_beside_the_way_in() {
    for (kerf, width, length) in [(0.2, 0.5, 1.0), (0.1, 0.3, 4.0), (3.0, 2.0, 3.0), (0.0, 0.5, 1.0)] {
        let spec = BridgeSpec { many: Many::Count(4), width: mm(width), bed: None };
        let bridges = Bridges::place(lines(&[rectangle(at(10, 10), at(50, 40))]), &spec, mm(kerf)).unwrap();
        let leads = Leads::new(&bridges, ROOM, mm(kerf), mm(length));
        for reversed in [false, true] {
            let walk: Vec<Move> = bridges.lines[0].walk(Entry::Point(0), reversed).collect();
            let gaps: Vec<Move> = walk.iter().copied().filter(|way| bridges.is_gap(way)).collect();
            let pieces = walk.iter().zip(walk.iter().skip(1)).filter(|(before, _)| bridges.is_gap(before));
            assert_eq!(gaps.len(), 4);
            for (_, first) in pieces {
                let lead = leads.open(first, reversed).unwrap();
                // The board that is left begins half a kerf from the gap's ends.
                for gap in &gaps {
                    let whole = |a: Nm, b: Nm, part: f64| a.mm() + (b.mm() - a.mm()) * part;
                    for step in 0..=20 {
                        let part = (kerf / 2.0 + width * f64::from(step) / 20.0) / (kerf + width);
                        let point = (whole(gap.from.x, gap.to.x, part), whole(gap.from.y, gap.to.y, part));
                        assert!(away(&lead.moves, point) > kerf / 2.0 - 1e-5, "{kerf} {point:?} {:?}", lead.moves);
                    }
                }
            }
        }
    }
}

/// Ways in to the open lines that shared cuts leave, from both ends, after asking that none lies in a part.
fn beside_shared_cuts(shapes: &[Shape]) -> usize {
    use crate::{Item, Placement, Sheet, Stock};
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("p", shape)).collect();
    let placed = |(part, shape): (usize, &Shape)| Placement { part, at: shape.bounds().0, ..Placement::default() };
    let stock = Stock::new(mm(1.0), [mm(100.0); 2], Nm::ZERO, Nm::ZERO).unwrap();
    let sheet = Sheet { stock, placements: shapes.iter().enumerate().map(placed).collect(), share_cuts: true };
    let solid = lines(shapes);
    let bridges = whole(&sheet.lines(&items).unwrap());
    let leads = Leads::new(&bridges, ROOM, mm(0.2), mm(2.0));
    let mut found = 0;
    for line in bridges.lines.iter().filter(|line| line.kind == LineKind::CutOuter && !line.closed) {
        for reversed in [false, true] {
            let first = line.walk(Entry::Point(0), reversed).next().unwrap();
            let Some(lead) = leads.open(&first, reversed) else { continue };
            found += 1;
            for point in inner(&lead.moves) {
                assert!((0..shapes.len()).all(|part| !in_part(&solid, part, point)), "{reversed} {first:?} {:?}", lead.moves);
            }
        }
    }
    found
}

#[test]
fn beside_a_shared_cut_no_part_is_pierced() {
    // Both ends of each of three lines but where the waste between two parts is too narrow.
    let plates = [rectangle(at(10, 10), at(40, 30)), rectangle(at(40, 14), at(60, 24)), rectangle(at(40, 24), at(50, 40))];
    assert_eq!(beside_shared_cuts(&plates), 6);
    // The other plate rises beside the shared cut: square to the first lies in the second.
    let aslant = Shape::from_loops([[at(40, 14), at(60, 14), at(60, 34), at(40, 24)]]);
    assert_eq!(beside_shared_cuts(&[rectangle(at(10, 10), at(40, 40)), aslant]), 4);
}
