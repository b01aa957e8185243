use super::*;
use crate::{Assembly, Axis, BoxSpec, Code, Cutter, Fingers, Fit, Halves, Joint, Nm, Parts, Point, Shape, Side};
use proptest::prelude::*;
use std::string::{String, ToString};
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn mm(value: i64) -> Nm {
    nm(value * 1_000_000)
}

fn um(value: i64) -> Nm {
    nm(value * 1_000)
}

fn rack() -> Assembly {
    let mut rack = Assembly::new();
    rack.add("left", Axis::X, [mm(0); 3], [mm(150), mm(300)], um(2500)).unwrap();
    rack.add("right", Axis::X, [mm(240), mm(0), mm(0)], [mm(150), mm(300)], um(2500)).unwrap();
    rack.add("back", Axis::Y, [mm(0), um(147_500), mm(0)], [um(242_500), mm(300)], um(2500)).unwrap();
    for (name, z) in [("low", 0), ("middle", 120), ("high", 240)] {
        rack.add(name, Axis::Z, [mm(0), mm(0), mm(z)], [um(242_500), mm(150)], um(2500)).unwrap();
    }
    rack
}

fn any_box() -> impl Strategy<Value = BoxSpec> {
    (
        60_000_000i64..300_000_000,
        60_000_000i64..300_000_000,
        20_000_000i64..120_000_000,
        500_000i64..3_000_000,
        (0u32..4, 0u32..3),
        any::<bool>(),
        any::<bool>(),
    )
        .prop_map(|(x, y, z, t, (nx, ny), closed, into_base)| {
            let mut spec = BoxSpec::outside([nm(x), nm(y), nm(z)], nm(t));
            (spec.closed, spec.dividers, spec.into_base) = (closed, [nx, ny], into_base);
            spec
        })
}

proptest! {
    /// Nominal boxes fit exactly and come apart.
    #[test]
    fn boxes_fit_and_go_together(spec in any_box()) {
        let panels = spec.assembly().unwrap().panels().unwrap();
        let report = dry_fit(&panels);
        prop_assert!(report.ok(), "{:?}", report);
        prop_assert_eq!((report.overlap_volume, report.void_volume, report.loose_pieces), (0, 0, 0));
        prop_assert_eq!((report.gap_min, report.gap_max), (Nm::ZERO, Nm::ZERO));
        let steps = order(&panels).unwrap();
        prop_assert_eq!(steps.len(), panels.len());
        prop_assert_eq!(&steps[0].name, "base");
    }

    /// Each contact opens by what was asked, after the kerf has been put on and taken off.
    #[test]
    fn gaps_are_what_was_asked(spec in any_box(), flank in -20_000i64..150_000, cheek in -20_000i64..150_000, kerf in 0i64..250_001) {
        let panels = spec.assembly().unwrap().panels().unwrap();
        let fit = Fit::new(nm(flank), nm(cheek), Nm::ZERO).unwrap();
        let parts = Parts::cut(&panels, Cutter::beam(nm(kerf)).unwrap(), fit, Nm::ZERO).unwrap();
        let report = dry_fit_parts(&parts);
        prop_assert!(report.ok(), "{:?}", report.problems);
        prop_assert_eq!(report.gap_min.nm(), flank.min(cheek));
        prop_assert_eq!(report.gap_max.nm(), flank.max(cheek));
    }
}

#[test]
fn a_rack_with_a_back_fits_and_goes_together() {
    let panels = rack().panels().unwrap();
    let report = dry_fit(&panels);
    assert!(report.ok(), "{report:?}");
    let steps: Vec<String> = order(&panels).unwrap().iter().map(|s| std::format!("{} {}", s.name, s.direction)).collect();
    assert_eq!(steps[0].split(' ').next(), Some("low"), "{steps:?}");
}

#[test]
fn boards_that_cross_in_closed_slots_lock() {
    let mut stand = Assembly::new();
    stand.add("tall", Axis::X, [mm(50), mm(0), mm(0)], [mm(100), mm(120)], mm(3)).unwrap();
    stand.add("wide", Axis::Y, [mm(0), mm(50), mm(20)], [mm(100), mm(80)], mm(3)).unwrap();
    stand.joint("tall", "wide", Halves::default().into()).unwrap();
    let failure = order(&stand.panels().unwrap()).unwrap_err();
    assert_eq!(failure.error.code, Code::Locked);
    assert_eq!(failure.to_string(), "boards \"tall\", \"wide\": order: no straight move puts these boards together");
    // The default for the same boards: the shorter one passes through a closed slot, and can.
    let mut free = Assembly::new();
    free.add("tall", Axis::X, [mm(50), mm(0), mm(0)], [mm(100), mm(120)], mm(3)).unwrap();
    free.add("wide", Axis::Y, [mm(0), mm(50), mm(20)], [mm(100), mm(80)], mm(3)).unwrap();
    let panels = free.panels().unwrap();
    assert!(dry_fit(&panels).ok());
    assert_eq!(order(&panels).unwrap().len(), 2);
    free.joint("tall", "wide", Joint::Whole(Side::A)).unwrap();
    assert_eq!(dry_fit(&free.panels().unwrap()).loose_pieces, 1, "the wide board is cut in two");
}

/// A check that cannot fail proves nothing: each kind of damage to a finished outline is found, and measured exactly.
mod damage {
    use super::*;

    fn shapes() -> (Assembly, Vec<Shape>) {
        let spec = BoxSpec::outside([mm(100), mm(80), mm(60)], mm(3));
        let assembly = spec.assembly().unwrap();
        let shapes = assembly.panels().unwrap().iter().map(|panel| panel.shape().clone()).collect();
        (assembly, shapes)
    }

    fn report(assembly: &Assembly, shapes: &[Shape]) -> Report {
        dry_fit_shapes(&assembly.boards().iter().collect::<Vec<_>>(), shapes)
    }

    fn with(shape: &Shape, change: impl Fn(usize, Point) -> Point) -> Shape {
        Shape::from_loops(shape.loops().map(|ring| ring.iter().enumerate().map(|(i, v)| change(i, v.at)).collect::<Vec<_>>()))
    }

    #[test]
    fn none() {
        let (assembly, shapes) = shapes();
        assert!(report(&assembly, &shapes).ok());
    }

    #[test]
    fn a_finger_too_wide() {
        let (assembly, mut shapes) = shapes();
        // The first notch of the front's bottom edge begins 0.1 mm late: the finger before it is 0.1 mm too wide.
        shapes[0] = with(&shapes[0], |i, p| if i == 1 || i == 2 { Point::new(p.x + um(100), p.y) } else { p });
        let report = report(&assembly, &shapes);
        assert_eq!(report.overlap_max, um(100));
        assert_eq!(report.overlap_volume, 100_000 * 3_000_000 * 3_000_000);
        assert_eq!(report.gap_min, um(-100));
        assert!(report.problems.iter().any(|p| p.contains("\"front\" and \"base\" overlap by 0.1 mm")), "{:?}", report.problems);
    }

    #[test]
    fn a_finger_too_narrow() {
        let (assembly, mut shapes) = shapes();
        shapes[0] = with(&shapes[0], |i, p| if i == 1 || i == 2 { Point::new(p.x - um(100), p.y) } else { p });
        let report = report(&assembly, &shapes);
        assert_eq!(report.gap_max, um(100));
        assert_eq!(report.void_volume, 100_000 * 3_000_000 * 3_000_000);
        assert!(report.problems.iter().any(|p| p.contains("stand 0.1 mm apart")), "{:?}", report.problems);
    }

    #[test]
    fn a_notch_too_deep() {
        let (assembly, mut shapes) = shapes();
        shapes[0] = with(&shapes[0], |i, p| if i == 2 || i == 3 { Point::new(p.x, p.y + um(50)) } else { p });
        let report = report(&assembly, &shapes);
        assert_eq!(report.gap_max, um(50));
        assert!(report.void_volume > 0 && report.overlap_volume == 0);
        assert!(!report.ok());
    }

    #[test]
    fn a_hole_in_the_middle() {
        let (assembly, mut shapes) = shapes();
        let hole = [(40, 30), (40, 32), (42, 32), (42, 30)].map(|(x, y)| Point::new(mm(x), mm(y)));
        let outer: Vec<Point> = shapes[0].loops().next().unwrap().iter().map(|v| v.at).collect();
        shapes[0] = Shape::from_loops([outer, hole.to_vec()]);
        let report = report(&assembly, &shapes);
        assert_eq!(report.void_volume, 2_000_000 * 2_000_000 * 3_000_000);
        assert!(report.problems.iter().any(|p| p.contains("\"front\" has lost board")), "{:?}", report.problems);
    }

    #[test]
    fn two_holes_that_meet_in_a_point() {
        let (assembly, mut shapes) = shapes();
        let hole = |x, y| [(x, y), (x, y + 2), (x + 2, y + 2), (x + 2, y)].map(|(x, y)| Point::new(mm(x), mm(y))).to_vec();
        let outer: Vec<Point> = shapes[0].loops().next().unwrap().iter().map(|v| v.at).collect();
        shapes[0] = Shape::from_loops([outer, hole(40, 30), hole(42, 32)]);
        let report = report(&assembly, &shapes);
        assert_eq!(report.thinnest_neck, Nm::ZERO);
        assert!(report.problems.iter().any(|p| p.contains("\"front\" is no wider than a point near (42, 32) mm")), "{:?}", report.problems);
    }

    #[test]
    fn a_corner_cube_missing() {
        let (assembly, mut shapes) = shapes();
        // The front owns the corner at its origin: cut it off.
        let mut outer: Vec<Point> = shapes[0].loops().next().unwrap().iter().map(|v| v.at).collect();
        assert_eq!(outer[0], Point::default());
        outer.splice(0..1, [Point::new(mm(0), mm(3)), Point::new(mm(3), mm(3)), Point::new(mm(3), mm(0))]);
        shapes[0] = Shape::from_loops([outer]);
        let report = report(&assembly, &shapes);
        assert_eq!(report.void_volume, 27_000_000_000_000_000_000);
        assert!(report.problems.iter().any(|p| p.contains("has no owner")), "{:?}", report.problems);
    }

    #[test]
    fn a_loose_piece_and_a_thin_neck() {
        let (assembly, mut shapes) = shapes();
        let crumb = [(10, 100), (12, 100), (12, 101), (10, 101)].map(|(x, y)| Point::new(mm(x), mm(y)));
        let outer: Vec<Point> = shapes[5].loops().next().unwrap().iter().map(|v| v.at).collect();
        shapes[5] = Shape::from_loops([outer, crumb.to_vec()]);
        let report = report(&assembly, &shapes);
        assert_eq!((report.loose_pieces, report.thinnest_neck), (1, mm(1)));
    }
}

#[test]
fn a_closing_slot_names_panel_and_place() {
    let mut spec = BoxSpec::outside([mm(100), mm(80), mm(60)], mm(3));
    spec.fingers = Some(Fingers::width(mm(4)));
    let panels = spec.assembly().unwrap().panels().unwrap();
    let fit = Fit::new(mm(5), Nm::ZERO, Nm::ZERO).unwrap();
    let failure = Parts::cut(&panels, Cutter::beam(Nm::ZERO).unwrap(), fit, Nm::ZERO).unwrap_err();
    assert_eq!(failure.error.code, Code::SlotCloses);
    assert!(failure.place.starts_with("panel \"front\" near ("), "{failure}");
    let wide = Parts::cut(&panels, Cutter::bit(mm(5)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap_err();
    assert_eq!(wide.error.code, Code::SlotCloses);
    let filled = Parts::cut(&panels, Cutter::Beam { kerf: nm(-1) }, Fit::EXACT, Nm::ZERO).unwrap_err();
    assert_eq!(filled.error.code, Code::OutOfRange, "no cut adds board");
    let web = Parts::cut(&panels, Cutter::beam(Nm::ZERO).unwrap(), Fit::EXACT, mm(6)).unwrap_err();
    assert_eq!(web.error.code, Code::WebTooThin);
}

#[test]
fn a_bit_is_told_about_its_fillets() {
    let panels = BoxSpec::outside([mm(100), mm(80), mm(60)], mm(3)).assembly().unwrap().panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::bit(mm(3)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    let report = dry_fit_parts(&parts);
    assert!(!report.ok());
    assert_eq!(report.corner_fillet, um(1500));
}

/// The order by another route: every board is drawn back against its move in small steps, and never shares volume with those in place.
mod moves {
    use super::super::body::Body;
    use super::super::extent::shared_area;
    use super::super::overlap::crossing;
    use super::*;
    use crate::{Board, Panel};

    fn shifted(board: &Board, step: &Step, by: i64) -> Board {
        let mut at = Axis::ALL.map(|axis| board.lo(axis));
        at[step.direction.axis.index()] += if step.direction.upwards { -by } else { by };
        let (u, v) = board.normal().plane();
        let mut lone = Assembly::new();
        lone.add(board.name(), board.normal(), at.map(nm), [nm(board.size(u)), nm(board.size(v))], board.thickness()).unwrap();
        lone.boards()[0].clone()
    }

    fn shared(a: &Body, b: &Body) -> i128 {
        if !a.near(b) {
            return 0;
        }
        if a.normal() == b.normal() {
            return shared_area(a, b).0;
        }
        let run = a.normal().third(b.normal());
        let (mut p, mut q) = (Vec::new(), Vec::new());
        a.section(run, b.thick(), &mut p);
        b.section(run, a.thick(), &mut q);
        crossing(&p, &q).volume
    }

    fn replay(panels: &[Panel]) {
        let steps = order(panels).unwrap();
        let shapes: Vec<Shape> = panels.iter().map(|panel| panel.shape().clone()).collect();
        let thin = panels.iter().map(|p| p.board().thickness().nm()).min().unwrap();
        for (index, step) in steps.iter().enumerate() {
            for quarter in 1..40 {
                let away = shifted(panels[step.board].board(), step, quarter * thin / 4 * (1 + quarter / 8));
                let moving = Body::new(&away, &shapes[step.board]);
                for placed in &steps[..index] {
                    let standing = Body::new(panels[placed.board].board(), &shapes[placed.board]);
                    assert_eq!(shared(&moving, &standing), 0, "{} {} through {}", step.name, step.direction, placed.name);
                }
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]
        #[test]
        fn of_boxes(spec in any_box()) {
            replay(&spec.assembly().unwrap().panels().unwrap());
        }
    }

    #[test]
    fn of_a_rack() {
        replay(&rack().panels().unwrap());
    }

    #[test]
    fn of_a_tray_inside_a_tray() {
        let mut both = Assembly::new();
        for (name, at, size, height) in [("outer", 0, 120, 40), ("inner", 10, 90, 30)] {
            let t = um(2500);
            let far = um((at + size) * 1000 - 2500);
            let (low, size, height) = (mm(at), mm(size), mm(height));
            let z = if at == 0 { mm(0) } else { mm(3) };
            both.add(&std::format!("{name} front"), Axis::Y, [low, low, z], [size, height], t).unwrap();
            both.add(&std::format!("{name} back"), Axis::Y, [low, far, z], [size, height], t).unwrap();
            both.add(&std::format!("{name} left"), Axis::X, [low, low, z], [size, height], t).unwrap();
            both.add(&std::format!("{name} right"), Axis::X, [far, low, z], [size, height], t).unwrap();
            both.add(&std::format!("{name} base"), Axis::Z, [low, low, z], [size, size], t).unwrap();
        }
        let panels = both.panels().unwrap();
        assert!(dry_fit(&panels).ok());
        replay(&panels);
        assert_eq!(order(&panels).unwrap()[0].name, "outer base");
    }
}
