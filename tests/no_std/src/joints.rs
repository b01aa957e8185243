//! Patterns and profiles.

use dryfit_core::{Error, Fingers, Fit, Halves, Joint, Nm, Parity, Pattern, Profile, Ratio, Side, Tabs};

/// What a joint is asked for, in plain numbers.
#[repr(C)]
pub struct Asked {
    kind: u32,
    run: i64,
    thickness: i64,
    width: i64,
    spacing: i64,
    count: u32,
    least: i64,
    second_first: bool,
    depth: i64,
    flank: i64,
    cheek: i64,
    tip: i64,
    kerf: i64,
}

impl Asked {
    fn pattern(&self) -> Result<Pattern, Error> {
        let first = if self.second_first { Side::B } else { Side::A };
        let fingers = |fingers: Fingers| Ok::<_, Error>(fingers.first(first).least(Nm::new(self.least)?).into());
        let joint: Joint = match self.kind {
            0 => fingers(Fingers::count(self.count))?,
            1 => fingers(Fingers::width(Nm::new(self.width)?).parity(Parity::Odd))?,
            2 => fingers(Fingers::width(Nm::new(self.width)?).parity(Parity::Even))?,
            3 => fingers(Fingers::width(Nm::new(self.width)?).parity(Parity::Any))?,
            4 => Tabs::new(Nm::new(self.width)?, Nm::new(self.spacing)?).into(),
            5 => Tabs::new(Nm::new(self.width)?, Nm::new(self.spacing)?).end(Nm::new(self.least)?).into(),
            6 => Halves::split(Ratio::new(self.count, 1000)?).first(first).into(),
            7 => Fingers::default().into(),
            _ => Joint::Whole(first),
        };
        joint.pattern(Nm::new(self.run)?, Nm::new(self.thickness)?)
    }

    fn profile(&self, side: Side) -> Result<Profile, Error> {
        let fit = Fit::new(Nm::new(self.flank)?, Nm::new(self.cheek)?, Nm::new(self.tip)?)?;
        Profile::new(self.pattern()?, side, Nm::new(self.depth)?, fit, Nm::new(self.kerf)?)
    }
}

/// A sum over all spans, from both ends, and single boundaries.
#[unsafe(no_mangle)]
pub extern "C" fn proof_pattern(asked: &Asked) -> i64 {
    crate::status(asked.pattern().map(|pattern| {
        let forth = pattern.spans().fold(0i64, |sum, span| sum.wrapping_add(span.to.nm()).wrapping_mul(3));
        let back = pattern.spans().rev().fold(0i64, |sum, span| sum.wrapping_add(span.from.nm()).wrapping_mul(3));
        forth ^ back ^ pattern.boundary(asked.count).map_or(0, Nm::nm)
    }))
}

/// A sum over the vertices of both sides.
#[unsafe(no_mangle)]
pub extern "C" fn proof_profile(asked: &Asked) -> i64 {
    let sum = |side| {
        let vertices = asked.profile(side)?.vertices();
        Ok(vertices.fold(0i64, |sum, v| sum.wrapping_add(v.at.x.nm()).wrapping_mul(3).wrapping_add(v.at.y.nm())))
    };
    crate::status(sum(Side::A)) ^ crate::status(sum(Side::B))
}
