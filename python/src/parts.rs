//! `Parts`: the parts of one or several pieces.

use std::collections::HashSet;
use std::hash::{Hash, Hasher};
use std::sync::Arc;

use dryfit_core::bounds::THICKNESS;
use dryfit_core::{Item, LayoutSpec, Nm};
use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyInt, PyIterator, PyList, PyTuple, PyType};

use crate::door;
use crate::features;
use crate::html::html;
use crate::lay_out;
use crate::layout::Layout;
use crate::part::Part;
use crate::progress::Listener;
use crate::record::Again;
use crate::rectangles;
use crate::refusal::Refusal;
use crate::report::Report;
use crate::sources::{self, Source};

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
#[pyclass(frozen, eq, hash, mapping, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Parts {
    all: Arc<All>,
}

#[derive(Debug)]
struct All {
    core: dryfit_core::Parts,
    /// One for each part, all different.
    names: Vec<String>,
    /// How they came to be, each step on what stands before it.
    sources: Vec<Source>,
}

impl PartialEq for Parts {
    fn eq(&self, other: &Parts) -> bool {
        Arc::ptr_eq(&self.all, &other.all) || (&self.all.names, &self.all.core) == (&other.all.names, &other.all.core)
    }
}

impl Hash for Parts {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (&self.all.names, &self.all.core).hash(state);
    }
}

impl Parts {
    fn new(core: dryfit_core::Parts, names: Vec<String>, sources: Vec<Source>) -> Parts {
        Parts { all: Arc::new(All { core, names, sources }) }
    }

    /// All parts of a piece; `label` goes before their names.
    pub(crate) fn of(core: dryfit_core::Parts, label: Option<&str>, source: Source) -> Parts {
        let label = label.filter(|label| !label.is_empty());
        let name = |part: &dryfit_core::Part| label.map_or_else(|| part.name().to_owned(), |label| format!("{label} {}", part.name()));
        let names = core.iter().map(name).collect();
        Parts::new(core, names, vec![source])
    }

    /// How many there are.
    pub(crate) fn count(&self) -> usize {
        self.all.names.len()
    }

    /// Names and parts, in order.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (&str, &dryfit_core::Part)> {
        self.all.names.iter().map(String::as_str).zip(self.all.core.iter())
    }

    /// The tools of all pieces but plain parts, which have none.
    pub(crate) fn cutters(&self) -> impl Iterator<Item = dryfit_core::Cutter> {
        let made = |piece: &&dryfit_core::Piece| piece.parts().iter().any(|part| part.board().is_some());
        self.all.core.pieces().iter().filter(made).map(dryfit_core::Piece::cutter)
    }

    /// What is laid out.
    pub(crate) fn wanted(&self) -> Vec<Item<'_>> {
        let items = Item::of(&self.all.core).into_iter();
        items.zip(&self.all.names).map(|(item, name)| Item { name, ..item }).collect()
    }
}

#[pymethods]
impl Parts {
    fn __len__(&self) -> usize {
        self.count()
    }

    fn __contains__(&self, name: &Bound<'_, PyAny>) -> bool {
        name.extract::<String>().is_ok_and(|name| self.all.names.contains(&name))
    }

    fn __getitem__(&self, name: &Bound<'_, PyAny>) -> PyResult<Part> {
        let wanted: String = name.extract().map_err(|_| PyKeyError::new_err(name.clone().unbind()))?;
        let found = self.iter().find(|(name, _)| *name == wanted);
        found.map(|(name, part)| Part::new(self, name, part)).ok_or_else(|| PyKeyError::new_err(wanted))
    }

    fn __iter__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyIterator>> {
        PyList::new(py, &self.all.names)?.try_iter()
    }

    /// The names, in order.
    ///
    /// >>> cards = Parts.rectangles([(60, 40), (30, 20)], names=["large", "small"])
    /// >>> cards.keys()
    /// ['large', 'small']
    fn keys(&self) -> Vec<&str> {
        self.all.names.iter().map(String::as_str).collect()
    }

    /// The parts, in order.
    ///
    /// >>> cards = Parts.rectangles([(60, 40), (30, 20)], names=["large", "small"])
    /// >>> [part.area for part in cards.values()]
    /// [2400.0, 600.0]
    fn values(&self) -> Vec<Part> {
        self.iter().map(|(name, part)| Part::new(self, name, part)).collect()
    }

    /// Pairs of name and part, in order.
    ///
    /// >>> cards = Parts.rectangles([(60, 40), (30, 20)], names=["large", "small"])
    /// >>> {name: part.area for name, part in cards.items()}
    /// {'large': 2400.0, 'small': 600.0}
    fn items(&self) -> Vec<(&str, Part)> {
        self.iter().map(|(name, part)| (name, Part::new(self, name, part))).collect()
    }

    /// The part of a ``name``, or ``default``. Raises nothing; ``parts[name]`` raises ``KeyError`` for a name that is none.
    ///
    /// >>> cards = Parts.rectangles([(60, 40), (30, 20)], names=["large", "small"])
    /// >>> cards.get("small"), cards.get("lid")
    /// (<dryfit.Part 'small', 30 mm x 20 mm>, None)
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
        Ok(Py::new(py, self.joined(py, other.get()))?.into_any())
    }

    /// `sum` begins with 0.
    fn __radd__<'py>(slf: Bound<'py, Parts>, other: &Bound<'py, PyAny>) -> Bound<'py, PyAny> {
        let nothing = other.is_exact_instance_of::<PyInt>() && other.eq(0).unwrap_or(false);
        if nothing { slf.into_any() } else { slf.py().NotImplemented().into_bound(slf.py()) }
    }

    /// The dry fit of what comes off the cutter, piece by piece: the kerf is taken off, and gaps may be what the fit asked for.
    ///
    /// >>> piece = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)))
    /// >>> report = piece.cut(cutter=Cutter.beam(kerf=0.2), fit=Fit(flank=0.05, cheek=0.1)).dry_fit()
    /// >>> report.ok, report.gap_min, report.gap_max
    /// (True, 0.05, 0.1)
    fn dry_fit(&self, py: Python<'_>) -> Report {
        Report { core: py.detach(|| dryfit_core::dry_fit_parts(&self.all.core)) }
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
    /// ``progress``: a function that is called now and then with what is done, 0.0 to 1.0; when it returns False, the best so far is the layout.
    /// Without one, a search that takes over a second shows a bar where somebody looks, in terminals and notebooks (by tqdm, the extra
    /// ``progress``); True shows it from the start and anywhere, False never. Ctrl-C stops it.
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
        let mut listener = Listener::new(limit, progress, "lay out")?;
        let layout = py.detach(|| {
            let items: Vec<_> = self.wanted().into_iter().zip(&grains).map(|(item, &grain)| Item { grain, ..item }).collect();
            spec.lay_out(&items, &stocks, &mut |done| listener.hear(done))
        });
        listener.end(py)?;
        Ok(Layout::new(self, grains, stocks, layout.map_err(Refusal::from)?))
    }

    /// Plain rectangles to be laid out: ``sizes`` are (width, height), in mm or strings with a unit. They are named "1", "2" and so on unless ``names`` are given. They meet no others and are
    /// cut as they are, without kerf, from boards of ``thickness`` in mm or, without it, of any.
    ///
    /// Raises ``OutOfRange``, ``WrongType``, ``NotALength``, ``NameTaken``.
    ///
    /// >>> cards = Parts.rectangles([(60, 40), (60, "2 in")], names=["front", "back"])
    /// >>> cards["back"]
    /// <dryfit.Part 'back', 60 mm x 50.8 mm>
    #[staticmethod]
    #[pyo3(signature = (sizes, /, *, thickness = None, names = None))]
    pub(crate) fn rectangles(sizes: &Bound<'_, PyAny>, thickness: Option<&Bound<'_, PyAny>>, names: Option<&Bound<'_, PyAny>>) -> PyResult<Parts> {
        let sizes = rectangles::sizes(sizes)?;
        let thickness = door::maybe_length(thickness, &THICKNESS, "thickness")?;
        let names = match door::given(names) {
            Some(names) => rectangles::names(names, sizes.len())?,
            None => (1..=sizes.len()).map(|number| number.to_string()).collect(),
        };
        Ok(Parts::plain(sizes, thickness, names))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, Bound<'py, PyTuple>> {
        let (all, py) = (&slf.get().all, slf.py());
        let (recipes, steps) = sources::told(py, &all.sources)?;
        Ok((slf.get_type().getattr("_of")?, (recipes, steps, &all.names).into_pyobject(py)?))
    }

    /// Makes pickled parts again.
    #[classmethod]
    fn _of<'py>(
        class: &Bound<'py, PyType>,
        recipes: Vec<Bound<'py, PyTuple>>,
        steps: &Bound<'py, PyAny>,
        names: &Bound<'py, PyAny>,
    ) -> PyResult<Parts> {
        let made = sources::made(class.py(), &recipes, steps)?;
        let names = rectangles::names(names, made.count())?;
        Ok(Parts::new(made.all.core.clone(), names, made.all.sources.clone()))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "parts")
    }

    /// What comes off the cutter as a GeoJSON-like FeatureCollection in mm, as geopandas and others read it: a polygon each in the part's own coordinates, with
    /// ``name``, ``thickness`` (None for a plain part of any board) and ``kind`` ("part"), and no coordinate reference system.
    ///
    /// >>> [feature["properties"] for feature in Parts.rectangles([(60, 40)], thickness=3).__geo_interface__["features"]]
    /// [{'name': '1', 'thickness': 3.0, 'kind': 'part'}]
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        features::collection(py, "part", self.iter().map(|(name, part)| (name, part.thickness().map(Nm::mm), part.finished())))
    }

    fn __repr__(&self) -> String {
        let shown: Vec<_> = self.all.names.iter().take(8).map(String::as_str).collect();
        let more = if self.count() > shown.len() { ", ..." } else { "" };
        format!("<dryfit.Parts, {}: {}{more}>", self.count(), shown.join(", "))
    }
}

impl Parts {
    /// One job from two. Of equal names the later gets a number.
    pub(crate) fn joined(&self, py: Python<'_>, other: &Parts) -> Parts {
        let (one, other) = (&self.all, &other.all);
        py.detach(|| {
            let mut names = one.names.clone();
            let mut taken: HashSet<String> = names.iter().cloned().collect();
            for name in &other.names {
                let numbered = std::iter::once(name.clone()).chain((2_u32..).map(|n| format!("{name}-{n}")));
                let free = numbered.into_iter().find(|name| !taken.contains(name)).unwrap_or_default();
                taken.insert(free.clone());
                names.push(free);
            }
            Parts::new(one.core.clone().join(other.core.clone()), names, [one.sources.as_slice(), &other.sources, &[Source::Join]].concat())
        })
    }

    fn plain(sizes: Vec<[Nm; 2]>, thickness: Option<Nm>, names: Vec<String>) -> Parts {
        let core = dryfit_core::Parts::plain(names.iter().cloned().zip(sizes.iter().copied().map(rectangles::shape)), thickness);
        Parts::new(core, names.clone(), vec![Source::Plain { sizes, thickness, names }])
    }
}
