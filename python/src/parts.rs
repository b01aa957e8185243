//! `Parts`: the parts of one or several pieces.

use std::collections::HashSet;

use dryfit_core::bounds::{SIZE, THICKNESS};
use dryfit_core::{Code, Item, LayoutSpec, Nm, Point, Shape};
use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use pyo3::types::{PyIterator, PyList};

use crate::door;
use crate::lay_out::{self, Listener};
use crate::layout::Layout;
use crate::part::Part;
use crate::refusal::Refusal;
use crate::report::Report;

/// A job: parts by name, in order, to be cut with one or several sheets. Made by ``Assembly.cut``; ``+`` joins two jobs.
///
/// It reads like a dict from names to ``Part``. Of equal names the later gets a number: front, then front-2.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> piece = box(outside=(110, 85, 60), stock=stock)
/// >>> parts = piece.cut(cutter=Cutter.beam(kerf=0.18), fit=Fit(cheek=0.1))
/// >>> list(parts)
/// ['front', 'back', 'left', 'right', 'base', 'top']
/// >>> parts.dry_fit().ok
/// True
/// >>> list(parts + parts)[-1]
/// 'top-2'
#[pyclass(frozen, eq, mapping, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parts {
    core: dryfit_core::Parts,
    /// One for each part, all different.
    names: Vec<String>,
}

impl Parts {
    /// All parts of a piece; `label` goes before their names.
    pub(crate) fn of(core: dryfit_core::Parts, label: Option<&str>) -> Parts {
        let name = |part: &dryfit_core::Part| label.map_or_else(|| part.name().to_owned(), |label| format!("{label} {}", part.name()));
        let names = core.iter().map(name).collect();
        Parts { core, names }
    }

    /// Names and parts, in order.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (&str, &dryfit_core::Part)> {
        self.names.iter().map(String::as_str).zip(self.core.iter())
    }

    /// The tools of all pieces but plain parts, which have none.
    pub(crate) fn cutters(&self) -> impl Iterator<Item = dryfit_core::Cutter> {
        let made = |piece: &&dryfit_core::Piece| piece.parts().iter().any(|part| part.board().is_some());
        self.core.pieces().iter().filter(made).map(dryfit_core::Piece::cutter)
    }

    /// What is laid out.
    pub(crate) fn wanted(&self) -> Vec<Item<'_>> {
        let items = Item::of(&self.core).into_iter();
        items.zip(&self.names).map(|(item, name)| Item { name, ..item }).collect()
    }
}

#[pymethods]
impl Parts {
    fn __len__(&self) -> usize {
        self.names.len()
    }

    fn __contains__(&self, name: &Bound<'_, PyAny>) -> bool {
        name.extract::<String>().is_ok_and(|name| self.names.contains(&name))
    }

    fn __getitem__(&self, name: &Bound<'_, PyAny>) -> PyResult<Part> {
        let wanted: String = name.extract().map_err(|_| PyKeyError::new_err(name.clone().unbind()))?;
        let found = self.iter().find(|(name, _)| *name == wanted);
        found.map(|(name, part)| Part::new(name, part)).ok_or_else(|| PyKeyError::new_err(wanted))
    }

    fn __iter__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyIterator>> {
        PyList::new(py, &self.names)?.try_iter()
    }

    /// The names, in order.
    fn keys(&self) -> Vec<&str> {
        self.names.iter().map(String::as_str).collect()
    }

    /// The parts, in order.
    fn values(&self) -> Vec<Part> {
        self.iter().map(|(name, part)| Part::new(name, part)).collect()
    }

    /// Pairs of name and part, in order.
    fn items(&self) -> Vec<(&str, Part)> {
        self.iter().map(|(name, part)| (name, Part::new(name, part))).collect()
    }

    /// The part of a name, or ``default``.
    #[pyo3(signature = (name, default = None, /))]
    fn get<'py>(&self, py: Python<'py>, name: &Bound<'py, PyAny>, default: Option<Bound<'py, PyAny>>) -> PyResult<Option<Bound<'py, PyAny>>> {
        match self.__getitem__(name) {
            Ok(part) => Ok(Some(Py::new(py, part)?.into_bound(py).into_any())),
            Err(_) => Ok(default),
        }
    }

    fn __add__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
        let Ok(other) = other.cast::<Parts>() else { return Ok(other.py().NotImplemented()) };
        let py = other.py();
        let other = other.get();
        let mut names = self.names.clone();
        let mut taken: HashSet<String> = names.iter().cloned().collect();
        for name in &other.names {
            let numbered = std::iter::once(name.clone()).chain((2_u32..).map(|n| format!("{name}-{n}")));
            let free = numbered.into_iter().find(|name| !taken.contains(name)).unwrap_or_default();
            taken.insert(free.clone());
            names.push(free);
        }
        let core = self.core.clone().join(other.core.clone());
        Ok(Py::new(py, Parts { core, names })?.into_any())
    }

    /// The dry fit of what comes off the cutter, piece by piece: the kerf is taken off, and gaps may be what the fit asked for.
    fn dry_fit(&self, py: Python<'_>) -> Report {
        Report { core: py.detach(|| dryfit_core::dry_fit_parts(&self.core)) }
    }

    /// Lays the parts out on as many sheets of ``stock`` as they need; a list of ``Stock`` where thicknesses differ or offcuts come first.
    ///
    /// Each part goes on sheets of exactly its thickness. Stocks are used in the order given, so far as their ``count`` reaches; then the
    /// fewest sheets count, then the largest offcut that is left. Borders stay free, and so does the gap between two parts.
    ///
    /// ``share_cuts``: parts may interlock, finger into notch, where one cut can be the edge of both; nothing else is cut twice then.
    /// ``turns``: parts may be turned by quarters, as the grain allows; else they lie as they are drawn. ``flips``: they may lie mirrored.
    /// ``together``: the parts of a piece keep to as few sheets as they can. ``grain``: how it runs on the parts as they are drawn, "x",
    /// "y" or "any", for all or by name; it counts on stock that has one, and is "x" unless told otherwise.
    /// ``seed``: where the search starts; the same seed gives the same layout, unless a clock ends the search: ``seconds``.
    /// ``progress``: called now and then with what is done, 0.0 to 1.0; when it returns False, the best so far is the layout.
    ///
    /// Parts for which no sheet was left stand in ``Layout.unplaced``.
    ///
    /// Raises ``LargerThanSheet``, ``WrongThickness`` (no stock of the part's thickness), ``OutOfRange``, ``WrongType``.
    ///
    /// >>> cards = Parts.rectangles([(60, 40)] * 5)
    /// >>> layout = cards.lay_out([Stock(thickness=1, sheet=(100, 70), count=1), Stock(thickness=1, sheet=(200, 150))])
    /// >>> [(sheet.stock.sheet, len(sheet.placements)) for sheet in layout.sheets], layout.unplaced
    /// ([((100.0, 70.0), 2), ((200.0, 150.0), 3)], [])
    #[pyo3(signature = (stock, /, *, share_cuts = None, turns = None, flips = None, together = None, grain = None, seed = None, seconds = None, progress = None))]
    #[allow(clippy::too_many_arguments, reason = "all but the first are keywords")]
    fn lay_out(
        &self,
        py: Python<'_>,
        stock: &Bound<'_, PyAny>,
        share_cuts: Option<&Bound<'_, PyAny>>,
        turns: Option<&Bound<'_, PyAny>>,
        flips: Option<&Bound<'_, PyAny>>,
        together: Option<&Bound<'_, PyAny>>,
        grain: Option<&Bound<'_, PyAny>>,
        seed: Option<&Bound<'_, PyAny>>,
        seconds: Option<&Bound<'_, PyAny>>,
        progress: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Layout> {
        let stocks = lay_out::stocks(stock)?;
        let grains = lay_out::grains(self, grain)?;
        let limit = lay_out::seconds(seconds)?;
        let spec = LayoutSpec { timed: limit.is_some(), ..lay_out::spec(share_cuts, turns, flips, together, seed)? };
        let mut listener = Listener::new(limit, progress)?;
        let layout = py.detach(|| {
            let items: Vec<_> = self.wanted().into_iter().zip(&grains).map(|(item, &grain)| Item { grain, ..item }).collect();
            spec.lay_out(&items, &stocks, &mut |done| listener.hear(done))
        });
        match listener.raised {
            Some(error) => Err(error),
            None => Ok(Layout::new(self, grains, stocks, layout.map_err(Refusal::from)?)),
        }
    }

    /// Plain rectangles to be laid out, each (width, height), named "1", "2" and so on unless ``names`` are given. They meet no others and are
    /// cut as they are, without kerf, from boards of ``thickness`` or, without it, of any.
    ///
    /// Raises ``OutOfRange``, ``WrongType``, ``NotALength``, ``NameTaken``.
    ///
    /// >>> cards = Parts.rectangles([(60, 40), (60, "2 in")], names=["front", "back"])
    /// >>> cards["back"]
    /// <dryfit.Part 'back', 60 mm x 50.8 mm>
    #[staticmethod]
    #[pyo3(signature = (sizes, /, *, thickness = None, names = None))]
    fn rectangles(sizes: &Bound<'_, PyAny>, thickness: Option<&Bound<'_, PyAny>>, names: Option<&Bound<'_, PyAny>>) -> PyResult<Parts> {
        if door::is_single(sizes) {
            return Err(door::wrong(sizes, "sizes", "a list of (width, height)").into());
        }
        let read = |(index, size): (usize, PyResult<Bound<'_, PyAny>>)| door::lengths(&size?, &SIZE, &format!("sizes[{index}]"));
        let sizes: Vec<[Nm; 2]> = sizes.try_iter()?.enumerate().map(read).collect::<PyResult<_>>()?;
        let thickness = door::maybe_length(thickness, &THICKNESS, "thickness")?;
        let names = match names.filter(|names| !names.is_none()) {
            Some(names) => self::names(names, sizes.len())?,
            None => (1..=sizes.len()).map(|number| number.to_string()).collect(),
        };
        let rectangle = |[width, height]: [Nm; 2]| {
            let at = Point::new;
            Shape::from_loops([[at(Nm::ZERO, Nm::ZERO), at(width, Nm::ZERO), at(width, height), at(Nm::ZERO, height)]])
        };
        let core = dryfit_core::Parts::plain(names.iter().cloned().zip(sizes.into_iter().map(rectangle)), thickness);
        Ok(Parts { core, names })
    }

    fn __repr__(&self) -> String {
        let shown: Vec<_> = self.names.iter().take(8).map(String::as_str).collect();
        let more = if self.names.len() > shown.len() { ", ..." } else { "" };
        format!("<dryfit.Parts, {}: {}{more}>", self.names.len(), shown.join(", "))
    }
}

/// As many names as there are parts, all different and none empty.
fn names(names: &Bound<'_, PyAny>, count: usize) -> PyResult<Vec<String>> {
    if door::is_single(names) {
        return Err(door::wrong(names, "names", "a list of names").into());
    }
    let mut taken = HashSet::new();
    let read = |(index, name): (usize, PyResult<Bound<'_, PyAny>>)| {
        let place = format!("names[{index}]");
        let name = door::text(&name?, &place)?;
        if name.is_empty() {
            return Err(Refusal::new(Code::NameEmpty, &place, "an empty string given, allowed a name").into());
        }
        if !taken.insert(name.clone()) {
            return Err(Refusal::new(Code::NameTaken, &place, format!("\"{name}\" given, allowed a name that no other has")).into());
        }
        Ok(name)
    };
    let names: Vec<String> = names.try_iter()?.enumerate().map(read).collect::<PyResult<_>>()?;
    if names.len() != count {
        return Err(Refusal::new(Code::OutOfRange, "names", format!("{} given, allowed {count}, one for each size", names.len())).into());
    }
    Ok(names)
}
