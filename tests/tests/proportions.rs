//! Published proportions of joints, each with its source.
//!
//! Fairham: *Woodwork Joints*; Noyes: *Handwork in Wood* (1910); Griffith: *Essentials of Woodworking* (1908).

use dryfit_core::proportion::{haunched_tenon, housing_depth, housing_parallel, key_hole, thirds, through_tenon};
use dryfit_core::{BoxSpec, Cutter, Fingers, Fit, Nm, Parts, Side};

const INCH: i64 = 25_400_000;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

/// J-4: tenon T/3, both cheeks T/3 (Fairham, Mortise and Tenon, "General rule"; Noyes No. 42: "ordinarily one-third of the thickness").
#[test]
fn a_tenon_is_a_third_of_its_frame() {
    for thickness in [18.0, 21.0, 30.0, 19.05] {
        assert_eq!(thirds(mm(thickness)).unwrap(), [mm(thickness / 3.0); 3]);
    }
    for thickness in 10_000..10_050 {
        let parts = thirds(nm(thickness)).unwrap().map(Nm::nm);
        assert_eq!(parts.iter().sum::<i64>(), thickness);
        assert!(parts.iter().all(|part| (3 * part - thickness).abs() < 3));
    }
    assert_eq!(thirds(Nm::ZERO).unwrap_err().to_string(), "thickness: 0 mm given, allowed 0.01 mm to 200 mm");
}

/// J-5, J-6: a haunched tenon is half the rail less the groove (Noyes No. 42), the groove as deep and wide as T/3: T 18, w 90 give 6, 6 and 39.
#[test]
fn a_haunched_tenon_leaves_room_for_the_groove() {
    let [_, groove, _] = thirds(mm(18.0)).unwrap();
    assert_eq!(groove, mm(6.0));
    assert_eq!(haunched_tenon(mm(90.0), groove), Ok(mm(39.0)));
    let error = haunched_tenon(mm(12.0), groove).unwrap_err();
    assert_eq!(error.to_string(), "groove depth: 6 mm given, allowed 0.000001 mm to 5.999999 mm");
}

/// J-7: at least the mortised member's thickness (Noyes No. 31), 1/4 in proud before trimming (Fairham, The two cross rails, Fig. 177).
#[test]
fn a_through_tenon_is_left_proud() {
    for thickness in [mm(20.0), nm(INCH), nm(INCH * 7 / 8)] {
        assert_eq!((through_tenon(thickness).unwrap() - thickness).nm() * 4, INCH);
    }
}

/// J-8: the key hole begins 1/16 in (Noyes No. 39) or 1/32 in (Griffith, section 91) inside the mortised member's face.
#[test]
fn a_key_draws_the_joint_together() {
    for (less, left) in [(INCH / 16, INCH * 15 / 16), (INCH / 32, INCH * 31 / 32)] {
        assert_eq!(key_hole(nm(INCH), nm(less)), Ok(nm(left)));
    }
    assert_eq!(key_hole(mm(1.0), mm(1.0)).unwrap_err().parameter, "draw");
}

/// J-9: a comb joint is the open mortise and tenon repeated, pins and gaps of one width (Noyes No. 46; Fairham p. 55, Fig. 111).
#[test]
fn pins_and_gaps_of_a_comb_are_of_one_width() {
    for (run, count) in [(105.0, 21), (96.0, 8), (100.0, 7)] {
        let pattern = Fingers::count(count).pattern(mm(run), mm(3.0)).unwrap();
        let widths: Vec<i64> = pattern.spans().map(|span| (span.to - span.from).nm()).collect();
        assert_eq!(widths.len(), count as usize);
        assert!(widths.iter().all(|width| (width * i64::from(count) - mm(run).nm()).abs() < i64::from(count)));
        assert!(pattern.spans().map(|span| span.owner).collect::<Vec<_>>().windows(2).all(|pair| pair[0] != pair[1]));
    }
}

/// J-10: the housed piece is parallel for 3/4 of its width, tapered for the rest (Fairham, frame dovetails, Fig. 284C).
#[test]
fn a_tapered_housing_is_parallel_for_three_quarters() {
    assert_eq!(housing_parallel(mm(200.0)), Ok(mm(150.0)));
    assert_eq!(housing_parallel(nm(9 * INCH)), Ok(nm(9 * INCH * 3 / 4)));
}

/// J-11: a housing is a third of the thickness deep: 3/8 in in 1 1/8 in, 6 mm in 18 mm (from memory, a common trade rule).
#[test]
fn a_housing_is_a_third_deep() {
    assert_eq!(housing_depth(nm(INCH * 9 / 8)), Ok(nm(INCH * 3 / 8)));
    assert_eq!(housing_depth(mm(18.0)), Ok(mm(6.0)));
}

/// J-12: fingers in solid wood as wide as the board is thick, an odd count, so that both ends match (from memory, a trade rule). Here that
/// is the least width; a width that is asked for gets the nearest odd count. (Sheet board has three thicknesses unless told otherwise.)
#[test]
fn fingers_as_wide_as_the_board_is_thick() {
    let board = mm(9.0);
    for run in [81.0, 90.0, 99.0, 120.0, 150.0] {
        let pattern = Fingers::width(board).pattern(mm(run), board).unwrap();
        assert_eq!(pattern.spans().len() % 2, 1);
        assert_eq!((pattern.first(), pattern.last()), (Side::A, Side::A));
        assert!(pattern.spans().all(|span| span.to - span.from >= board && (span.to - span.from).mm() < 9.0 * 1.25), "{run}");
    }
    // The board's thickness is also the least: what is asked narrower comes out no narrower.
    let narrow = Fingers::width(mm(3.0)).pattern(mm(90.0), board).unwrap();
    assert_eq!(narrow.spans().len(), 9);
}

/// J-13: a mortise may be a little wider than its tenon (Noyes Nos 34, 36, for wedges). His widens outwards; a straight-down cut has one width
/// for its whole depth, so here the cheek allowance widens all of it.
#[test]
fn a_mortise_may_be_wider_than_its_tenon() {
    let board = mm(3.0);
    let mut spec = BoxSpec::outside([mm(120.0), mm(90.0), mm(60.0)], board);
    (spec.dividers, spec.into_base) = ([1, 0], true);
    let panels = spec.assembly().unwrap().panels().unwrap();
    for cheek in [0.0, 0.2, 0.5] {
        let fit = Fit::new(Nm::ZERO, mm(cheek), Nm::ZERO).unwrap();
        let parts = Parts::cut(&panels, Cutter::beam(mm(0.1)).unwrap(), fit, Nm::ZERO).unwrap();
        let base = parts.iter().find(|part| part.name() == "base").unwrap();
        let mut mortises = 0;
        for ring in base.finished().loops().skip(1) {
            let xs: Vec<_> = ring.iter().map(|vertex| vertex.at.x).collect();
            assert_eq!(*xs.iter().max().unwrap() - *xs.iter().min().unwrap(), board + mm(cheek));
            mortises += 1;
        }
        assert!(mortises > 0);
    }
}
