//! Scaling all sizes by a whole number scales every vertex exactly.
//!
//! Only where no boundary is rounded: a count `n` puts boundary `i` at `round(i L / n)`, and `k round(x) = round(k x)` needs a whole `x`.
//! So every joint has a count here, and every coordinate is a multiple of all the counts.

use dryfit_core::{Failure, Fingers, Halves, Joint, Panel, Side};
use dryfit_tests::{Loops, Scene, Slab, config, nm, scenes, shape_loops};
use proptest::prelude::*;

/// A multiple of 2, 3, 5, 7 and 9.
const STEP: i64 = 2 * 5 * 7 * 9 * 1600;

fn joints(scene: &Scene, counts: &[u32], scale: i64) -> Vec<(usize, usize, Joint)> {
    let joint = |((a, b), &count): ((usize, usize), &u32)| {
        let (p, q) = (&scene.slabs[a], &scene.slabs[b]);
        // The least width is a size too: below it a piece beside a third board joins its neighbour.
        let fingers = Fingers::count(count).least(nm(scale * STEP));
        let joint = match (p.ends_at(q), q.ends_at(p)) {
            (false, false) => Halves::default().into(),
            (true, false) => fingers.first(Side::B).into(),
            _ => fingers.into(),
        };
        (a, b, joint)
    };
    scene.pairs().into_iter().zip(counts.iter().cycle()).map(joint).collect()
}

fn made(slabs: Vec<Slab>, joints: Vec<(usize, usize, Joint)>) -> Result<Vec<Loops>, Failure> {
    let panels = Scene { slabs, joints }.assembly()?.panels()?;
    Ok(panels.iter().map(Panel::shape).map(shape_loops).collect())
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn a_scaled_assembly_has_scaled_parts(scene in scenes(STEP), counts in prop::collection::vec(1..=9u32, 12), by in 2..=30i64) {
        let grown = |slab: &Slab| Slab { normal: slab.normal, lo: slab.lo.map(|c| by * c), hi: slab.hi.map(|c| by * c) };
        let plain = made(scene.slabs.clone(), joints(&scene, &counts, 1));
        // A drawn count may not fit a short run; then it must not fit the scaled run either.
        let large = made(scene.slabs.iter().map(grown).collect(), joints(&scene, &counts, by));
        prop_assert_eq!(plain.is_ok(), large.is_ok());
        prop_assume!(plain.is_ok());
        let plain = plain.expect("just asked");
        let scaled: Vec<Loops> = plain
            .iter()
            .map(|panel| panel.iter().map(|ring| ring.iter().map(|point| point.map(|c| by * c)).collect()).collect())
            .collect();
        prop_assert_eq!(large.expect("as the plain one"), scaled);
    }
}
