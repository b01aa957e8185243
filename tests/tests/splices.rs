//! Boards of one plane that overlap end to end, held against `vectors/splices.json`: nominal outlines, paths, finished outlines.

use dryfit_core::{Assembly, Code, Cutter, Failure, Fit, Nm, Panel, Parts, RingSpec, SpliceSpec, dry_fit, dry_fit_parts};
use dryfit_tests::{Case, assembly, cases, nm, shape_loops, slope, tails};

fn made(case: &Case) -> Result<Assembly, Failure> {
    let mut made = assembly(case)?;
    for key in case.list("keys") {
        let between = key.list("between");
        let [Some(p), Some(q)] = [0, 1].map(|k| between[k].0.as_str()) else { panic!("two names: {}", key.0) };
        made.key(key.text("name"), [p, q], [nm(key.int("length")), nm(key.int("width"))], nm(key.int("at")), slope(&key)?)?;
    }
    Ok(made)
}

/// The same boards by the recipe that makes them.
fn by_recipe(recipe: &Case) -> Result<Vec<Panel>, Failure> {
    let (width, thickness, joint) = (nm(recipe.int("width")), nm(recipe.int("thickness")), tails(&Case(recipe.get("joint").clone()))?);
    let depth = recipe.find("depth").map(|_| nm(recipe.int("depth")));
    let boards = match recipe.text("make") {
        "splice" => {
            let spec = SpliceSpec::new([nm(recipe.int("length")), width], thickness, joint).pieces(recipe.int("pieces").try_into().unwrap());
            depth.map_or(spec, |depth| spec.depth(depth)).assembly()?
        }
        "ring" => {
            let outside = recipe.ints("outside");
            let spec = RingSpec::new([nm(outside[0]), nm(outside[1])], width, thickness, joint);
            depth.map_or(spec, |depth| spec.depth(depth)).assembly()?
        }
        other => panic!("no recipe {other:?}"),
    };
    boards.panels()
}

#[test]
fn outlines_are_the_oracles() {
    let (mut refused, mut recipes, mut keys) = (0, 0, 0);
    for case in cases("splices") {
        let name = case.text("name");
        let panels = made(&case).and_then(|made| made.panels());
        if case.refused() {
            refused += 1;
            let error = panels.expect_err(name).error;
            let parameter = if case.text("error") == "flanks meet" { "slope times depth" } else { "pin width" };
            assert_eq!((error.code, error.parameter), (Code::FingersDoNotFit, parameter), "{name}");
            continue;
        }
        let panels = panels.unwrap_or_else(|error| panic!("{name}: {error}"));
        if case.find("recipe").is_some() {
            recipes += 1;
            let again = by_recipe(&Case(case.get("recipe").clone())).unwrap_or_else(|error| panic!("{name}: {error}"));
            assert_eq!(again, panels, "{name}");
        }
        keys += case.list("keys").len();
        let report = dry_fit(&panels);
        assert!(report.ok() && report.void_volume == 0, "{name}: {:?}", report.problems);
        let flank = case.int("flank");
        let fit = Fit::new(nm(flank), Nm::ZERO, Nm::ZERO).unwrap();
        let parts = Parts::cut(&panels, Cutter::beam(nm(case.int("kerf"))).unwrap(), fit, Nm::ZERO).unwrap_or_else(|error| panic!("{name}: {error}"));
        let boards = case.list("panels");
        assert_eq!(panels.len(), boards.len(), "{name}");
        for ((panel, part), board) in panels.iter().zip(parts.iter()).zip(&boards) {
            let place = format!("{name} {}", panel.name());
            assert_eq!(panel.name(), board.text("name"), "{place}");
            assert_eq!(shape_loops(panel.shape()), [board.points("loop")], "{place}");
            assert_eq!(shape_loops(part.path()), [board.points("path")], "{place}, path");
            assert_eq!(shape_loops(part.finished()), [board.points("finished")], "{place}, finished");
        }
        let report = dry_fit_parts(&parts);
        assert_eq!(report.overlap_volume > 0, flank < 0, "{name}: {report:?}");
        // Each of two edges that face each other has two rounded ends.
        assert!((report.gap_min.nm() - flank).abs() <= 2 && (report.gap_max.nm() - flank).abs() <= 2, "{name}: {report:?}");
    }
    assert!(refused > 5 && recipes >= 8 && keys >= 8, "{refused} refused, {recipes} recipes, {keys} keys");
}
