"""The joints of a job file."""

from collections.abc import Sequence
from typing import Any, TypeVar

from dryfit import _dryfit as df
from dryfit import _words
from dryfit._table import LENGTH, Table, here

_T = TypeVar("_T")

Spec = df.Fingers | df.Tabs | df.Halves | df.Tails

SLOPE = 'n for 1:n or a ratio of rise to run such as "5:24"'
NEEDS = {"width": LENGTH, "spacing": LENGTH, "count": "a whole number", "slope": SLOPE}

KINDS: dict[str, tuple[type[Spec], tuple[str, ...], tuple[str, ...]]] = {
    "fingers": (df.Fingers, (), ("width", "count", "parity", "first", "least")),
    "tabs": (df.Tabs, ("width", "spacing"), ("end",)),
    "halves": (df.Halves, (), ("split", "first")),
    "tails": (df.Tails, ("count", "slope"), ("half", "pin_width")),
}
"""For each kind: its class, the keys it needs, the keys it may have."""


def read(row: Any, path: str) -> tuple[str, str, Spec]:
    """The two boards of a joint and its kind: ``{ between = ["shelf", "left"], kind = "tabs", width = 20, spacing = 40 }``."""
    every = dict.fromkeys(key for _, need, may in KINDS.values() for key in (*need, *may))
    table = Table(row, path, ("between", "kind", *every))
    kinds = _words.listed(KINDS)
    kind = table.text("kind", f"one of {kinds}")
    if kind not in KINDS:
        raise df.OutOfRange(f"{table.at('kind')}: {_words.shown(kind)} given, allowed {kinds}")
    make, need, may = KINDS[kind]
    table = Table(row, path, ("between", "kind", *need, *may))
    a, b = two(table)
    return a, b, _spec(table, make, need, may)


def tails(above: Table) -> df.Tails:
    """The tails of a spliced board or a ring: ``joint = { count = 2, slope = 8 }``."""
    _, need, may = KINDS["tails"]
    row = above.need("joint", "a table with count and slope")
    return _spec(Table(row, above.at("joint"), (*need, *may)), df.Tails, need, may)


def two(table: Table) -> list[str]:
    """The two boards of ``between``."""
    between = table.need("between", "the names of two boards")
    if not isinstance(between, list) or len(between) != 2 or not all(isinstance(name, str) for name in between):
        raise df.WrongType(f"{table.at('between')}: {_words.shown(between)} given, allowed the names of two boards")
    return between


def _spec(table: Table, make: type[_T], need: Sequence[str], may: Sequence[str]) -> _T:
    for key in need:
        table.need(key, NEEDS[key])
    with here(table.path):
        return make(**table.only(*need, *may))
