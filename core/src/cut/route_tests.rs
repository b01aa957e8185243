use std::vec::Vec;

use proptest::prelude::*;

use super::{Cut, Route, RouteSpec, Start, Turning};
use crate::cut::contour::{Contour, Entry};
use crate::cut::machine::{Machine, MachineSpec};
use crate::cut::pace::{Tally, Work};
use crate::joint::{Role, Vertex};
use crate::{LineKind, Nm, Point};

const MM: i64 = 1_000_000;

fn line(kind: LineKind, points: &[(i64, i64)]) -> Contour {
    Contour::closed(kind, points.iter().map(|&(x, y)| (Vertex { at: Point::raw(x * MM, y * MM), role: Role::Free }, None)))
}

fn rectangle(kind: LineKind, (x, y): (i64, i64), (w, h): (i64, i64)) -> Contour {
    match kind {
        LineKind::CutInner => line(kind, &[(x, y), (x, y + h), (x + w, y + h), (x + w, y)]),
        _ => line(kind, &[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]),
    }
}

fn open(kind: LineKind, points: &[(i64, i64)]) -> Contour {
    Contour { closed: false, ..line(kind, points) }
}

fn order(contours: &[Contour]) -> Vec<usize> {
    Route::new(contours, &RouteSpec::default()).cuts().iter().map(|cut| cut.contour).collect()
}

/// First and last point of a cut, as the walk has them.
fn ends(contours: &[Contour], cut: &Cut) -> (Point, Point) {
    let moves: Vec<_> = contours[cut.contour].walk(cut.entry, cut.reversed).collect();
    (moves[0].from, moves[moves.len() - 1].to)
}

fn between(a: Point, b: Point) -> f64 {
    ((b.x.nm() - a.x.nm()) as f64).hypot((b.y.nm() - a.y.nm()) as f64)
}

/// The way between the cuts, measured along their walks.
fn walked(contours: &[Contour], route: &Route, spec: &RouteSpec) -> f64 {
    let (mut at, mut sum) = (spec.from, 0.0);
    for cut in route.cuts() {
        let (enter, leave) = ends(contours, cut);
        sum += between(at, enter);
        at = leave;
    }
    sum + if spec.home { between(at, spec.from) } else { 0.0 }
}

/// Every way in which a line may be entered and left: corners of rectangles, ends of open lines.
fn doors(contour: &Contour) -> Vec<(Point, Point)> {
    let points: Vec<Point> = contour.points.iter().map(|(vertex, _)| vertex.at).collect();
    let (first, last) = (points[0], points[points.len() - 1]);
    match (contour.closed, contour.one_way) {
        (true, _) => points.into_iter().map(|point| (point, point)).collect(),
        (false, true) => Vec::from([(first, last)]),
        (false, false) => Vec::from([(first, last), (last, first)]),
    }
}

/// The shortest way through all lines by trying every order and every door.
fn shortest(contours: &[Contour], spec: &RouteSpec) -> f64 {
    fn search(lines: &[Vec<(Point, Point)>], left: u32, ways: &[(Point, f64)], spec: &RouteSpec) -> f64 {
        if left == 0 {
            let home = |at| if spec.home { between(at, spec.from) } else { 0.0 };
            return ways.iter().map(|&(at, way)| way + home(at)).fold(f64::MAX, f64::min);
        }
        let next = (0..lines.len()).filter(|number| left >> number & 1 == 1);
        next.map(|number| {
            let arrive = |&(enter, leave): &(Point, Point)| (leave, ways.iter().map(|&(at, way)| way + between(at, enter)).fold(f64::MAX, f64::min));
            let ways: Vec<(Point, f64)> = lines[number].iter().map(arrive).collect();
            search(lines, left & !(1 << number), &ways, spec)
        })
        .fold(f64::MAX, f64::min)
    }
    let lines: Vec<_> = contours.iter().map(doors).collect();
    search(&lines, (1 << lines.len()) - 1, &[(spec.from, 0.0)], spec)
}

/// Always on to the nearest door, of what may come next.
fn greedy(contours: &[Contour], spec: &RouteSpec, ranks: &[usize]) -> f64 {
    let mut left: Vec<usize> = (0..contours.len()).collect();
    let (mut at, mut sum) = (spec.from, 0.0);
    while let Some(rank) = left.iter().map(|&number| ranks[number]).min() {
        let next =
            left.iter().filter(|&&number| ranks[number] == rank).flat_map(|&number| doors(&contours[number]).into_iter().map(move |d| (number, d)));
        let (number, (enter, leave)) = next.min_by(|a, b| between(at, a.1.0).total_cmp(&between(at, b.1.0))).unwrap();
        sum += between(at, enter);
        at = leave;
        left.retain(|&other| other != number);
    }
    sum + if spec.home { between(at, spec.from) } else { 0.0 }
}

#[test]
fn what_lies_inside_comes_first() {
    use LineKind::{CutInner, CutOuter, CutShared, Mark, Trim};
    let contours = [
        rectangle(Trim, (0, 0), (500, 300)),
        rectangle(CutOuter, (10, 10), (200, 100)),
        rectangle(CutInner, (20, 20), (100, 80)),
        rectangle(CutOuter, (30, 30), (50, 50)),
        rectangle(CutInner, (40, 40), (10, 10)),
        rectangle(CutOuter, (300, 10), (50, 50)),
        rectangle(CutInner, (310, 20), (10, 10)),
        open(CutShared, &[(300, 100), (400, 100)]),
        open(Mark, &[(320, 40), (340, 40)]),
    ];
    let order = order(&contours);
    assert_eq!(order.len(), 9);
    assert_eq!(order[0], 8, "marks first");
    assert_eq!(order[8], 0, "trims last");
    // The two holes that hold nothing, the part in the hole, its hole, the shared cut, and at last the two outlines.
    let mut parts = [order[1..3].to_vec(), order[6..8].to_vec()];
    parts.iter_mut().for_each(|pair| pair.sort_unstable());
    assert_eq!(parts, [[4, 6], [1, 5]]);
    assert_eq!(order[3..6], [3, 2, 7]);
}

#[test]
fn a_part_near_the_rim_of_a_round_hole_lies_in_it() {
    // Radius 50; the square of its four ends would not hold the part at the top.
    let (c, k) = (Point::raw(100 * MM, 100 * MM), 30 * MM);
    let at = |x: i64, y: i64| (Vertex { at: Point::raw(c.x.nm() + x, c.y.nm() + y), role: Role::Free }, Some(c));
    let hole = Contour::closed(LineKind::CutInner, [at(-k, -k / 3 * 4), at(-k, k / 3 * 4), at(k, k / 3 * 4), at(k, -k / 3 * 4)]);
    let part = rectangle(LineKind::CutOuter, (95, 142), (10, 5));
    let plate = rectangle(LineKind::CutOuter, (0, 0), (300, 200));
    assert_eq!(order(&[plate.clone(), hole.clone(), part]), [2, 1, 0]);
    // Beside the hole, where its bounding rectangle still is, a part is no reason to wait.
    let beside = rectangle(LineKind::CutOuter, (141, 141), (5, 5));
    assert_eq!(order(&[plate, hole, beside])[0], 1);
}

#[test]
fn lines_on_an_edge_lie_outside() {
    let part = rectangle(LineKind::CutInner, (0, 0), (100, 100));
    let on = open(LineKind::CutOuter, &[(0, 100), (50, 100), (100, 100)]);
    assert_eq!(order(&[on.clone(), part.clone()]), [1, 0]);
    let inside = open(LineKind::CutOuter, &[(0, 100), (50, 50), (100, 100)]);
    assert_eq!(order(&[part, inside]), [1, 0]);
}

#[test]
fn nothing_and_lines_without_points_are_no_trouble() {
    let spec = RouteSpec { home: true, ..RouteSpec::default() };
    let route = Route::new(&[], &spec);
    assert_eq!((route.cuts().len(), route.travel()), (0, 0));
    let empty = line(LineKind::CutOuter, &[]);
    let point = line(LineKind::CutOuter, &[(30, 40)]);
    let route = Route::new(&[empty, point.clone(), point], &spec);
    assert_eq!((route.cuts().len(), route.travel()), (2, 100 * MM));
}

#[test]
fn directions_are_those_asked_for() {
    let contours = [rectangle(LineKind::CutOuter, (0, 0), (50, 50)), rectangle(LineKind::CutInner, (10, 10), (5, 5))];
    let walks = |outer, inner| {
        let route = Route::new(&contours, &RouteSpec { outer, inner, ..RouteSpec::default() });
        let turning = |cut: &Cut| contours[cut.contour].walk(cut.entry, cut.reversed).map(|m| crate::plane::twice_cross(m.from, m.to)).sum::<i128>();
        // The hole comes first.
        [turning(&route.cuts()[1]) > 0, turning(&route.cuts()[0]) > 0]
    };
    use Turning::{Clockwise, CounterClockwise, Stored};
    assert_eq!(walks(Stored, Stored), [true, false]);
    assert_eq!(walks(Clockwise, CounterClockwise), [false, true]);
    assert_eq!(walks(CounterClockwise, CounterClockwise), [true, true]);
    assert_eq!(walks(Clockwise, Clockwise), [false, false]);
    // A line with a direction of its own keeps it.
    let own = [Contour { one_way: true, ..contours[0].clone() }];
    let route = Route::new(&own, &RouteSpec { outer: Clockwise, ..RouteSpec::default() });
    assert!(!route.cuts()[0].reversed);
}

#[test]
fn middles_lie_on_the_longest_edge_that_is_no_flank() {
    let mut contour = rectangle(LineKind::CutOuter, (10, 10), (80, 40));
    let spec = RouteSpec { start: Start::Middle, ..RouteSpec::default() };
    let start = |contour: &Contour| Route::new(std::slice::from_ref(contour), &spec).cuts()[0].entry;
    assert_eq!(start(&contour), Entry::Middle(0));
    contour.points[0].0.role = Role::Flank;
    assert_eq!(start(&contour), Entry::Middle(2));
    contour.points[2].0.role = Role::Flank;
    assert_eq!(start(&contour), Entry::Middle(1).min_of(Entry::Middle(3), &contour));
    // Nothing but flanks: the longest of them.
    contour.points.iter_mut().for_each(|(vertex, _)| vertex.role = Role::Flank);
    assert_eq!(start(&contour), Entry::Middle(0));
    // Nothing but arcs: at a point.
    let at = |x, y| (Vertex { at: Point::raw(x, y), role: Role::Free }, Some(Point::raw(0, 0)));
    assert!(matches!(start(&Contour::closed(LineKind::CutInner, [at(0, 500), at(0, -500)])), Entry::Point(_)));
}

impl Entry {
    /// Whichever is nearer to the sheet's corner.
    fn min_of(self, other: Entry, contour: &Contour) -> Entry {
        let far = |entry| between(Point::default(), contour.entry_point(entry).unwrap());
        if far(self) <= far(other) { self } else { other }
    }
}

#[test]
fn points_along_an_edge_are_no_place_to_begin() {
    let contour = line(LineKind::CutOuter, &[(10, 100), (60, 50), (110, 0), (200, 200)]);
    let route = Route::new(&[contour], &RouteSpec::default());
    assert_ne!(route.cuts()[0].entry, Entry::Point(1), "nearest, but no corner");
}

#[test]
fn a_grid_of_parts_is_walked_with_little_waste() {
    // 30 x 30 parts, 48 mm apart: no way can be shorter than 899 gaps between neighbours.
    let part = |k: i64| rectangle(LineKind::CutOuter, (k % 30 * 50, k / 30 * 50), (2, 2));
    // In no order at all.
    let contours: Vec<Contour> = (0..900).map(|k| part(k * 7 % 900)).collect();
    let route = Route::new(&contours, &RouteSpec::default());
    let least = 899.0 * 48.0 * MM as f64;
    let ratio = route.travel() as f64 / least;
    assert!(ratio < 1.2, "{ratio}");
}

/// The shortest round through n random points in a square of area A is about 0.7124 sqrt(n A) long for large n, 0.7313 sqrt(n A) at 1,000
/// (Johnson and McGeoch, "The traveling salesman problem", 1997: from memory). They report some 5 % more for 2-opt with neighbour lists.
#[test]
fn random_points_are_walked_in_little_more_than_the_shortest_round() {
    let mut state = 2_463_534_242_u64;
    let mut next = || {
        // Marsaglia's xorshift.
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state % 1_000_000) as i64 * 1000
    };
    let point = |x, y| Contour::closed(LineKind::CutOuter, [(Vertex { at: Point::raw(x, y), role: Role::Free }, None)]);
    let contours: Vec<Contour> = (0..1000).map(|_| point(next(), next())).collect();
    let route = Route::new(&contours, &RouteSpec { home: true, ..RouteSpec::default() });
    let ratio = route.travel() as f64 / (0.7313 * (1000.0 * 1e18_f64).sqrt());
    assert!((0.9..1.08).contains(&ratio), "{ratio}");
}

/// Rectangles and open lines, each in a field of its own.
fn scattered(count: std::ops::Range<usize>) -> impl Strategy<Value = Vec<Contour>> {
    let one = (0i64..60, 0i64..60, 1i64..40, 1i64..40, 0usize..4, any::<bool>());
    (prop::collection::vec(one, count), any::<u64>()).prop_map(|(all, seed)| {
        let mut fields: Vec<i64> = (0..100).collect();
        // Any shuffle will do.
        let mut state = seed | 1;
        for k in (1..fields.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            fields.swap(k, (state >> 33) as usize % (k + 1));
        }
        let place = |(index, (dx, dy, w, h, kind, one_way)): (usize, (i64, i64, i64, i64, usize, bool))| {
            let (x, y) = (fields[index % 100] % 10 * 100 + dx, fields[index % 100] / 10 * 100 + dy);
            match kind {
                0 => Contour { one_way, ..open(LineKind::CutOuter, &[(x, y), (x + w, y), (x + w, y + h)]) },
                _ => rectangle(LineKind::CutOuter, (x, y), (w, h)),
            }
        };
        all.into_iter().enumerate().map(place).collect()
    })
}

/// Kind, lowest corner and size.
type Rectangle = (LineKind, (i64, i64), (i64, i64));

/// Points anywhere, or all in a few places, with centres anywhere.
fn strange() -> impl Strategy<Value = Contour> {
    let far = 10_000 * MM;
    let point = prop_oneof![(0i64..3, 0i64..3), (-far..=far, -far..=far)];
    let points = prop::collection::vec((point.clone(), prop::option::of(point)), 0..7);
    (points, 0usize..5, any::<bool>(), any::<bool>()).prop_map(|(points, kind, closed, one_way)| {
        let at = |(x, y)| Point::raw(x, y);
        let points = points.into_iter().map(|(p, centre)| (Vertex { at: at(p), role: Role::Free }, centre.map(at)));
        Contour { closed, one_way, ..Contour::closed(LineKind::ALL[kind], points) }
    })
}

/// A sheet of parts with holes in which lie parts with holes, so deep; every rectangle with all that hold it.
fn nested() -> impl Strategy<Value = Vec<Rectangle>> {
    prop::collection::vec((0i64..4, 0i64..4, 0usize..6), 1..12).prop_map(|all| {
        let mut lines = Vec::new();
        let mut taken = Vec::new();
        for (column, row, depth) in all {
            if taken.contains(&(column, row)) {
                continue;
            }
            taken.push((column, row));
            for level in 0..=depth as i64 {
                let kind = if level % 2 == 0 { LineKind::CutOuter } else { LineKind::CutInner };
                lines.push((kind, (column * 100 + level * 5, row * 100 + level * 5), (90 - level * 10, 90 - level * 10)));
            }
        }
        lines
    })
}

proptest! {
    /// Each line once, as walks allow; the way is what the walks say; never longer than always on to the nearest.
    #[test]
    fn routes_are_whole(contours in scattered(1..40), home: bool) {
        let spec = RouteSpec { home, ..RouteSpec::default() };
        let route = Route::new(&contours, &spec);
        let mut numbers: Vec<usize> = route.cuts().iter().map(|cut| cut.contour).collect();
        numbers.sort_unstable();
        prop_assert_eq!(numbers, (0..contours.len()).collect::<Vec<_>>());
        prop_assert!(route.cuts().iter().all(|cut| !(cut.reversed && contours[cut.contour].one_way)));
        let rounding = route.legs().len() as f64;
        prop_assert_eq!(route.legs().len(), contours.len() + usize::from(home));
        let way = walked(&contours, &route, &spec);
        prop_assert!((way - route.travel() as f64) >= -1.0 && (way - route.travel() as f64) <= rounding);
        prop_assert!(way <= greedy(&contours, &spec, &std::vec![0; contours.len()]) + 1.0);
    }

    /// Lines that no cutter would follow still have a route with each of them once, and a time.
    #[test]
    fn any_lines_have_a_route(lines in prop::collection::vec(strange(), 0..25), home: bool, middle: bool, feed in 1i64..1_000_000_000) {
        let start = if middle { Start::Middle } else { Start::Corner };
        let route = Route::new(&lines, &RouteSpec { start, home, outer: Turning::Clockwise, inner: Turning::CounterClockwise, ..RouteSpec::default() });
        let mut numbers: Vec<usize> = route.cuts().iter().map(|cut| cut.contour).collect();
        numbers.sort_unstable();
        let wanted: Vec<usize> = (0..lines.len()).filter(|&number| !lines[number].points.is_empty()).collect();
        prop_assert_eq!(numbers, wanted);
        let spec = MachineSpec { feed: feed + 1000, travel: feed + 1000, acceleration: feed + 1000, deviation: Nm::raw(feed % 10_000_000), lift: 0, swivel: 0 };
        let seconds = Machine::new(spec).unwrap().seconds(&lines, &route, 3).unwrap();
        prop_assert!(seconds.is_finite() && seconds >= 0.0);
        let tally = Tally::of(&Work { lines: &lines, route: &route, parts: 1 }, 3).unwrap();
        prop_assert!(tally.cut >= 0 && tally.travel >= route.travel());
    }

    /// Beside the shortest of all ways, by trying every one.
    #[test]
    fn small_routes_are_nearly_the_shortest(contours in scattered(1..7), home: bool) {
        let spec = RouteSpec { home, ..RouteSpec::default() };
        let (ours, least) = (walked(&contours, &Route::new(&contours, &spec), &spec), shortest(&contours, &spec));
        prop_assert!(ours >= least - 1.0);
        prop_assert!(ours <= 1.2 * least + 1.0, "{} to {}", ours, least);
    }

    /// What is inside comes first; outlines after all holes, but where a hole waits for them.
    #[test]
    fn precedence_holds(lines in nested(), shuffle in any::<u64>()) {
        let mut lines = lines;
        let count = lines.len();
        lines.rotate_left(shuffle as usize % count);
        let contours: Vec<Contour> = lines.iter().map(|&(kind, at, size)| rectangle(kind, at, size)).collect();
        let order = order(&contours);
        let place = |number: usize| order.iter().position(|&other| other == number).unwrap();
        let inside = |a: usize, b: usize| {
            let ((_, (ax, ay), (aw, ah)), (_, (bx, by), (bw, bh))) = (lines[a], lines[b]);
            ax > bx && ay > by && ax + aw < bx + bw && ay + ah < by + bh
        };
        for a in 0..count {
            for b in 0..count {
                if inside(a, b) {
                    prop_assert!(place(a) < place(b));
                }
                let waits = |a: usize| (0..count).any(|hole| lines[hole].0 == LineKind::CutInner && inside(a, hole));
                if lines[a].0 == LineKind::CutOuter && lines[b].0 == LineKind::CutInner && !waits(a) {
                    prop_assert!(place(b) < place(a), "an outline in no hole comes after all holes");
                }
            }
        }
    }
}
