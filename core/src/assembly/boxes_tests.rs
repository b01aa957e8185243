//! Lids, shelves and feet: what the proof and the order of assembly say of them.

use super::*;
use crate::{Code, Cutter, Fit, Panel, Parts, dry_fit, dry_fit_parts, order};
use proptest::prelude::*;
use std::string::String;
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn mm(value: i64) -> Nm {
    nm(value * 1_000_000)
}

fn spec(size: [i64; 3], top: Top) -> BoxSpec {
    let mut spec = BoxSpec::outside(size.map(mm), nm(2_500_000));
    spec.top = top;
    spec
}

fn steps(panels: &[Panel]) -> Vec<String> {
    order(panels).unwrap().iter().map(|step| std::format!("{} {}", step.name, step.direction)).collect()
}

fn any_top() -> impl Strategy<Value = Top> {
    let clearance = || (0i64..2_000_000).prop_map(nm);
    prop_oneof![
        Just(Top::Open),
        Just(Top::Closed),
        clearance().prop_map(|clearance| Top::LiftOff { clearance }),
        clearance().prop_map(|clearance| Top::Sliding { clearance }),
    ]
}

fn any_furnished() -> impl Strategy<Value = BoxSpec> {
    (
        (60_000_000i64..300_000_000, 60_000_000i64..300_000_000, 60_000_000i64..200_000_000, 500_000i64..3_000_000),
        any_top(),
        (0u32..3, 0u32..3, any::<bool>()),
        prop::collection::vec(0i64..20_000_000, 0..2),
        prop::option::of(3_000_000i64..20_000_000),
    )
        .prop_map(|((x, y, z, t), top, (nx, ny, into_base), rises, feet)| {
            let mut spec = BoxSpec::outside([nm(x), nm(y), nm(z)], nm(t));
            (spec.top, spec.dividers, spec.into_base) = (top, [nx, ny], into_base);
            let mut height = -t;
            for rise in rises {
                height += 2 * t + rise;
                spec.shelves.push(nm(height));
            }
            spec.feet = feet.map(nm);
            spec
        })
}

proptest! {
    /// Whatever is put together fits exactly and comes apart, nominal and cut; or is refused.
    #[test]
    fn furnished_boxes_fit_and_go_together(spec in any_furnished(), kerf in 0i64..200_001) {
        let made = spec.assembly().and_then(|assembly| assembly.panels());
        if let Err(failure) = &made {
            prop_assert!(matches!(failure.error.code, Code::OutOfRange | Code::NotAvailable | Code::RunTooShort), "{}", failure);
        }
        if let Ok(panels) = made {
            let report = dry_fit(&panels);
            prop_assert!(report.ok(), "{:?}", report.problems);
            prop_assert_eq!((report.overlap_volume, report.void_volume, report.loose_pieces), (0, 0, 0));
            prop_assert_eq!(steps(&panels).len(), panels.len());
            let fit = Fit::new(nm(20_000), nm(50_000), Nm::ZERO).unwrap();
            let parts = Parts::cut(&panels, Cutter::beam(nm(kerf)).unwrap(), fit, Nm::ZERO).unwrap();
            let report = dry_fit_parts(&parts);
            prop_assert!(report.ok(), "{:?}", report.problems);
        }
    }
}

#[test]
fn a_lid_lifts_off() {
    let panels = spec([110, 85, 60], Top::lift_off()).assembly().unwrap().panels().unwrap();
    assert!(dry_fit(&panels).ok());
    assert_eq!(steps(&panels).last().unwrap(), "lid -z");
}
