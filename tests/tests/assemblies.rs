//! Free assemblies, held against `vectors/assemblies.json`: plain outlines, and outlines with roles and mates.

use dryfit_core::{Assembly, Code, Failure, Panel};
use dryfit_tests::{Case, assembly, cases, shape_loops};

/// An edge's start, role and mate.
type Edge = (i64, i64, String, Option<String>);

fn made(case: &Case) -> Result<(Assembly, Vec<Panel>), Failure> {
    let assembly = assembly(case)?;
    let panels = assembly.panels()?;
    Ok((assembly, panels))
}

/// The code that stands for the oracle's word.
fn allowed(error: &str) -> &'static [Code] {
    match error {
        "same place" => &[Code::SamePlace],
        "blind" => &[Code::Blind],
        "meets nothing" => &[Code::MeetsNothing],
        "pattern" => &[Code::FingersDoNotFit, Code::TabsDoNotFit, Code::SplitOutsideRun, Code::RunTooShort],
        other => panic!("no error {other:?}"),
    }
}

fn wanted(ring: &Case) -> Vec<Edge> {
    let edge = |edge: &Case| {
        let Some([u, v, role, mate]) = edge.0.as_array().map(Vec::as_slice) else { panic!("u, v, role, mate: {}", edge.0) };
        (u.as_i64().expect("u"), v.as_i64().expect("v"), role.as_str().expect("role").into(), mate.as_str().map(String::from))
    };
    ring.list("raw").iter().map(edge).collect()
}

fn found(assembly: &Assembly, panel: &Panel) -> Vec<Vec<Edge>> {
    let name = |number: usize| assembly.boards()[number].name().to_string();
    let ring = |ring: &Vec<dryfit_core::Corner>| {
        let edges = ring.iter().map(|c| (c.at.x.nm(), c.at.y.nm(), c.role.name().to_string(), c.mate().map(name)));
        merged(edges.collect())
    };
    panel.rings().iter().map(ring).collect()
}

/// The core also keeps a corner where only the share of the allowance changes; the file does not.
fn merged(ring: Vec<Edge>) -> Vec<Edge> {
    let count = ring.len();
    let keeps = |i: usize| {
        let (before, now, next) = (&ring[(i + count - 1) % count], &ring[i], &ring[(i + 1) % count]);
        let straight = (before.0 == now.0 && now.0 == next.0) || (before.1 == now.1 && now.1 == next.1);
        !straight || (&before.2, &before.3) != (&now.2, &now.3)
    };
    (0..count).filter(|&i| keeps(i)).map(|i| ring[i].clone()).collect()
}

#[test]
fn panels_are_the_oracles() {
    let mut refused = 0;
    for case in cases("assemblies") {
        let name = case.text("name");
        if case.refused() {
            refused += 1;
            let failure = made(&case).map(|_| ()).expect_err(name);
            assert!(allowed(case.text("error")).contains(&failure.error.code), "{name}: {failure}");
            continue;
        }
        let (assembly, panels) = made(&case).unwrap_or_else(|error| panic!("{name}: {error}"));
        let boards = case.list("panels");
        assert_eq!(panels.len(), boards.len(), "{name}");
        for (panel, board) in panels.iter().zip(&boards) {
            let place = format!("{name} {}", panel.name());
            assert_eq!(panel.name(), board.text("name"), "{name}");
            let loops = board.list("loops");
            let clean: Vec<_> = loops.iter().map(|ring| ring.points("clean")).collect();
            assert_eq!(shape_loops(panel.shape()), clean, "{place}");
            assert_eq!(found(&assembly, panel), loops.iter().map(wanted).collect::<Vec<_>>(), "{place}");
            let area: i128 = board.text("area").parse().expect("an area in square nanometres");
            assert_eq!(panel.shape().twice_area(), 2 * area, "{place}");
        }
    }
    assert!(refused > 0, "no refused assembly among the cases");
}
