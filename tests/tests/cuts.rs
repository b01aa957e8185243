//! Parts with allowances and kerf, held against `vectors/cuts.json`.

use std::collections::HashMap;

use dryfit_core::{Cutter, Face, Nm, Panel, Parts};
use dryfit_tests::{Case, assembly, box_spec, cases, fit, flat_box, nm, outline_points, shape_loops};

/// The case of a name in another vector file.
fn sources() -> HashMap<(String, String), Case> {
    let named = |file: &'static str| cases(file).into_iter().map(move |case| ((file.to_string(), case.text("name").to_string()), case));
    named("boxes").chain(named("assemblies")).collect()
}

fn panels(file: &str, source: &Case) -> Vec<Panel> {
    let assembly = if file == "boxes" { box_spec(source).assembly() } else { assembly(source) };
    assembly.and_then(|assembly| assembly.panels()).unwrap_or_else(|error| panic!("{file} {}: {error}", source.text("name")))
}

#[test]
fn paths_are_the_oracles() {
    let sources = sources();
    for case in cases("cuts") {
        let (file, name) = (case.text("file"), case.text("name"));
        let source = &sources[&(file.to_string(), name.to_string())];
        let panels = panels(file, source);
        let cutter = Cutter::beam(nm(case.int("kerf"))).unwrap();
        let parts = Parts::cut(&panels, cutter, fit(&case), Nm::ZERO).unwrap_or_else(|error| panic!("{file} {name}: {error}"));
        let boards = case.list("boards");
        assert_eq!(parts.iter().count(), boards.len(), "{file} {name}");
        for (part, board) in parts.iter().zip(&boards) {
            assert_eq!(part.name(), board.text("name"), "{file} {name}");
            assert_eq!(shape_loops(part.path()), board.loops("loops"), "{file} {name} {}", part.name());
        }
    }
}

#[test]
fn paths_without_heap_are_the_oracles() {
    let sources = sources();
    let mut compared = 0;
    for case in cases("cuts").iter().filter(|case| case.text("file") == "boxes") {
        let name = case.text("name");
        let Some(flat) = flat_box(&sources[&("boxes".to_string(), name.to_string())]) else { continue };
        for (face, board) in Face::ALL.into_iter().zip(case.list("boards")) {
            let outline = flat.panel(face, fit(case), nm(case.int("kerf"))).unwrap().expect("the box has this panel");
            assert_eq!(vec![outline_points(outline)], board.loops("loops"), "{name} {}", face.name());
            compared += 1;
        }
    }
    assert!(compared > 0, "no cut box without dividers among the cases");
}
