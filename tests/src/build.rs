//! Boards, joints and boxes from a case's words.

use dryfit_core::{Assembly, Axis, BoxSpec, Error, Failure, Fingers, Fit, FlatBox, Half, Halves, Joint, Nm, Parity, Ratio, Side, Tabs, Tails, Top};

use crate::Case;

/// A length in nanometres that lies within the limits.
pub fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap_or_else(|error| panic!("{value} nm: {error}"))
}

/// `"A"` or `"B"`.
pub fn side(text: &str) -> Side {
    match text {
        "A" => Side::A,
        "B" => Side::B,
        other => panic!("no side {other:?}"),
    }
}

/// The joint of a `spec`; keys that are left out get the defaults of the rules.
///
/// # Errors
/// A value outside its range; the oracle may refuse the same case.
pub fn joint(spec: &Case) -> Result<Joint, Error> {
    let first = side(spec.find("first").map_or("A", |_| spec.text("first")));
    Ok(match spec.text("kind") {
        "fingers" => Joint::Fingers(fingers(spec, first)?),
        "tabs" => {
            let tabs = Tabs::new(Nm::new(spec.int("width"))?, Nm::new(spec.int("spacing"))?);
            Joint::Tabs(if spec.find("end").is_some() { tabs.end(Nm::new(spec.int("end"))?) } else { tabs })
        }
        "halves" => {
            let split = spec.find("split").map_or(Ok(Ratio::HALF), |_| match spec.ints("split")[..] {
                [p, q] => Ratio::new(p.try_into().unwrap(), q.try_into().unwrap()),
                _ => panic!("a split is two numbers"),
            })?;
            Joint::Halves(Halves::split(split).first(first))
        }
        "whole" => Joint::Whole(first),
        "tails" => Joint::Tails(tails(spec)?),
        other => panic!("no joint {other:?}"),
    })
}

/// The tails of a `spec`.
///
/// # Errors
/// A value outside its range.
pub fn tails(spec: &Case) -> Result<Tails, Error> {
    let half = match spec.text("half") {
        "pins" => Half::Pins,
        "tails" => Half::Tails,
        other => panic!("no half {other:?}"),
    };
    let tails = Tails::new(spec.int("count").try_into().unwrap(), slope(spec)?).half(half);
    Ok(if spec.find("pin").is_some() { tails.pin_width(Nm::new(spec.int("pin"))?) } else { tails })
}

/// Rise and run.
///
/// # Errors
/// A term outside its range.
pub fn slope(case: &Case) -> Result<Ratio, Error> {
    match case.ints("slope")[..] {
        [rise, run] => Ratio::new(rise.try_into().unwrap(), run.try_into().unwrap()),
        _ => panic!("a slope is two numbers"),
    }
}

fn fingers(spec: &Case, first: Side) -> Result<Fingers, Error> {
    let fingers = if spec.find("count").is_some() {
        Fingers::count(spec.int("count").try_into().unwrap_or(u32::MAX))
    } else {
        Fingers::width(Nm::new(spec.int("width"))?)
    };
    let parity = match spec.find("parity").map_or("odd", |_| spec.text("parity")) {
        "odd" => Parity::Odd,
        "even" => Parity::Even,
        "any" => Parity::Any,
        other => panic!("no parity {other:?}"),
    };
    let fingers = fingers.parity(parity).first(first);
    Ok(if spec.find("least").is_some() { fingers.least(Nm::new(spec.int("least"))?) } else { fingers })
}

/// The allowances of a case.
pub fn fit(case: &Case) -> Fit {
    Fit::new(nm(case.int("flank")), nm(case.int("cheek")), nm(case.int("tip"))).unwrap()
}

/// A box as a recipe of boards.
pub fn box_spec(case: &Case) -> BoxSpec {
    let mut spec = BoxSpec::outside(size(case), nm(case.int("thickness")));
    spec.top = match case.text("top") {
        "lift-off" => Top::LiftOff { clearance: nm(case.int("clearance")) },
        "sliding" => Top::Sliding { clearance: nm(case.int("clearance")) },
        _ if closed(case) => Top::Closed,
        _ => Top::Open,
    };
    spec.shelves = case.find("shelves").map_or(Vec::new(), |_| case.ints("shelves").into_iter().map(nm).collect());
    spec.feet = case.find("feet").map(|_| nm(case.int("feet")));
    spec.fingers = case.find("finger_width").map(|_| Fingers::width(nm(case.int("finger_width"))));
    spec.dividers = match case.ints("dividers")[..] {
        [x, y] => [x.try_into().unwrap(), y.try_into().unwrap()],
        _ => panic!("dividers are two numbers"),
    };
    spec
}

/// The same box without heap, if it has walls alone.
pub fn flat_box(case: &Case) -> Option<FlatBox> {
    if case.ints("dividers") != [0, 0] || ["clearance", "shelves", "feet"].iter().any(|key| case.find(key).is_some()) {
        return None;
    }
    let fingers = case.find("finger_width").map_or(Fingers::default(), |_| Fingers::width(nm(case.int("finger_width"))));
    Some(FlatBox::new(size(case), nm(case.int("thickness")), closed(case), fingers).unwrap_or_else(|error| panic!("{}: {error}", case.text("name"))))
}

fn size(case: &Case) -> [Nm; 3] {
    match case.ints("size")[..] {
        [x, y, z] => [nm(x), nm(y), nm(z)],
        _ => panic!("a size is three numbers"),
    }
}

fn closed(case: &Case) -> bool {
    match case.text("top") {
        "closed" => true,
        "open" => false,
        other => panic!("no top {other:?}"),
    }
}

/// The boards and joints of a free assembly.
///
/// # Errors
/// What the assembly refuses; the oracle may refuse the same case.
pub fn assembly(case: &Case) -> Result<Assembly, Failure> {
    let mut assembly = Assembly::new();
    for board in case.list("boards") {
        let normal = match board.text("normal") {
            "x" => Axis::X,
            "y" => Axis::Y,
            "z" => Axis::Z,
            other => panic!("no axis {other:?}"),
        };
        let (at, size) = (board.ints("at"), board.ints("size"));
        let (&[x, y, z], &[w, h]) = (&at[..], &size[..]) else { panic!("at is three numbers, size two: {}", board.0) };
        assembly.add(board.text("name"), normal, [nm(x), nm(y), nm(z)], [nm(w), nm(h)], nm(board.int("thickness")))?;
    }
    for asked in case.list("joints") {
        let [p, q, spec] = &asked.0.as_array().expect("a joint is a list")[..] else { panic!("a joint is two boards and a spec") };
        assembly.joint(p.as_str().expect("a name"), q.as_str().expect("a name"), joint(&Case(spec.clone()))?)?;
    }
    Ok(assembly)
}
