use super::*;
use crate::{Assembly, Axis, BoxSpec, Code, Cutter, Fingers, Fit, Halves, Joint, Nm, Parts, Point, Shape, Side, Top};
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
            (spec.top, spec.dividers, spec.into_base) = (if closed { Top::Closed } else { Top::Open }, [nx, ny], into_base);
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
    assert_eq!(
        failure.to_string(),
        "boards \"tall\", \"wide\": order: no straight move puts these boards together; of two that are halved, the lower one has to keep the lower part"
    );
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

#[path = "damage_tests.rs"]
mod damage;

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
    use super::super::overlap::{coplanar, crossing};
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
            return coplanar(a, b).volume;
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
            // A board of a piece that is put together apart moves past that piece's boards only.
            let apart = steps.iter().find(|whole| whole.along.contains(&step.board));
            let before = steps[..index].iter().map(|placed| placed.board);
            let standing: Vec<usize> = match apart {
                Some(whole) => before.filter(|i| whole.along.contains(i)).chain([whole.board]).collect(),
                None => before.filter(|i| !step.along.contains(i)).collect(),
            };
            for quarter in 1..40 {
                for &mover in step.along.iter().chain([&step.board]) {
                    let away = shifted(panels[mover].board(), step, quarter * thin / 4 * (1 + quarter / 8));
                    let moving = Body::new(&away, &shapes[mover]);
                    for &placed in &standing {
                        let still = Body::new(panels[placed].board(), &shapes[placed]);
                        assert_eq!(shared(&moving, &still), 0, "{} {} through {}", step.name, step.direction, panels[placed].name());
                    }
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
    fn of_boxes_with_lids_shelves_and_feet() {
        for top in [Top::Open, Top::Closed, Top::lift_off(), Top::sliding()] {
            let mut spec = BoxSpec::outside([mm(110), mm(85), mm(80)], um(2500));
            (spec.top, spec.shelves, spec.feet) = (top, std::vec![mm(10), mm(30)], Some(mm(12)));
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

/// Of two crossing boards the one with the open slot above stands first, whatever the order of their names.
#[test]
fn nothing_comes_from_below_if_another_base_spares_it() {
    for (first, second) in [(Side::A, "b"), (Side::B, "a")] {
        let mut stand = Assembly::new();
        stand.add("a", Axis::Y, [mm(0), mm(50), mm(0)], [mm(120), mm(80)], mm(3)).unwrap();
        stand.add("b", Axis::X, [mm(60), mm(0), mm(0)], [mm(100), mm(80)], mm(3)).unwrap();
        stand.joint("a", "b", Halves::default().first(first).into()).unwrap();
        let steps = order(&stand.panels().unwrap()).unwrap();
        assert_eq!((steps[1].name.as_str(), steps[1].direction.to_string().as_str()), (second, "-z"));
    }
}

#[test]
fn a_board_alone_does_not_close_the_gaps_of_a_job() {
    let box_panels = BoxSpec::outside([mm(100), mm(80), mm(60)], mm(3)).assembly().unwrap().panels().unwrap();
    let mut lid = Assembly::new();
    lid.add("lid", Axis::Z, [mm(0); 3], [mm(100), mm(80)], mm(3)).unwrap();
    let (fit, blade) = (Fit::new(um(50), um(50), Nm::ZERO).unwrap(), Cutter::blade(Nm::ZERO, Nm::ZERO).unwrap());
    let cut = |panels: &[crate::Panel]| Parts::cut(panels, blade, fit, Nm::ZERO).unwrap();
    for parts in [cut(&box_panels).join(cut(&lid.panels().unwrap())), cut(&lid.panels().unwrap()).join(cut(&box_panels))] {
        assert_eq!((dry_fit_parts(&parts).gap_min, dry_fit_parts(&parts).gap_max), (um(50), um(50)));
    }
}
