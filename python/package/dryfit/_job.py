"""The job file: what its tables mean.

A job has kinds of board (``[stock.NAME]``), a ``[cutter]``, a ``[fit]`` and a ``[relief]`` if wanted, and pieces: ``[[box]]``,
``[[prism]]`` and ``[[assembly]]``.
"""

from dataclasses import dataclass, field
from typing import Any

from dryfit import _dryfit as df
from dryfit import _joints, _read, _words
from dryfit._table import Table, here

JOB = ("title", "stock", "cutter", "fit", "web", "relief", "box", "prism", "assembly")
STOCK = ("thickness", "sheet", "border", "gap")
CUTTERS = {"blade": ("kerf", "trail"), "beam": ("kerf",), "bit": ("diameter",)}
FIT = ("flank", "cheek", "tip")
RELIEF = ("radius", "shape")
BOX_KEYS = ("outside", "inside", "top", "finger_width", "dividers", "dividers_in_base", "lid_clearance", "shelves", "feet")
BOX = ("name", "stock", "copies", *BOX_KEYS)
PRISM_KEYS = ("sides", "outside", "across_flats", "across_corners", "height", "top", "finger_width")
PRISM = ("name", "stock", "copies", *PRISM_KEYS)
ASSEMBLY = ("name", "stock", "copies", "boards", "joints", "laps")
BOARD = ("name", "normal", "at", "size", "turn", "about", "stock")
MOST_COPIES = 100


@dataclass(frozen=True)
class Board:
    """A kind of board: the stock, and the readings if its thickness was given by several."""

    stock: df.Stock
    readings: list[float]


@dataclass(frozen=True)
class Piece:
    """One piece of the job, to be cut ``copies`` times."""

    name: str
    path: str
    kind: str
    copies: int
    assembly: df.Assembly
    joints: dict[frozenset[str], str] = field(default_factory=dict)
    """The path of each pair's joint in the file."""

    def labels(self) -> list[str]:
        """What goes before the names of the parts, a copy each."""
        return [self.name] if self.copies == 1 else [f"{self.name} {n}" for n in range(1, self.copies + 1)]


@dataclass(frozen=True)
class Job:
    """All that a job file says."""

    title: str
    boards: dict[str, Board]
    cutter: df.Cutter
    fit: df.Fit
    web: Any
    relief: df.Relief | None
    pieces: list[Piece]


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
    pieces: list[Piece] = []
    for path, row in top.rows("box", "[[box]] tables"):
        _take(pieces, _box(Table(row, path, BOX), boards))
    for path, row in top.rows("prism", "[[prism]] tables"):
        _take(pieces, _prism(Table(row, path, PRISM), boards))
    for path, row in top.rows("assembly", "[[assembly]] tables"):
        _take(pieces, _assembly(Table(row, path, ASSEMBLY), boards))
    if not pieces:
        raise df.MissingKey("box, prism, assembly: missing, allowed [[box]], [[prism]] and [[assembly]] tables, one at least")
    return Job(title, boards, cutter, fits, top.values.get("web", 0), relief, pieces)


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
        for other, board in boards.items():
            if board.stock.thickness == stock.thickness:
                raise df.WrongThickness(
                    f"{table.at('thickness')}: {_words.number(stock.thickness)} mm given, as in {_words.path('stock', other)}: "
                    "kinds of board are told apart by their thickness"
                )
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
        table.need(CUTTERS[kind][0], "a length in mm or a string with a unit")
    with here("cutter"):
        made: df.Cutter = getattr(df.Cutter, kind)(**table.only(*CUTTERS[kind]))
    return made


def _relief(top: Table) -> df.Relief | None:
    if "relief" not in top:
        return None
    table = Table(top.values["relief"], "relief", RELIEF)
    table.need("radius", "a length in mm or a string with a unit")
    with here("relief"):
        return df.Relief(**table.only(*RELIEF))


def _take(pieces: list[Piece], piece: Piece) -> None:
    for other in pieces:
        if other.name.casefold() == piece.name.casefold():
            raise df.NameTaken(f"{piece.path}.name: {_words.shown(piece.name)} given, taken by {other.path}; allowed a name of its own")
    pieces.append(piece)


def _name(table: Table) -> str:
    """A piece's name is part of a file's name."""
    what = "1 to 60 letters, digits, - and _"
    name = table.text("name", what)
    if not 1 <= len(name) <= 60 or not all(c.isalnum() or c in "-_" for c in name):
        raise df.OutOfRange(f"{table.at('name')}: {_words.shown(name)} given, allowed {what}")
    return name


def _stock(table: Table, boards: dict[str, Board]) -> df.Stock:
    if "stock" not in table and len(boards) == 1:
        return next(iter(boards.values())).stock
    known = _words.listed(boards)
    name = table.text("stock", f"one of {known}")
    if name not in boards:
        raise df.UnknownKey(f"{table.at('stock')}: {_words.shown(name)} given, allowed {known}{_words.nearest(name, boards)}")
    return boards[name].stock


def _box(table: Table, boards: dict[str, Board]) -> Piece:
    name, stock = _name(table), _stock(table, boards)
    copies = table.whole("copies", 1, MOST_COPIES, 1)
    with here(table.path):
        assembly = df.box(stock=stock, **table.only(*BOX_KEYS))
    return Piece(name, table.path, "box", copies, assembly)


def _prism(table: Table, boards: dict[str, Board]) -> Piece:
    name, stock = _name(table), _stock(table, boards)
    copies = table.whole("copies", 1, MOST_COPIES, 1)
    table.need("sides", "a whole number from 3 to 12")
    table.need("height", "a length in mm or a string with a unit")
    with here(table.path):
        assembly = df.prism(stock=stock, **table.only(*PRISM_KEYS))
    return Piece(name, table.path, "prism", copies, assembly)


def _assembly(table: Table, boards: dict[str, Board]) -> Piece:
    name = _name(table)
    copies = table.whole("copies", 1, MOST_COPIES, 1)
    table.need("boards", "a list of boards")
    rows = [Table(row, path, BOARD) for path, row in table.rows("boards", "a list of boards")]
    own = [_stock(row, boards) if "stock" in row else None for row in rows]
    # Where every board has a stock of its own, that of the assembly is never used.
    stock = own[0] if own and "stock" not in table and None not in own else None
    assembly = df.Assembly(stock=stock or _stock(table, boards))
    for row, board in zip(rows, own, strict=True):
        title = row.text("name")
        for key, what in (("normal", '"x", "y" or "z"'), ("at", "the lowest corner (x, y, z)"), ("size", "two sizes")):
            row.need(key, what)
        with here(row.path):
            assembly.add(title, stock=board, **row.only("normal", "at", "size", "turn", "about"))
    for path, names in table.rows("laps", "a list of lists of names"):
        with here(path):
            assembly.lap(names)
    joints: dict[frozenset[str], str] = {}
    for path, row in table.rows("joints", "a list of joints"):
        a, b, spec = _joints.read(row, path)
        pair = frozenset((a, b))
        if pair in joints:
            raise df.NameTaken(f"{path}.between: {_words.shown([a, b])} given, taken by {joints[pair]}; allowed one joint for two boards")
        with here(path):
            assembly.joint(a, b, spec)
        joints[pair] = path
    return Piece(name, table.path, "assembly", copies, assembly, joints)
