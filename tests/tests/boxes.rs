//! Boxes as assemblies and without heap, held against `vectors/boxes.json`.

use dryfit_core::{Face, Fit, Nm};
use dryfit_tests::{box_spec, cases, flat_box, outline_points, shape_loops};

#[test]
fn panels_of_the_assembly_are_the_oracles() {
    for case in cases("boxes") {
        let name = case.text("name");
        let panels = box_spec(&case).assembly().and_then(|a| a.panels()).unwrap_or_else(|error| panic!("{name}: {error}"));
        let boards = case.list("boards");
        assert_eq!(panels.len(), boards.len(), "{name}");
        for (panel, board) in panels.iter().zip(&boards) {
            assert_eq!(panel.name(), board.text("name"), "{name}");
            assert_eq!(shape_loops(panel.shape()), board.loops("loops"), "{name} {}", panel.name());
            let area: i128 = board.text("area").parse().expect("an area in square nanometres");
            assert_eq!(panel.shape().twice_area(), 2 * area, "{name} {}", panel.name());
        }
    }
}

#[test]
fn outlines_without_heap_are_the_oracles() {
    let mut compared = 0;
    for case in cases("boxes") {
        let (name, Some(flat)) = (case.text("name"), flat_box(&case)) else { continue };
        let boards = case.list("boards");
        assert_eq!(Face::ALL.into_iter().filter(|&face| flat.has(face)).count(), boards.len(), "{name}");
        for (face, board) in Face::ALL.into_iter().zip(&boards) {
            let outline = flat.panel(face, Fit::EXACT, Nm::ZERO).unwrap().expect("the box has this panel");
            assert_eq!(face.name(), board.text("name"), "{name}");
            let (count, twice_area) = (outline.len(), outline.twice_area());
            let found = vec![outline_points(outline)];
            assert_eq!(found, board.loops("loops"), "{name} {}", face.name());
            assert_eq!(count, found[0].len(), "{name}");
            assert_eq!(twice_area, 2 * board.text("area").parse::<i128>().expect("an area"), "{name} {}", face.name());
            compared += 1;
        }
    }
    assert!(compared > 0, "no box without dividers among the cases");
}
