use crate::{BoxSpec, Cutter, Fit, Nm, Parts, dry_fit_parts};

fn um(value: i64) -> Nm {
    Nm::new(value * 1_000).unwrap()
}

#[test]
fn wide_gaps_are_contacts_too() {
    let panels = BoxSpec::outside([um(100_000), um(80_000), um(60_000)], um(2500)).assembly().unwrap().panels().unwrap();
    for (flank, cheek) in [(1500, 700), (0, 1500), (2600, 0)] {
        let fit = Fit::new(um(flank), um(cheek), Nm::ZERO).unwrap();
        let report = dry_fit_parts(&Parts::cut(&panels, Cutter::beam(um(200)).unwrap(), fit, Nm::ZERO).unwrap());
        assert!(report.ok(), "{:?}", report.problems);
        assert_eq!((report.gap_min, report.gap_max), (um(flank.min(cheek)), um(flank.max(cheek))));
    }
}
