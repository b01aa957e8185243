//! One side of a joint as a polyline, held against `vectors/profiles.json`.

use dryfit_core::{Error, Nm, Profile};
use dryfit_tests::{Case, cases, fit, joint, nm, side};
use serde_json::Value;

fn made(case: &Case) -> Result<Profile, Error> {
    let pattern = joint(&Case(case.get("spec").clone()))?.pattern(nm(case.int("length")), Nm::ZERO)?;
    Profile::new(pattern, side(case.text("side")), nm(case.int("depth")), fit(case), nm(case.int("kerf")))
}

fn expected(vertex: &Value) -> (i64, i64, Option<String>) {
    let Some([x, y, role]) = vertex.as_array().map(Vec::as_slice) else { panic!("a vertex is x, y, role: {vertex}") };
    (x.as_i64().expect("x"), y.as_i64().expect("y"), role.as_str().map(String::from))
}

#[test]
fn vertices_and_roles_are_the_oracles() {
    let mut refused = 0;
    for case in cases("profiles") {
        let profile = made(&case);
        if case.refused() {
            refused += 1;
            assert!(profile.is_err(), "must be refused: {}", case.0);
            continue;
        }
        let profile = profile.unwrap_or_else(|error| panic!("{error}: {}", case.0));
        let wanted: Vec<_> = case.list("vertices").iter().map(|vertex| expected(&vertex.0)).collect();
        let count = profile.vertices().len();
        let mut found: Vec<_> = profile.vertices().map(|v| (v.at.x.nm(), v.at.y.nm(), Some(v.role.name().to_string()))).collect();
        // No edge leaves the last vertex: null in the file, free here.
        if let Some(last) = found.last_mut() {
            assert_eq!(last.2.take().as_deref(), Some("free"), "{}", case.0);
        }
        assert_eq!(found, wanted, "{}", case.0);
        assert_eq!(count, wanted.len(), "{}", case.0);
    }
    assert!(refused > 0, "no refused profile among the cases");
}
