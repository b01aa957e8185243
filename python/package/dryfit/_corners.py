"""Dovetailed corners of a job file: layouts for hand tools, drawn and never cut."""

from dataclasses import dataclass
from typing import Any

from dryfit import _dryfit as df
from dryfit import _pieces
from dryfit._joints import NEEDS
from dryfit._table import LENGTH, Table, here

NEED = ("width", "tail_board", "pin_board", "count", "slope")
MAY = ("socket", "kind", "lap", "gauge")


@dataclass(frozen=True)
class Corner:
    """A corner to be set out by hand."""

    name: str
    path: str
    layout: df.DovetailCorner


def read(row: Any, path: str) -> Corner:
    """The corner that a table asks for."""
    table = Table(row, path, ("name", *NEED, *MAY))
    name = _pieces.name(table)
    for key in NEED:
        table.need(key, NEEDS.get(key, LENGTH))
    with here(path):
        return Corner(name, path, df.dovetail_corner(**table.only(*NEED, *MAY)))
