use proptest::prelude::*;

use super::*;
use crate::bounds::MM;
use crate::joint::Fingers;
use crate::{Code, Top, dry_fit_parts};

fn mm(millimetres: i64) -> Nm {
    Nm::raw(millimetres * MM)
}

fn long_way(spec: &BoxSpec, cutter: Cutter, fit: Fit) -> Result<(Figures, Parts), Failure> {
    let panels = spec.assembly()?.panels()?;
    let parts = Parts::cut(&panels, cutter, fit, Nm::ZERO)?;
    Ok((Figures::of_parts(&panels, &parts), parts))
}

fn tops() -> impl Strategy<Value = Top> {
    prop_oneof![3 => Just(Top::Closed), 3 => Just(Top::Open), 1 => Just(Top::lift_off()), 1 => Just(Top::sliding())]
}

proptest! {
    /// The short way gives what the parts give, and refuses what they refuse.
    #[test]
    fn short_and_long_way(
        size in [1_000_000i64..200 * MM, 1_000_000i64..200 * MM, 1_000_000i64..200 * MM], inside: bool, thickness in 500_000i64..6 * MM,
        width in prop_oneof![1 => Just(None), 1 => (MM..30 * MM).prop_map(Some)], top in tops(),
        allowances in [-200_000i64..200_000, -200_000i64..200_000, -200_000i64..200_000], exact: bool, kerf in prop_oneof![1 => Just(0i64), 2 => 0i64..500_000, 1 => 0i64..4 * MM],
    ) {
        let mut spec = if inside { BoxSpec::inside(size.map(Nm::raw), Nm::raw(thickness)) } else { BoxSpec::outside(size.map(Nm::raw), Nm::raw(thickness)) };
        (spec.top, spec.fingers) = (top, width.map(|width| Fingers::width(Nm::raw(width))));
        let [flank, cheek, tip] = allowances.map(Nm::raw);
        let fit = if exact { Fit::EXACT } else { Fit::new(flank, cheek, tip).unwrap() };
        let cutter = Cutter::beam(Nm::raw(kerf)).unwrap();
        match (Figures::of(&spec, cutter, fit), long_way(&spec, cutter, fit)) {
            (Ok(short), Ok((long, parts))) => {
                prop_assert_eq!(short, long);
                if let Some((plain, sizes)) = Figures::plain(&spec, cutter, fit) {
                    prop_assert_eq!(plain, long);
                    let bounds = parts.iter().map(|part| part.path().bounds()).map(|(low, high)| [high.x - low.x, high.y - low.y]);
                    prop_assert!(sizes.into_iter().flatten().eq(bounds));
                }
                let report = dry_fit_parts(&parts);
                let made = Making { thickness: Nm::raw(thickness), kerf: Nm::raw(kerf) };
                // Where a corner is smaller than the allowances, the dry fit sees no contact in it.
                if report.ok() && size.iter().all(|&size| size > 30 * thickness) {
                    prop_assert_eq!((report.gap_min, report.gap_max), short.gaps(fit, made, made), "{:?}", short);
                }
            }
            (Err(short), Err(long)) => prop_assert_eq!(short.error.code, long.error.code),
            (short, long) => prop_assert!(false, "{:?} {:?}", short, long.map(|(figures, _)| figures)),
        }
    }
}

#[test]
fn which_contacts_a_box_has() {
    let contacts = |spec: &BoxSpec| Figures::of(spec, Cutter::beam(Nm::ZERO).unwrap(), Fit::EXACT).unwrap().contacts;
    let mut spec = BoxSpec::outside([mm(120), mm(90), mm(80)], mm(3));
    assert_eq!(contacts(&spec), Contacts { flanks: true, shoulders: true, slots: false });
    spec.dividers = [1, 1];
    assert_eq!(contacts(&spec), Contacts { flanks: true, shoulders: true, slots: true });
    // So ordinary that formulas do.
    let fit = Fit::new(Nm::raw(60_001), Nm::raw(-40_000), Nm::raw(20_000)).unwrap();
    for top in [Top::Closed, Top::Open] {
        let mut spec = BoxSpec::outside([mm(120), mm(90), mm(80)], mm(3));
        spec.top = top;
        assert!(Figures::plain(&spec, Cutter::beam(Nm::raw(180_000)).unwrap(), fit).is_some());
    }
    // So small that no run is cut.
    let small = BoxSpec::outside([mm(12), mm(12), mm(12)], mm(3));
    assert_eq!(contacts(&small), Contacts { flanks: false, shoulders: true, slots: false });
}

#[test]
fn what_is_refused_is_told_as_ever() {
    let spec = BoxSpec::outside([mm(120), mm(90), mm(5)], mm(3));
    let refused = Figures::of(&spec, Cutter::beam(Nm::ZERO).unwrap(), Fit::EXACT).unwrap_err();
    assert_eq!((refused.error.code, refused.error.parameter), (Code::ThickerThanBox, "outside z"));
}
