//! The closed box is a shell: whatever the number of fingers, its panels' areas times the thickness are the shell's volume.
//!
//! Pure geometry, the figures BOX-1 to BOX-4 of the project's source list: outside volume less inside volume, divided by the thickness.

use dryfit_core::{BoxSpec, Face, Fingers, Fit, FlatBox, Nm, Side, Top};
use dryfit_tests::{areas_doubled, nm, outline_points, shape_loops};

const MM: i64 = 1_000_000;

struct Shell {
    id: &'static str,
    /// Outside sizes and thickness in mm.
    size: [i64; 3],
    thickness: i64,
    closed: bool,
    /// Sum of all panels' areas in mm2.
    areas: i64,
}

const SHELLS: [Shell; 4] = [
    Shell { id: "BOX-1", size: [100, 80, 60], thickness: 3, closed: true, areas: 34_792 },
    Shell { id: "BOX-2", size: [200, 150, 100], thickness: 6, closed: true, areas: 119_488 },
    Shell { id: "BOX-3", size: [60, 60, 60], thickness: 2, closed: true, areas: 20_192 },
    Shell { id: "BOX-4", size: [100, 80, 60], thickness: 3, closed: false, areas: 27_836 },
];

impl Shell {
    fn size(&self) -> [Nm; 3] {
        self.size.map(|mm| nm(mm * MM))
    }

    fn thickness(&self) -> Nm {
        nm(self.thickness * MM)
    }

    /// Twice the areas in square nanometres.
    fn areas_doubled(&self) -> i128 {
        2 * i128::from(self.areas) * i128::from(MM) * i128::from(MM)
    }
}

/// Every number of fingers from 1 to 99, odd and even, either board first. The least width is let go: 99 fingers get narrow.
fn every_count() -> impl Iterator<Item = Fingers> {
    (1..=99).flat_map(|count| [Side::A, Side::B].map(|first| Fingers::count(count).first(first).least(nm(1))))
}

#[test]
fn figures_are_outside_less_inside() {
    for shell in SHELLS {
        let inside: Vec<i64> = (0..3).map(|k| shell.size[k] - shell.thickness * if k == 2 && !shell.closed { 1 } else { 2 }).collect();
        let volume = shell.size.iter().product::<i64>() - inside.iter().product::<i64>();
        assert_eq!(volume, shell.areas * shell.thickness, "{}", shell.id);
    }
}

#[test]
fn areas_do_not_depend_on_the_fingers() {
    for shell in &SHELLS {
        for fingers in every_count() {
            let mut spec = BoxSpec::outside(shell.size(), shell.thickness());
            (spec.top, spec.fingers) = (if shell.closed { Top::Closed } else { Top::Open }, Some(fingers));
            let panels = spec.assembly().and_then(|assembly| assembly.panels()).unwrap();
            assert_eq!(panels.len(), if shell.closed { 6 } else { 5 });
            assert_eq!(areas_doubled(&panels).iter().sum::<i128>(), shell.areas_doubled(), "{} {fingers:?}", shell.id);

            // Without heap: the same outlines, vertex for vertex, and the same sum.
            let flat = FlatBox::new(shell.size(), shell.thickness(), shell.closed, fingers).unwrap();
            let mut sum = 0;
            for (face, panel) in Face::ALL.into_iter().zip(&panels) {
                let outline = flat.panel(face, Fit::EXACT, Nm::ZERO).unwrap().expect("the box has this panel");
                sum += outline.twice_area();
                assert_eq!(vec![outline_points(outline)], shape_loops(panel.shape()), "{} {} {fingers:?}", shell.id, face.name());
            }
            assert_eq!(sum, shell.areas_doubled(), "{} {fingers:?} without heap", shell.id);
        }
    }
}
