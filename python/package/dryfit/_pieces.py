"""The pieces of a job file: boxes, prisms, spliced boards, rings, and assemblies of any boards."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from dryfit import _assembly, _joints, _openings, _words
from dryfit import _dryfit as df
from dryfit._assembly import Joints
from dryfit._table import LENGTH, Stocks, Table, here, stock

BOX = ("outside", "inside", "top", "finger_width", "dividers", "dividers_in_base", "lid_clearance", "shelves", "feet")
PRISM = ("sides", "outside", "across_flats", "across_corners", "height", "top", "finger_width")
SPLICE = ("length", "width", "pieces", "depth")
RING = ("outside", "width", "depth")
MOST_COPIES = 100


@dataclass(frozen=True)
class Piece:
    """One piece of the job, to be cut ``copies`` times."""

    name: str
    path: str
    kind: str
    copies: int
    assembly: df.Assembly
    joints: Joints

    def labels(self) -> list[str]:
        """What goes before the names of the parts, a copy each."""
        return [self.name] if self.copies == 1 else [f"{self.name} {n}" for n in range(1, self.copies + 1)]


def read(kind: str, row: Any, path: str, stocks: Stocks) -> Piece:
    """The piece that a table of one of the KINDS asks for."""
    make, keys = KINDS[kind]
    table = Table(row, path, ("name", "stock", "copies", *keys, *_openings.KEYS))
    title = name(table)
    copies = table.whole("copies", 1, MOST_COPIES, 1)
    assembly, joints = make(table, stocks)
    _openings.add(table, assembly)
    return Piece(title, path, kind, copies, assembly, joints)


def name(table: Table) -> str:
    """A piece's name is part of a file's name."""
    what = "1 to 60 letters, digits, - and _"
    given = table.text("name", what)
    if not 1 <= len(given) <= 60 or not all(c.isalnum() or c in "-_" for c in given):
        raise df.OutOfRange(f"{table.at('name')}: {_words.shown(given)} given, allowed {what}")
    return given


Made = tuple[df.Assembly, Joints]


def _box(table: Table, stocks: Stocks) -> Made:
    board = stock(table, stocks)
    with here(table.path):
        return df.box(stock=board, **table.only(*BOX)), {}


def _prism(table: Table, stocks: Stocks) -> Made:
    board = stock(table, stocks)
    table.need("sides", "a whole number from 3 to 12")
    table.need("height", LENGTH)
    with here(table.path):
        return df.prism(stock=board, **table.only(*PRISM)), {}


def _splice(table: Table, stocks: Stocks) -> Made:
    board = stock(table, stocks)
    for key in ("length", "width"):
        table.need(key, LENGTH)
    tails = _joints.tails(table)
    with here(table.path):
        return df.splice(stock=board, joint=tails, **table.only(*SPLICE)), {}


def _ring(table: Table, stocks: Stocks) -> Made:
    board = stock(table, stocks)
    table.need("outside", "two sizes")
    table.need("width", LENGTH)
    tails = _joints.tails(table)
    with here(table.path):
        return df.ring(stock=board, joint=tails, **table.only(*RING)), {}


KINDS: dict[str, tuple[Callable[[Table, Stocks], Made], tuple[str, ...]]] = {
    "box": (_box, BOX),
    "prism": (_prism, PRISM),
    "splice": (_splice, (*SPLICE, "joint")),
    "ring": (_ring, (*RING, "joint")),
    "assembly": (_assembly.make, _assembly.KEYS),
}
"""For each kind of table: what makes the piece, and its keys beside name, stock, copies and openings."""
