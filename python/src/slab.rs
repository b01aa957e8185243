//! A board as `Assembly.add` is told of it: its full slab.

use dryfit_core::bounds::{LENGTH, SIZE};
use dryfit_core::{Angle, Axis, Code, Failure, Nm};
use pyo3::prelude::*;

use crate::door::{self, Maybe};
use crate::record::{Call, Given, Named};
use crate::refusal::Refusal;
use crate::stock::Stock;

const AXES: [(&str, Axis); 3] = [("x", Axis::X), ("y", Axis::Y), ("z", Axis::Z)];

/// What was said of a slab.
pub(crate) struct Slab {
    name: String,
    normal: (&'static str, Axis),
    at: [Nm; 3],
    size: [Nm; 2],
    /// Its own, where it has one.
    stock: Option<Stock>,
    turn: Option<Angle>,
    about: Option<(&'static str, Axis)>,
}

impl Slab {
    #[allow(clippy::too_many_arguments, reason = "named in Python")]
    pub(crate) fn read(
        name: &Bound<'_, PyAny>,
        normal: &Bound<'_, PyAny>,
        at: &Bound<'_, PyAny>,
        size: &Bound<'_, PyAny>,
        stock: Maybe<'_, '_>,
        turn: Maybe<'_, '_>,
        about: Maybe<'_, '_>,
    ) -> PyResult<Slab> {
        let slab = Slab {
            name: door::text(name, "name")?,
            normal: door::word(normal, &AXES, "normal")?,
            at: door::lengths(at, &LENGTH, "at")?,
            size: door::lengths(size, &SIZE, "size")?,
            stock: door::given(stock).map(|stock| Stock::from_python(stock, "stock")).transpose()?,
            about: door::given(about).map(|about| door::word(about, &AXES, "about")).transpose()?,
            turn: door::given(turn).map(|turn| door::angle(turn, "turn")).transpose()?,
        };
        if slab.turn.is_none() && slab.about.is_some() {
            return Err(Refusal::new(Code::MissingKey, "turn", "missing, allowed a number of degrees beside about").into());
        }
        Ok(slab)
    }

    /// The call that says the same.
    pub(crate) fn call(&self) -> Call {
        let named = Named::default().with("normal", Given::Word(self.normal.0)).with("at", Given::Lengths(self.at.to_vec()));
        let named = named.with("size", Given::Lengths(self.size.to_vec())).may("stock", self.stock.map(Given::Stock));
        let named = named.may("turn", self.turn.map(|turn| Given::Degrees(turn.as_degrees())));
        let named = named.may("about", self.about.map(|(word, _)| Given::Word(word)));
        Call { name: "add", plain: vec![Given::Text(self.name.clone())], named }
    }

    /// Puts it among the boards of an assembly; `usual` is the stock of those that have none of their own.
    pub(crate) fn add(&self, assembly: &mut dryfit_core::Assembly, usual: Stock) -> Result<(), Failure> {
        let Slab { name, normal: (_, normal), at, size, .. } = self;
        let thickness = self.stock.unwrap_or(usual).core.thickness();
        let added = match self.turn {
            None => assembly.add(name, *normal, *at, *size, thickness),
            Some(turn) => assembly.add_turned(name, *normal, *at, *size, thickness, (self.about.map_or(Axis::Z, |(_, axis)| axis), turn)),
        };
        added.map(drop)
    }
}
