use super::*;
use crate::bounds::MM;
use crate::joint::{Role, Vertex};

const T: Nm = Nm::raw(3 * MM);

fn at(x: i64, y: i64) -> Point {
    Point::raw(x * MM, y * MM)
}

fn rectangle(kind: LineKind, [x, y]: [i64; 2], [w, h]: [i64; 2], part: usize) -> Contour {
    let mut corners = [at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)];
    if kind == LineKind::CutInner {
        corners.reverse();
    }
    Contour::closed(kind, corners.map(|at| (Vertex { at, role: Role::Free }, None))).of_part(part)
}

/// Two plates, one with a hole.
fn lines() -> Vec<Contour> {
    Vec::from([
        rectangle(LineKind::CutOuter, [10, 10], [40, 30], 0),
        rectangle(LineKind::CutInner, [20, 20], [10, 10], 0),
        rectangle(LineKind::CutOuter, [60, 10], [40, 30], 1),
    ])
}

fn blade() -> Cutter {
    Cutter::blade(Nm::ZERO, Nm::raw(250_000)).unwrap()
}

fn plan(cutter: Cutter, spec: &MotionSpec) -> Plan {
    Plan::new(lines(), T, [at(5, 5), at(115, 75)], cutter, spec).unwrap()
}

fn actions(plan: &Plan) -> Vec<Action> {
    let mut list = Vec::new();
    plan.act(|action| {
        list.push(*action);
        Ok(())
    })
    .unwrap();
    list
}

/// The tool is up when it travels, down when it cuts, and each cut begins where it stands.
fn in_order(list: &[Action]) {
    let (mut down, mut stands) = (false, None);
    for action in list {
        match *action {
            Action::Travel(to) => {
                assert!(!down);
                stands = Some(to);
            }
            Action::Lower { .. } => down = true,
            Action::Cut(way) | Action::Ramp { way, .. } => {
                assert!(down && stands == Some(way.from));
                stands = Some(way.to);
            }
            Action::Lift => down = false,
            Action::Pause => assert!(!down),
            Action::Line(_) => {}
        }
    }
    assert!(!down);
}

fn depths(list: &[Action]) -> Vec<i64> {
    let depth = |action: &Action| if let Action::Lower { depth, .. } = action { Some(depth.nm()) } else { None };
    list.iter().filter_map(depth).collect()
}

#[test]
fn holes_come_first_and_every_line_gets_all_its_passes() {
    let spec = MotionSpec { passes: PassSpec { count: Some(2), ..PassSpec::default() }, ..MotionSpec::default() };
    let list = actions(&plan(blade(), &spec));
    in_order(&list);
    let kinds: Vec<LineKind> = list.iter().filter_map(|action| if let Action::Line(kind) = action { Some(*kind) } else { None }).collect();
    assert_eq!(kinds, [LineKind::CutInner, LineKind::CutOuter]);
    assert_eq!(depths(&list), [MM * 3 / 2, 3 * MM].repeat(3));
}

/// With a way in too: it is not cut before, so only what lies at the depth of the board's face, or on the line, may be gone down to.
#[test]
fn a_bit_that_ramps_never_goes_straight_down_into_the_board() {
    for order in [PassOrder::Line, PassOrder::Sheet] {
        let passes = PassSpec { count: Some(3), order: Some(order), ..PassSpec::default() };
        let list =
            actions(&plan(Cutter::bit(Nm::raw(2 * MM)).unwrap(), &MotionSpec { passes, lead: Some(Nm::raw(4 * MM)), ..MotionSpec::default() }));
        in_order(&list);
        assert!(depths(&list).iter().all(|depth| *depth == 0), "{:?}", depths(&list));
        // It reaches the line no less deep than the pass before it.
        let deepest = list.iter().filter_map(|action| if let Action::Ramp { depth, .. } = action { Some(depth.nm()) } else { None });
        assert_eq!(deepest.max(), Some(3 * MM));
    }
}

#[test]
fn the_sheet_can_be_gone_over_pass_by_pass_with_a_pause() {
    let passes = PassSpec { count: Some(2), light: Some(Nm::raw(MM / 5)), pause: true, ..PassSpec::default() };
    let list = actions(&plan(blade(), &MotionSpec { passes, ..MotionSpec::default() }));
    in_order(&list);
    assert_eq!(depths(&list), [[MM / 5; 3], [MM * 3 / 2; 3], [3 * MM; 3]].concat());
    assert_eq!(list.iter().filter(|action| **action == Action::Pause).count(), 2);
}

#[test]
fn thick_board_lets_the_blade_turn_near_its_face() {
    let spec = MotionSpec { turn_depth: Some(Nm::raw(MM / 2)), ..MotionSpec::default() };
    let list = actions(&plan(blade(), &spec));
    in_order(&list);
    for pair in list.windows(2) {
        if let [Action::Lower { depth, .. }, Action::Cut(way)] = pair {
            // What turns runs about a corner; a quarter of a circle as large as the trail.
            assert_eq!(way.centre.is_some() && way.length() <= 785_399, *depth == Nm::raw(MM / 2), "{pair:?}");
        }
    }
    assert!(depths(&list).contains(&(3 * MM)) && depths(&list).contains(&(MM / 2)));
    let error = Plan::new(lines(), T, [at(0, 0); 2], blade(), &MotionSpec { turn_depth: Some(Nm::raw(4 * MM)), ..spec }).unwrap_err();
    assert_eq!(std::string::ToString::to_string(&error), "turn depth: 4 mm given, allowed 0.000001 mm to 3 mm");
}

#[test]
fn a_blade_remembers_how_it_points() {
    let list = actions(&plan(blade(), &MotionSpec::default()));
    // At the first start it points along x, and so does the way beside the tip there: nothing but a turn can come before the first straight cut.
    let Some(Action::Travel(first)) = list.iter().find(|action| matches!(action, Action::Travel(_))) else { panic!() };
    assert!([at(20, 20), at(30, 20), at(20, 30), at(30, 30)].iter().any(|corner| *first == Point::raw(corner.x.nm() + 250_000, corner.y.nm())));
    // From each end to the next start the axis keeps its place beside the tip: what is travelled leads from one point of the line to another.
    let ends: Vec<Point> = list.iter().filter_map(|action| if let Action::Travel(to) = action { Some(*to) } else { None }).collect();
    assert_eq!(ends.len(), 3);
}

#[test]
fn tracks_are_the_ways_of_one_pass() {
    let spec = MotionSpec { passes: PassSpec { count: Some(3), ..PassSpec::default() }, ..MotionSpec::default() };
    let thrice = plan(blade(), &spec);
    let tracks = thrice.tracks();
    let once: i64 = tracks.iter().flat_map(|track| &track.moves).map(Move::length).sum();
    assert_eq!(tracks.len(), 3);
    // Only the first turn into a line differs from pass to pass.
    assert!((3 * once - thrice.length()).abs() < 9 * 800_000);
    assert!(tracks.iter().all(|track| track.moves.windows(2).all(|pair| pair[0].to == pair[1].from)));
    let beam = plan(Cutter::beam(Nm::raw(180_000)).unwrap(), &MotionSpec::default());
    assert!(beam.tracks().iter().map(|track| track.moves.iter().map(Move::length).sum::<i64>()).sum::<i64>() >= 300 * MM);
}

#[test]
fn arcs_give_way_to_chords_where_that_is_asked() {
    let flat = MotionSpec { flat: Some(Nm::raw(10_000)), ..MotionSpec::default() };
    let list = actions(&plan(blade(), &flat));
    in_order(&list);
    assert!(!list.iter().any(|action| matches!(action, Action::Cut(way) if way.centre.is_some())));
}

#[test]
fn what_another_tool_has_is_refused() {
    let spec = MotionSpec::default();
    let beam = Cutter::beam(Nm::raw(180_000)).unwrap();
    let bit = Cutter::bit(Nm::raw(2 * MM)).unwrap();
    for (cutter, spec, name) in [
        (beam, MotionSpec { overcut: Some(Nm::ZERO), ..spec }, "overcut"),
        (beam, MotionSpec { ramp: Some(Nm::ZERO), ..spec }, "ramp"),
        (beam, MotionSpec { turn_depth: Some(T), ..spec }, "turn depth"),
        (bit, MotionSpec { swivel_above: Some(0), ..spec }, "swivel above"),
        (bit, MotionSpec { dynamic: Some(true), ..spec }, "dynamic"),
        (blade(), MotionSpec { speed: Some(1), ..spec }, "speed"),
        (blade(), MotionSpec { dynamic: Some(false), ..spec }, "dynamic"),
    ] {
        let error = Plan::new(lines(), T, [at(0, 0), at(120, 80)], cutter, &spec).unwrap_err();
        assert_eq!((error.code, error.parameter), (crate::Code::NotOfThisTool, name));
    }
}
