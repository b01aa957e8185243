//! Corner dovetails, held against `vectors/dovetails.json`.

use dryfit_core::{DovetailCorner, DovetailLayout, DovetailWarning, Error, Fit, LayoutLine, Nm, Ratio, Stroke, Surface};
use dryfit_tests::{Case, cases, nm};

fn made(case: &Case) -> Result<DovetailLayout, Error> {
    let [rise, run] = case.ints("slope")[..] else { panic!("a slope is two numbers") };
    let count = case.int("count").try_into().unwrap();
    let slope = Ratio::new(rise.try_into().unwrap(), run.try_into().unwrap())?;
    let mut corner = DovetailCorner::new(nm(case.int("width")), nm(case.int("tail_board")), nm(case.int("pin_board")), count, slope);
    if case.find("socket").is_some() {
        corner = corner.socket(nm(case.int("socket")));
    }
    if case.find("lap").is_some() {
        corner = corner.lapped(nm(case.int("lap")));
    }
    corner.gauge(nm(case.int("gauge"))).layout()
}

const fn word(warning: DovetailWarning) -> &'static str {
    match warning {
        DovetailWarning::SlopeSteep(_) => "steep",
        DovetailWarning::SlopeFlat(_) => "flat",
        DovetailWarning::TailOverFourSockets { .. } => "four sockets",
        DovetailWarning::TailWide(_) => "wide",
        DovetailWarning::PinNarrow(_) => "narrow pin",
        _ => "unknown",
    }
}

/// Lines of one kind on one surface as x, y, x, y.
fn lines(layout: &DovetailLayout, surface: Surface, stroke: Stroke) -> Vec<[i64; 4]> {
    let wanted = |line: &LayoutLine| line.surface == surface && line.stroke == stroke;
    layout.lines().filter(wanted).map(|line| [line.from.x, line.from.y, line.to.x, line.to.y].map(Nm::nm)).collect()
}

#[test]
fn lines_and_warnings_are_the_oracles() {
    let (mut refused, mut warned) = (0, 0);
    for case in cases("dovetails") {
        let layout = made(&case);
        if case.refused() {
            refused += 1;
            assert!(layout.is_err(), "must be refused: {}", case.0);
            continue;
        }
        let layout = layout.unwrap_or_else(|error| panic!("{error}: {}", case.0));
        let (base, end, outer) = (case.ints("base"), case.ints("end"), case.ints("outer"));
        let (width, deep) = (case.int("width"), case.int("socket_depth"));
        let (tails, pins) = (case.int("tail_length"), case.int("pin_length"));
        let lapped = case.find("lap").is_some();
        let joined = |from: &[i64], to: &[i64], y: [i64; 2]| -> Vec<_> { from.iter().zip(to).map(|(&a, &b)| [a, y[0], b, y[1]]).collect() };
        for face in [Surface::TailOuter, Surface::TailInner] {
            assert_eq!(lines(&layout, face, Stroke::Flank), joined(&base, &end, [tails, 0]), "{}", case.0);
            assert_eq!(lines(&layout, face, Stroke::Baseline), [[0, tails, width, tails]], "{}", case.0);
        }
        assert_eq!(lines(&layout, Surface::TailEnd, Stroke::Flank), joined(&end, &end, [0, case.int("tail_board")]), "{}", case.0);
        assert_eq!(lines(&layout, Surface::PinEnd, Stroke::Flank), joined(&base, &outer, [0, deep]), "{}", case.0);
        assert_eq!(lines(&layout, Surface::PinInner, Stroke::Flank), joined(&base, &base, [pins, 0]), "{}", case.0);
        assert_eq!(lines(&layout, Surface::PinInner, Stroke::Baseline), [[0, pins, width, pins]], "{}", case.0);
        let shown = if lapped { Vec::new() } else { joined(&outer, &outer, [pins, 0]) };
        assert_eq!(lines(&layout, Surface::PinOuter, Stroke::Flank), shown, "{}", case.0);
        let lap = if lapped { vec![[0, deep, width, deep]] } else { Vec::new() };
        assert_eq!(lines(&layout, Surface::PinEnd, Stroke::Lap), lap, "{}", case.0);
        // The outline runs through the same stations.
        let corners: Vec<_> = layout.tail_profile(Fit::EXACT, Nm::ZERO).unwrap().vertices().map(|v| (v.at.x.nm(), v.at.y.nm())).collect();
        let mut wanted = vec![(0, tails)];
        for (i, (&base, &end)) in base.iter().zip(&end).enumerate() {
            wanted.extend(if i % 2 == 0 { [(base, tails), (end, 0)] } else { [(end, 0), (base, tails)] });
        }
        wanted.push((width, tails));
        assert_eq!(corners, wanted, "{}", case.0);
        let said: Vec<_> = layout.warnings().map(word).collect();
        let texts = case.list("warnings");
        assert_eq!(said, texts.iter().map(|text| text.0.as_str().unwrap()).collect::<Vec<_>>(), "{}", case.0);
        warned += said.len();
    }
    assert!(refused > 20 && warned > 50, "{refused} refused, {warned} warnings");
}
