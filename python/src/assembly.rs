//! `Assembly`: boards and how they are joined.

use dryfit_core::Nm;
use dryfit_core::bounds::{GAP, LAPPED, LENGTH, SIZE};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyMappingProxy, PyString, PyTuple, PyType};

use crate::boards::{Boards, Made};
use crate::cutting::Cutting;
use crate::door;
use crate::features;
use crate::html::html;
use crate::joint::Spec;
use crate::opening;
use crate::parts::Parts;
use crate::picture::{offsets, picture};
use crate::recipe;
use crate::record::{Again, Call, Given, Named};
use crate::refusal::Refusal;
use crate::report::Report;
use crate::slab::Slab;
use crate::slope::slope;
use crate::sources::Source;
use crate::step::Step;
use crate::stock::Stock;

/// Boards of ``stock`` at right angles to each other, or turned about one axis, each given as the full slab it would be if it won every argument.
///
/// Where two slabs overlap they are joined: edge on edge by fingers, an edge in a face by tabs, crossing by halves, end to end in one
/// plane by tails, or as ``joint`` says. Boards that only touch are not joined.
///
/// An assembly can be added to at any time, also while other threads use it: each call sees one state of it. It compares by its boards and how
/// they are joined, and has no hash.
///
/// Raises ``WrongType`` for a stock that is no ``Stock``.
///
/// >>> stand = Assembly(stock=Stock(thickness=2.5, sheet=(500, 350)))
/// >>> stand.add("long", normal="y", at=(0, 50, 0), size=(120, 80))
/// >>> stand.add("short", normal="x", at=(60, 0, 0), size=(100, 80))
/// >>> stand.joint("long", "short", Halves(split="1/3"))
/// >>> [len(panel.loops[0]) for panel in stand.panels.values()]
/// [8, 8]
#[pyclass(frozen, module = "dryfit")]
#[derive(Debug)]
pub struct Assembly {
    stock: Stock,
    boards: Boards,
}

impl Assembly {
    /// What the function `name` made of `named` and a stock.
    pub(crate) fn of(core: dryfit_core::Assembly, stock: Stock, name: &'static str, named: Named) -> Assembly {
        let named = named.with("stock", Given::Stock(stock));
        Assembly { stock, boards: Boards::of(core, Call { name, plain: Vec::new(), named }) }
    }

    fn change(
        &self,
        py: Python<'_>,
        call: Call,
        change: impl FnOnce(&mut dryfit_core::Assembly) -> Result<(), dryfit_core::Failure> + Send,
    ) -> PyResult<()> {
        self.boards.change(py, call, change)
    }

    fn made(&self, py: Python<'_>) -> PyResult<Made> {
        self.boards.made(py)
    }
}

#[pymethods]
impl Assembly {
    #[new]
    #[pyo3(signature = (*, stock))]
    fn new(stock: &Bound<'_, PyAny>) -> PyResult<Assembly> {
        Ok(Assembly::of(dryfit_core::Assembly::new(), Stock::from_python(stock, "stock")?, "Assembly", Named::default()))
    }

    /// Adds a board as its full slab, under a ``name`` of its own.
    ///
    /// ``normal`` is the axis across the sheet, "x", "y" or "z"; ``at`` the lowest corner (x, y, z); ``size`` the sizes along the two
    /// other axes, in x, y, z order, in mm or strings with a unit. ``stock`` gives the board a thickness of its own.
    ///
    /// ``turn`` turns the board about a line through its middle, by so many degrees, anticlockwise as seen against the axis ``about``, which
    /// lies in its plane: "z" if left out. All boards of an assembly are turned about one axis. Where boards meet at an angle, slots are as
    /// wide as the mate's shadow, ``t_mate / sin a + t_own / tan a``; what stays open beside it is in ``dry_fit().void_volume``.
    ///
    /// >>> stand = Assembly(stock=Stock(thickness=3, sheet=(500, 350)))
    /// >>> stand.add("long", normal="y", at=(0, 48.5, 0), size=(100, 60))
    /// >>> stand.add("slanted", normal="x", at=(48.5, 0, 0), size=(100, 60), turn=30)
    /// >>> [round(float(x), 3) for x in stand.panels["slanted"].loops[0][:, 0]]
    /// [0.0, 47.402, 47.402, 52.598, 52.598, 100.0, 100.0, 0.0]
    /// >>> stand.dry_fit().ok
    /// True
    ///
    /// Raises ``NameTaken``, ``NameEmpty``, ``SamePlace`` (it overlaps a board of the same normal other than end to end), ``TwoAxes`` or
    /// ``OutOfRange``, also where boards meet at less than 15 degrees.
    #[pyo3(signature = (name, /, *, normal, at, size, stock = None, turn = None, about = None))]
    #[allow(clippy::too_many_arguments)]
    fn add(
        &self,
        py: Python<'_>,
        name: &Bound<'_, PyAny>,
        normal: &Bound<'_, PyAny>,
        at: &Bound<'_, PyAny>,
        size: &Bound<'_, PyAny>,
        stock: Option<&Bound<'_, PyAny>>,
        turn: Option<&Bound<'_, PyAny>>,
        about: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<()> {
        let slab = Slab::read(name, normal, at, size, stock, turn, about)?;
        let usual = self.stock;
        self.change(py, slab.call(), |core| slab.add(core, usual))
    }

    /// Says that boards cross at one line: ``names`` are two to four. The line is cut in equal parts, the lowest for the board named first.
    ///
    /// In its own part a board is whole, and all others lose the widest shadow of any of them. A later call with one of the boards
    /// replaces the earlier.
    ///
    /// Raises ``NoSuchBoard``, ``NameTaken`` for one named twice, or ``OutOfRange``; that they do not cross, or not along one stretch, shows
    /// when the panels are made (``DoNotMeet``, ``UnevenLap``).
    ///
    /// >>> star = Assembly(stock=Stock(thickness=3, sheet=(500, 350)))
    /// >>> for name, turn in [("low", 0), ("middle", 60), ("high", 120)]:
    /// ...     star.add(name, normal="y", at=(0, 48.5, 0), size=(100, 60), turn=turn)
    /// >>> star.lap(["low", "middle", "high"])
    /// >>> star.dry_fit().ok, [step.panel for step in star.order()]
    /// (True, ['low', 'middle', 'high'])
    #[pyo3(signature = (names, /))]
    fn lap(&self, py: Python<'_>, names: &Bound<'_, PyAny>) -> PyResult<()> {
        if names.is_instance_of::<PyString>() {
            return Err(door::wrong(names, "names", "a list of names").into());
        }
        let items = door::in_order(names).map_err(|_| door::wrong(names, "names", "a list of names"))?.take(LAPPED.most as usize + 1);
        let names = items.enumerate().map(|(index, item)| door::text(&item?, &format!("names[{index}]"))).collect::<PyResult<Vec<_>>>()?;
        let call = Call { name: "lap", plain: vec![Given::Texts(names.clone())], named: Named::default() };
        self.change(py, call, |core| core.lap(&names.iter().map(String::as_str).collect::<Vec<_>>()))
    }

    /// Joins two boards in a way of one's own: ``Fingers``, ``Tabs`` or ``Halves``, for boards of one plane ``Tails``; ``a`` is side A. A
    /// later call for the same two replaces it.
    ///
    /// ``spec`` is the joint, ``b`` the other board.
    ///
    /// Raises ``NoSuchBoard``, ``DoNotMeet`` or ``Blind``; that the kind does not suit the boards shows when the panels are made.
    ///
    /// >>> tray = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)), top="open")
    /// >>> tray.joint("front", "left", Fingers(count=3, first="b"))
    /// >>> tray.joint("base", "front", Tabs(width=15, spacing=20))
    /// >>> tray.dry_fit().ok
    /// True
    #[pyo3(signature = (a, b, spec, /))]
    fn joint(&self, py: Python<'_>, a: &Bound<'_, PyAny>, b: &Bound<'_, PyAny>, spec: &Bound<'_, PyAny>) -> PyResult<()> {
        let (a, b, spec) = (door::text(a, "a")?, door::text(b, "b")?, Spec::from_python(spec)?);
        let plain = vec![Given::Text(a.clone()), Given::Text(b.clone()), Given::Joint(spec)];
        self.change(py, Call { name: "joint", plain, named: Named::default() }, |core| core.joint(&a, &b, spec.core()))
    }

    /// Lets a butterfly key into two boards of one plane that touch: a board of its own, ``name``, two tails back to back across the seam.
    ///
    /// ``between`` are the names of the two; ``length`` is the key's across the seam, ``width`` at both its ends; ``at`` where its middle
    /// lies along the seam, from the seam's lower end, all in mm or strings with a unit; ``slope`` how it narrows towards the seam, 6 for 1 in 6.
    ///
    /// Raises ``NoSuchBoard``, ``NoSeam`` where the two do not touch in one plane, or ``OutOfRange``.
    ///
    /// >>> shelf = Assembly(stock=Stock(thickness=3, sheet=(500, 350)))
    /// >>> shelf.add("left", normal="z", at=(0, 0, 0), size=(200, 90))
    /// >>> shelf.add("right", normal="z", at=(200, 0, 0), size=(200, 90))
    /// >>> shelf.key("key", between=("left", "right"), length=40, width=20, at=45, slope=6)
    /// >>> len(shelf.panels["key"].loops[0]), shelf.dry_fit().ok
    /// (6, True)
    #[pyo3(signature = (name, /, *, between, length, width, at, slope))]
    #[allow(clippy::too_many_arguments, reason = "named in Python")]
    fn key(
        &self,
        py: Python<'_>,
        name: &Bound<'_, PyAny>,
        between: &Bound<'_, PyAny>,
        length: &Bound<'_, PyAny>,
        width: &Bound<'_, PyAny>,
        at: &Bound<'_, PyAny>,
        slope: &Bound<'_, PyAny>,
    ) -> PyResult<()> {
        let name = door::text(name, "name")?;
        let [a, b] = door::tuple::<2>(between, "between")?;
        let boards = [door::text(&a, "between[0]")?, door::text(&b, "between[1]")?];
        let size = [door::length(length, &SIZE, "length")?, door::length(width, &SIZE, "width")?];
        let (at, slope) = (door::length(at, &LENGTH, "at")?, self::slope(slope, "slope")?);
        let named = Named::default().with("between", Given::Texts(boards.to_vec())).with("length", Given::Length(size[0]));
        let named = named.with("width", Given::Length(size[1])).with("at", Given::Length(at)).with("slope", Given::Ratio(slope));
        let call = Call { name: "key", plain: vec![Given::Text(name.clone())], named };
        self.change(py, call, |core| core.key(&name, [&boards[0], &boards[1]], size, at, slope).map(drop))
    }

    /// Gives a ``board`` a hole, or a pattern of them, in panel coordinates: from the slab's lowest corner, in mm or strings with a unit.
    ///
    /// ``at`` is the centre (x, y). Either ``diameter`` for a round hole, or ``size`` (width, height): a slot with round ends for a cable
    /// or a hand, or with the ``ends`` "square" a rectangle. ``count`` (to the right, upwards) and ``spacing`` (from centre to centre) repeat it.
    /// The dry fit knows it as meant and asks that it is there.
    ///
    /// Raises ``NoSuchBoard``, ``OutOfRange``, ``MissingKey``; when the panels are made, ``OpeningMisplaced`` where it does not lie on the
    /// board's own solid, apart from edges and other openings.
    ///
    /// >>> shelf = Assembly(stock=Stock(thickness=6, sheet=(500, 350)))
    /// >>> shelf.add("shelf", normal="z", at=(0, 0, 0), size=(250, 200))
    /// >>> shelf.hole("shelf", at=(125, 170), size=(90, 30))
    /// >>> shelf.hole("shelf", at=(25, 30), diameter=4.5, count=(6, 3), spacing=(40, 32))
    /// >>> len(shelf.panels["shelf"].loops), shelf.dry_fit().ok
    /// (20, True)
    #[pyo3(signature = (board, /, *, at, diameter = None, size = None, ends = None, count = None, spacing = None))]
    #[allow(clippy::too_many_arguments, reason = "named in Python")]
    fn hole(
        &self,
        py: Python<'_>,
        board: &Bound<'_, PyAny>,
        at: &Bound<'_, PyAny>,
        diameter: Option<&Bound<'_, PyAny>>,
        size: Option<&Bound<'_, PyAny>>,
        ends: Option<&Bound<'_, PyAny>>,
        count: Option<&Bound<'_, PyAny>>,
        spacing: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<()> {
        let board = door::text(board, "board")?;
        let (openings, named) = opening::openings(py, at, diameter, size, ends, count, spacing)?;
        let call = Call { name: "hole", plain: vec![Given::Text(board.clone())], named };
        // All of them or none.
        self.change(py, call, |core| {
            let mut open = core.clone();
            openings.into_iter().try_for_each(|opening| open.open(&board, opening))?;
            *core = open;
            Ok(())
        })
    }

    /// Screws the edge of one board, ``edge``, to the face of another, ``face``: a clearance hole (ISO 273) in the face board, and in the edge board a cross slot
    /// for the screw and its captive nut (ISO 4032).
    ///
    /// ``thread`` is "M2", "M2.5", "M3", "M4", "M5", "M6" or "M8"; ``length`` the screw's under its head; ``at`` the distance from the lower
    /// end of the boards' run, where the face board keeps the joint; ``clearance`` "fine", "medium" or "coarse" (medium); ``gap`` how much
    /// larger than the nut its pocket is (0.2 mm).
    ///
    /// Raises ``NoSuchBoard``, ``DoNotMeet``, ``Blind``; ``NutTooWide`` and ``ScrewDoesNotHold`` with the range; when the panels are made,
    /// ``OpeningMisplaced`` where the edge board keeps the joint.
    ///
    /// >>> tray = box(outside=(200, 150, 90), stock=Stock(thickness=6, sheet=(600, 400)))
    /// >>> tray.bolt("front", "left", thread="M4", length=25, at=30)
    /// >>> tray.dry_fit().ok
    /// True
    #[pyo3(signature = (edge, face, /, *, thread, length, at, clearance = None, gap = None))]
    #[allow(clippy::too_many_arguments, reason = "named in Python")]
    fn bolt(
        &self,
        py: Python<'_>,
        edge: &Bound<'_, PyAny>,
        face: &Bound<'_, PyAny>,
        thread: &Bound<'_, PyAny>,
        length: &Bound<'_, PyAny>,
        at: &Bound<'_, PyAny>,
        clearance: Option<&Bound<'_, PyAny>>,
        gap: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<()> {
        let (edge, face) = (door::text(edge, "edge")?, door::text(face, "face")?);
        let (bolt, named) = opening::bolt(thread, length, clearance, gap)?;
        let at = door::length(at, &LENGTH.named("at"), "at")?;
        let call =
            Call { name: "bolt", plain: vec![Given::Text(edge.clone()), Given::Text(face.clone())], named: named.with("at", Given::Length(at)) };
        self.change(py, call, |core| core.bolt(&edge, &face, bolt, at))
    }

    /// The stock of boards that have none of their own.
    #[getter]
    fn stock(&self) -> Stock {
        self.stock
    }

    /// The panels by name, in the order of the boards; made once and kept until the next ``add`` or ``joint``.
    ///
    /// Raises ``NoBoards``, ``MeetsNothing``, ``Blind``, or what the joints refuse, with the names of the two boards.
    #[getter]
    fn panels(&self, py: Python<'_>) -> PyResult<Py<PyMappingProxy>> {
        Ok(self.made(py)?.mapping)
    }

    /// The dry fit of the nominal panels: whether every point of every slab has exactly one owner. It is about the boards once they are together;
    /// whether straight moves get them there, ``order`` says.
    ///
    /// Raises what ``panels`` raises.
    ///
    /// >>> tray = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)), top="open")
    /// >>> tray.dry_fit()
    /// <dryfit.Report: it fits; overlap 0 mm, gaps 0 mm to 0 mm, void 0 mm3, 0 loose pieces, thinnest neck 7.272727 mm>
    fn dry_fit(&self, py: Python<'_>) -> PyResult<Report> {
        let set = self.made(py)?.set;
        Ok(Report { core: py.detach(|| dryfit_core::dry_fit(&set.panels)) })
    }

    /// The straight moves that put the panels together, in order, the base first where that can be.
    ///
    /// Raises ``Locked`` with the boards that hold each other so that none of them can move, and what ``panels`` raises.
    ///
    /// >>> tray = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)), top="open")
    /// >>> [(step.panel, step.direction) for step in tray.order()][:2]
    /// [('base', '-z'), ('front', '-z')]
    fn order(&self, py: Python<'_>) -> PyResult<Vec<Step>> {
        let set = self.made(py)?.set;
        let steps = py.detach(|| dryfit_core::order(&set.panels)).map_err(Refusal::from)?;
        let name = |&board: &usize| set.panels.get(board).map(|panel| panel.name().to_owned());
        Ok(steps.into_iter().map(|core| Step { along: core.along.iter().filter_map(name).collect(), core }).collect())
    }

    /// The parts to be cut by ``cutter``: allowances by role, then half the kerf all around.
    ///
    /// ``fit`` is exact if left out; ``web`` the least solid width that must be left, in mm. ``label`` goes before the parts' names,
    /// which tells the parts of several pieces apart; ``sum`` or ``+`` make one job of these.
    ///
    /// ``relief`` makes room in the inner corners that a mate must fill, which a round tool leaves with a fillet.
    ///
    /// Raises ``SlotCloses``, ``CrossesNeighbour`` or ``WebTooThin`` with the panel and the place; ``ReliefTooLarge``,
    /// ``ReliefBreaksThrough``, and ``OutOfRange`` for a relief that is smaller than the tool; and what ``panels`` raises.
    ///
    /// >>> tray = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)), top="open")
    /// >>> parts = tray.cut(cutter=Cutter.beam(kerf=0.2), fit=Fit(cheek=0.1), label="tea")
    /// >>> list(parts), parts["tea base"].finished_loops[0].min(axis=0).tolist()
    /// (['tea front', 'tea back', 'tea left', 'tea right', 'tea base'], [0.0, 0.0])
    #[pyo3(signature = (*, cutter, fit = None, web = None, relief = None, label = None))]
    fn cut(
        &self,
        py: Python<'_>,
        cutter: &Bound<'_, PyAny>,
        fit: Option<&Bound<'_, PyAny>>,
        web: Option<&Bound<'_, PyAny>>,
        relief: Option<&Bound<'_, PyAny>>,
        label: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Parts> {
        let cutting = Cutting::read(cutter, fit, web, relief)?;
        let label = door::given(label).map(|label| door::text(label, "label")).transpose()?;
        let set = self.made(py)?.set;
        let core = py.detach(|| cutting.cut(&set.panels)).map_err(Refusal::from)?;
        Ok(Parts::of(core, label.as_deref(), Source::Cut { recipe: set.recipe.clone(), named: cutting.named() }))
    }

    /// A picture as SVG, in mm: the boards in isometric view, pulled apart in the order of putting together.
    ///
    /// ``explode`` is the gap between them in mm or a string with a unit, a fifth of the longest board if left out; 0 shows them put together.
    ///
    /// Raises ``Locked`` where no straight moves take the boards apart, and what ``panels`` raises.
    ///
    /// >>> tray = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)), top="open")
    /// >>> tray.picture(explode="1 in").startswith("<svg")
    /// True
    #[pyo3(signature = (*, explode = None))]
    fn picture(&self, py: Python<'_>, explode: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let gap = door::maybe_length(explode, &GAP.named("explode"), "explode")?;
        let set = self.made(py)?.set;
        Ok(py.detach(|| picture(&set.panels, gap)).map_err(Refusal::from)?)
    }

    /// The panels as a GeoJSON-like FeatureCollection in mm, as geopandas and others read it: a polygon each in panel coordinates, all from their own lowest
    /// corner, with ``name``, ``thickness`` and ``kind`` ("panel"). There is no coordinate reference system: lengths are mm on a plane.
    ///
    /// Raises ``AttributeError`` as long as the panels cannot be made, with what ``panels`` raises as its cause: what looks whether the attribute is there,
    /// as ``hasattr`` and those packages do, finds that it is not.
    ///
    /// >>> case = box(outside=(110, 85, 60), stock=Stock(thickness=2.5, sheet=(500, 350)))
    /// >>> case.__geo_interface__["features"][0]["properties"]
    /// {'name': 'front', 'thickness': 2.5, 'kind': 'panel'}
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let set = self.made(py).map_err(|error| features::absent(py, error))?.set;
        features::collection(py, "panel", set.panels.iter().map(|panel| (panel.name(), Some(panel.board().thickness().mm()), panel.shape())))
    }

    /// How far ``picture`` moves each board for a distance, in mm along x, y and z.
    #[pyo3(signature = (explode, /))]
    fn _offsets(&self, py: Python<'_>, explode: &Bound<'_, PyAny>) -> PyResult<Vec<[f64; 3]>> {
        let gap = door::length(explode, &GAP.named("explode"), "explode")?;
        let set = self.made(py)?.set;
        let offsets = py.detach(|| offsets(&set.panels, gap)).map_err(Refusal::from)?;
        Ok(offsets.into_iter().map(|offset| offset.map(|nm| nm as f64 / 1e6)).collect())
    }

    /// The exploded picture; put together where boards lock each other, none as long as no panels can be made.
    fn _repr_svg_(&self, py: Python<'_>) -> Option<String> {
        let set = self.made(py).ok()?.set;
        py.detach(|| picture(&set.panels, None).or_else(|_| picture(&set.panels, Some(Nm::ZERO)))).ok()
    }

    /// The same boards joined in the same ways, of the same stock; how they came to be does not matter.
    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        let Ok(other) = other.cast::<Assembly>() else { return false };
        std::ptr::eq(self, other.get()) || (self.stock == other.get().stock && self.boards.now().0 == other.get().boards.now().0)
    }

    fn __copy__(&self) -> Assembly {
        Assembly { stock: self.stock, boards: self.boards.copy() }
    }

    fn __deepcopy__(&self, memo: &Bound<'_, PyAny>) -> Assembly {
        let _ = memo;
        self.__copy__()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Bound<'py, PyTuple>,)> {
        let (_, recipe) = slf.get().boards.now();
        Ok((slf.get_type().getattr("_of")?, (recipe.to_python(slf.py())?,)))
    }

    /// Makes a pickled assembly again.
    #[classmethod]
    fn _of<'py>(class: &Bound<'py, PyType>, calls: &Bound<'py, PyTuple>) -> PyResult<Bound<'py, Assembly>> {
        recipe::again(class.py(), calls)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "assembly")
    }

    fn __repr__(&self) -> String {
        let (names, count) = self.boards.names(8);
        let more = if count > names.len() { ", ..." } else { "" };
        format!("<dryfit.Assembly of {count} boards: {}{more}>", names.join(", "))
    }
}
