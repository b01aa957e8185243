"""The job file: what its tables mean.

A job has kinds of board (``[stock.NAME]``), a ``[cutter]``, a ``[fit]``, a ``[relief]``, a ``[layout]``, a ``[motion]`` and a ``[pace]`` if wanted, and pieces: ``[[box]]``,
``[[prism]]``, ``[[splice]]``, ``[[ring]]`` and ``[[assembly]]``. Beside them it may have ``[[dovetail_corner]]`` tables, which are set out only.
"""

from dataclasses import dataclass
from typing import Any

from dryfit import _corners, _minutes, _motion, _pieces, _read, _words
from dryfit import _dryfit as df
from dryfit._corners import Corner
from dryfit._pieces import Piece
from dryfit._table import LENGTH, Table, here

JOB = ("title", "stock", "cutter", "fit", "web", "relief", "layout", "motion", "pace", *_pieces.KINDS, "dovetail_corner")
STOCK = ("thickness", "sheet", "border", "gap", "count", "grain")
CUTTERS = {"blade": ("kerf", "trail"), "beam": ("kerf",), "bit": ("diameter",)}
FIT = ("flank", "cheek", "tip")
RELIEF = ("radius", "shape")
LAYOUT = ("share_cuts", "turns", "flips", "together", "grain", "seed", "seconds")


@dataclass(frozen=True)
class Board:
    """A kind of board: the stock, and the readings if its thickness was given by several."""

    stock: df.Stock
    readings: list[float]


@dataclass(frozen=True)
class Job:
    """All that a job file says."""

    title: str
    boards: dict[str, Board]
    cutter: df.Cutter
    fit: df.Fit
    web: Any
    relief: df.Relief | None
    layout: dict[str, Any]
    motion: _motion.Files | None
    timing: _minutes.Timing | None
    pieces: list[Piece]
    corners: list[Corner]


def load(file: str) -> Job:
    """Reads a job file. Every refusal is a DryfitError whose message is one line that names the key."""
    top = Table(_read.toml(file), "", JOB)
    title = top.text("title") if "title" in top else "Dry fit"
    boards = _boards(top)
    cutter = _cutter(top)
    fit = Table(top.values.get("fit", {}), "fit", FIT)
    with here("fit"):
        fits = df.Fit(**fit.only(*FIT))
    relief = _relief(top)
    layout = Table(top.values.get("layout", {}), "layout", LAYOUT).values
    with here("layout"):
        # Tried on no parts: what is refused here is a value, not a part.
        df.Parts.rectangles([]).lay_out(df.Stock(thickness=1, sheet=(1, 1)), **{key: value for key, value in layout.items() if key != "grain"})
    motion = _motion.read(top.values["motion"], cutter, [board.stock for board in boards.values()]) if "motion" in top else None
    timing = _minutes.read(top.values["pace"], motion.passes if motion else 1) if "pace" in top else None
    stocks = {name: board.stock for name, board in boards.items()}
    pieces = [_pieces.read(kind, row, path, stocks) for kind in _pieces.KINDS for path, row in top.rows(kind, f"[[{kind}]] tables")]
    if not pieces:
        kinds = ", ".join(f"[[{kind}]]" for kind in _pieces.KINDS)
        raise df.MissingKey(f"{', '.join(_pieces.KINDS)}: missing, allowed tables {kinds}, one at least")
    corners = [_corners.read(row, path) for path, row in top.rows("dovetail_corner", "[[dovetail_corner]] tables")]
    _names([*pieces, *corners])
    return Job(title, boards, cutter, fits, top.values.get("web", 0), relief, layout, motion, timing, pieces, corners)


def _names(rows: list[Piece | Corner]) -> None:
    """Names are told apart whatever the case of their letters, since they name files."""
    taken: dict[str, str] = {}
    for row in rows:
        other = taken.setdefault(row.name.casefold(), row.path)
        if other != row.path:
            raise df.NameTaken(f"{row.path}.name: {_words.shown(row.name)} given, taken by {other}; allowed a name of its own")


def _boards(top: Table) -> dict[str, Board]:
    what = "tables [stock.NAME] with " + _words.listed(STOCK)
    tables = top.need("stock", what)
    if not isinstance(tables, dict) or not tables or not all(isinstance(table, dict) for table in tables.values()):
        raise df.WrongType(f"stock: {_words.shown(tables)} given, allowed {what}")
    boards: dict[str, Board] = {}
    for name, values in tables.items():
        table = Table(values, _words.path("stock", name), STOCK)
        table.need("thickness", "a length or a list of readings")
        table.need("sheet", "a width and a height")
        with here(table.path):
            stock = df.Stock(**table.values)
            given = table.values["thickness"]
            each = [df.Stock(thickness=one, sheet=(1, 1)).thickness for one in given] if isinstance(given, list) else []
        boards[name] = Board(stock, each)
    return boards


def _cutter(top: Table) -> df.Cutter:
    kinds = _words.listed(CUTTERS)
    values = top.need("cutter", f"a table with kind, one of {kinds}")
    table = Table(values, "cutter", ("kind", *sorted({key for keys in CUTTERS.values() for key in keys})))
    kind = table.text("kind", f"one of {kinds}")
    if kind not in CUTTERS:
        raise df.OutOfRange(f"cutter.kind: {_words.shown(kind)} given, allowed {kinds}")
    table = Table(values, "cutter", ("kind", *CUTTERS[kind]))
    if kind != "blade":
        table.need(CUTTERS[kind][0], LENGTH)
    with here("cutter"):
        made: df.Cutter = getattr(df.Cutter, kind)(**table.only(*CUTTERS[kind]))
    return made


def _relief(top: Table) -> df.Relief | None:
    if "relief" not in top:
        return None
    table = Table(top.values["relief"], "relief", RELIEF)
    table.need("radius", LENGTH)
    with here("relief"):
        return df.Relief(**table.only(*RELIEF))
