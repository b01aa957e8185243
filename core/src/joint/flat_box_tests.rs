use super::*;

fn mm(text: &str) -> Nm {
    Nm::parse(text).unwrap()
}

#[test]
fn notches_that_meet_are_refused() {
    let mm = |v: f64| Nm::from_mm(v).unwrap();
    let flat = FlatBox::new([mm(60.0), mm(50.0), mm(40.0)], mm(3.0), true, Fingers::width(mm(2.0)).least(mm(1.0))).unwrap();
    let code = |fit: Fit| flat.panel(Face::Front, fit, Nm::ZERO).err().map(|e| e.code);
    assert_eq!(code(Fit::new(Nm::ZERO, mm(1.0), Nm::ZERO).unwrap()), None);
    // The notches next to a corner are 2 mm away from the mates' faces.
    assert_eq!(code(Fit::new(Nm::ZERO, mm(2.5), Nm::ZERO).unwrap()), Some(Code::CrossesNeighbour));
    let flat = FlatBox::new([mm(60.0), mm(50.0), mm(12.0)], mm(3.0), false, Fingers::width(mm(9.0))).unwrap();
    let through = flat.panel(Face::Front, Fit::new(Nm::ZERO, mm(10.0), Nm::ZERO).unwrap(), Nm::ZERO);
    assert_eq!(through.err().map(|e| e.code), Some(Code::CrossesNeighbour));
}

/// The six panels fill the shell exactly: BOX-1 to BOX-4, pure geometry (outer volume less inner volume, over the thickness).
#[test]
fn panels_add_up_to_the_shell() {
    for (size, t, closed, expected_mm2) in [
        (["100", "80", "60"], "3", true, 34_792),
        (["200", "150", "100"], "6", true, 119_488),
        (["60", "60", "60"], "2", true, 20_192),
        (["100", "80", "60"], "3", false, 27_836),
    ] {
        for count in 1..=9 {
            let flat = FlatBox::new(size.map(mm), mm(t), closed, Fingers::count(count)).unwrap();
            let twice: i128 = Face::ALL.into_iter().filter_map(|f| flat.panel(f, Fit::EXACT, Nm::ZERO).unwrap()).map(|o| o.twice_area()).sum();
            assert_eq!(twice, 2 * expected_mm2 * 1_000_000_000_000, "{size:?} {closed} {count}");
        }
    }
}

#[test]
fn a_box_thinner_than_its_walls_is_refused() {
    let error = FlatBox::new([mm("100"), mm("6"), mm("60")], mm("3"), true, Fingers::default()).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::ThickerThanBox, "outside y"));
}

/// With allowances and kerf too, the box without heap is the assembly's: the same paths, and refused in the same cases.
#[cfg(feature = "alloc")]
mod beside_the_assembly {
    use super::*;
    use crate::{BoxSpec, Cutter, Parts, Top, Vertex};
    use proptest::prelude::*;
    use std::vec::Vec;

    fn allowance() -> impl Strategy<Value = i64> {
        prop_oneof![4 => -60_000i64..150_000, 1 => -5_000_000i64..5_000_000]
    }

    proptest! {
        #[test]
        fn paths_are_the_same(
            size in [20_000_000i64..120_000_000, 20_000_000i64..120_000_000, 20_000_000i64..120_000_000],
            thickness in 500_000i64..6_000_000, closed: bool, count in 1u32..9,
            allowances in [allowance(), allowance(), allowance()], kerf in prop_oneof![3 => 0i64..300_000, 1 => 0i64..6_000_000],
        ) {
            let nm = |v| Nm::new(v).unwrap();
            let (size, thickness) = (size.map(nm), nm(thickness));
            let [flank, cheek, tip] = allowances.map(nm);
            let fit = Fit::new(flank, cheek, tip).unwrap();
            let fingers = Fingers::count(count).least(nm(1000));
            let flat = FlatBox::new(size, thickness, closed, fingers).unwrap();
            let mut spec = BoxSpec::outside(size, thickness);
            (spec.top, spec.fingers) = (if closed { Top::Closed } else { Top::Open }, Some(fingers));
            let panels = spec.assembly().unwrap().panels().unwrap();
            let faces = Face::ALL.into_iter().filter(|&face| flat.has(face));
            let paths: Result<Vec<Vec<Vertex>>, Error> =
                faces.map(|face| Ok(flat.panel(face, fit, nm(kerf))?.unwrap())).map(|o| o.map(|o: Outline| o.collect())).collect();
            match (paths, Parts::cut(&panels, Cutter::beam(nm(kerf)).unwrap(), fit, Nm::ZERO)) {
                (Ok(paths), Ok(parts)) => {
                    for (path, part) in paths.iter().zip(parts.iter()) {
                        prop_assert_eq!(path.as_slice(), part.path().vertices(), "{}", part.name());
                    }
                }
                (Err(_), Err(_)) => {}
                // Only the assembly looks for edges that cross.
                (Ok(_), Err(refused)) => prop_assert_ne!(refused.error.code, Code::SlotCloses),
                (Err(refused), Ok(_)) => prop_assert!(false, "{}", refused),
            }
        }
    }
}
