use std::vec::Vec;

use super::*;
use crate::bounds::MM;

const T: Nm = Nm::raw(3 * MM);

fn blade() -> Cutter {
    Cutter::blade(Nm::ZERO, Nm::raw(250_000)).unwrap()
}

fn bit() -> Cutter {
    Cutter::bit(Nm::raw(2 * MM)).unwrap()
}

fn beam() -> Cutter {
    Cutter::beam(Nm::raw(180_000)).unwrap()
}

fn depths(spec: PassSpec, cutter: Cutter) -> Vec<i64> {
    spec.passes(cutter, T).unwrap().iter().map(|pass| pass.depth.nm()).collect()
}

fn refused(spec: PassSpec, cutter: Cutter) -> std::string::String {
    std::string::ToString::to_string(&spec.passes(cutter, T).unwrap_err())
}

#[test]
fn depths_grow_evenly_to_the_whole() {
    assert_eq!(depths(PassSpec::default(), blade()), [3 * MM]);
    assert_eq!(depths(PassSpec { count: Some(4), ..PassSpec::default() }, blade()), [750_000, 1_500_000, 2_250_000, 3_000_000]);
    // 0.7 mm a pass takes five through 3 mm.
    assert_eq!(
        depths(PassSpec { step: Some(Nm::raw(700_000)), ..PassSpec::default() }, blade()),
        [600_000, 1_200_000, 1_800_000, 2_400_000, 3_000_000]
    );
    // Half the diameter a pass, through the board and a bit more: 3.2 mm by 1 mm.
    let deeper = PassSpec { depth: Some(Nm::raw(3_200_000)), ..PassSpec::default() };
    assert_eq!(depths(deeper, bit()), [800_000, 1_600_000, 2_400_000, 3_200_000]);
}

#[test]
fn a_pass_begins_where_the_one_before_it_ended() {
    let spec = PassSpec { count: Some(3), light: Some(Nm::raw(200_000)), ..PassSpec::default() };
    let passes = spec.passes(bit(), T).unwrap();
    assert_eq!(passes.iter().map(|pass| pass.from.nm()).collect::<Vec<_>>(), [0, 200_000, 1_000_000, 2_000_000]);
    assert_eq!(passes.iter().map(|pass| pass.depth.nm()).collect::<Vec<_>>(), [200_000, 1_000_000, 2_000_000, 3_000_000]);
}

#[test]
fn a_beam_repeats_with_its_power() {
    let spec = PassSpec { count: Some(2), power: Some(800 * MM), light_power: Some(100 * MM), ..PassSpec::default() };
    let passes = spec.passes(beam(), T).unwrap();
    assert_eq!(passes.iter().map(|pass| (pass.depth, pass.power)).collect::<Vec<_>>(), [100 * MM, 800 * MM, 800 * MM].map(|power| (Nm::ZERO, power)));
}

#[test]
fn bad_passes_are_refused_by_name_and_range() {
    let spec = PassSpec::default();
    assert_eq!(refused(PassSpec { count: Some(0), ..spec }, blade()), "passes: 0 given, allowed 1 to 1000");
    assert_eq!(refused(PassSpec { count: Some(0), ..spec }, beam()), "passes: 0 given, allowed 1 to 1000");
    assert_eq!(refused(PassSpec { depth: Some(Nm::raw(8 * MM + 1)), ..spec }, bit()), "depth: 8.000001 mm given, allowed 3 mm to 8 mm");
    assert_eq!(refused(PassSpec { depth: Some(Nm::raw(2 * MM)), ..spec }, blade()), "depth: 2 mm given, allowed 3 mm to 8 mm");
    assert_eq!(refused(PassSpec { step: Some(Nm::ZERO), ..spec }, blade()), "step: 0 mm given, allowed 0.003 mm to 200 mm");
    assert_eq!(refused(PassSpec { step: Some(Nm::raw(1)), ..spec }, blade()), "step: 0.000001 mm given, allowed 0.003 mm to 200 mm");
    assert_eq!(depths(PassSpec { step: Some(Nm::raw(3_000)), ..spec }, blade()).len(), 1000);
    assert_eq!(refused(spec, Cutter::bit(Nm::raw(1_000)).unwrap()), "step: 0.0005 mm given, allowed 0.003 mm to 200 mm");
    assert_eq!(
        refused(PassSpec { light: Some(Nm::raw(MM)), count: Some(3), ..spec }, blade()),
        "light: 1 mm given, allowed 0.000001 mm to 0.999999 mm"
    );
    assert_eq!(refused(PassSpec { light_power: Some(2 * MM), power: Some(MM), ..spec }, beam()), "light power: 2 given, allowed 0 to 1");
    assert!(refused(PassSpec { power: Some(0), ..spec }, blade()).starts_with("power: the tool"));
    assert!(refused(PassSpec { depth: Some(T), ..spec }, beam()).starts_with("depth: the tool"));
    assert!(refused(PassSpec { step: Some(T), count: Some(1), ..spec }, bit()).starts_with("step: either"));
    assert_eq!(PassSpec { order: Some(PassOrder::Line), pause: true, ..spec }.order().unwrap_err().code, Code::PauseInLine);
    assert_eq!(PassSpec { pause: true, ..spec }.order(), Ok(PassOrder::Sheet));
}
