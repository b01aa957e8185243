"""Tables of parts, cuts and costs.

Needs pandas: ``pip install "dryfit[tables]"``. Columns with lengths and areas have their unit in the name; prices are in the currency that they are given in.

>>> import dryfit as df
>>> from dryfit import tables
>>> stock = df.Stock(thickness=2.5, sheet=(500, 350), border=8)
>>> parts = df.box(outside=(110, 85, 60), stock=stock).cut(cutter=df.Cutter.beam(kerf=0.18))
>>> layout = parts.lay_out(stock)
>>> tables.cuts(layout).groupby("kind")["part"].count().to_dict()
{'cut-outer': 6}
"""

from collections.abc import Mapping
from math import isfinite
from typing import TYPE_CHECKING, Any, SupportsFloat, TypeAlias

import numpy as np

from dryfit import _words
from dryfit._dryfit import Assembly, Layout, MissingKey, NotFinite, OutOfRange, Pace, Panel, Part, Parts, Stock, WrongType
from dryfit._extras import need as _need
from dryfit._refused import refused

if TYPE_CHECKING:
    import pandas as _pandas  # type: ignore[import-untyped, import-not-found, unused-ignore]

__all__ = ["costs", "cuts", "parts"]

_Price: TypeAlias = SupportsFloat
_MOST = 1e9


def parts(of: Parts | Assembly, /, *, alike: bool = True) -> "_pandas.DataFrame":
    """One row for all boards that are alike: ``name`` (all of them), ``count``, ``width_mm``, ``height_mm``, ``thickness_mm``, ``area_mm2`` of one.

    ``of`` are parts, what comes off the cutter, or an assembly, whose panels are nominal. Alike are those of one thickness whose outlines are the same to the
    nanometre as they are drawn; unless ``alike`` is wanted, each has its row. ``thickness_mm`` is missing for plain parts of any board.

    Raises ``WrongType``, and what ``Assembly.panels`` raises; ``NotAvailable`` where pandas is missing.

    >>> import dryfit as df
    >>> case = df.box(outside=(110, 85, 60), stock=df.Stock(thickness=2.5, sheet=(500, 350)))
    >>> parts(case)[["name", "count", "width_mm", "height_mm"]].values.tolist()
    [['front, back', 2, 110.0, 60.0], ['left, right', 2, 85.0, 60.0], ['base, top', 2, 110.0, 85.0]]
    """
    match of:
        case Parts():
            boards: list[tuple[str, Panel | Part]] = list(of.items())
        case Assembly():
            boards = list(of.panels.items())
        case _:
            raise refused(WrongType, "of", f"{_words.shown(of)} given, allowed Parts or an Assembly")
    groups: dict[object, list[tuple[str, Panel | Part]]] = {}
    for number, (name, board) in enumerate(boards):
        groups.setdefault(_outline(board) if alike else number, []).append((name, board))
    rows = [(", ".join(name for name, _ in group), len(group), *_sizes(group[0][1])) for group in groups.values()]
    columns = {"name": object, "count": int, "width_mm": float, "height_mm": float, "thickness_mm": float, "area_mm2": float}
    return _frame(rows, columns)


def cuts(layout: Layout, /) -> "_pandas.DataFrame":
    """One row for each line that is cut, in the order of ``Sheet.route``: ``sheet`` and ``order`` (both from 1), ``part`` (missing for a cut that is shared),
    ``kind`` ("cut-inner", "cut-shared", "cut-outer"), ``closed``, ``length_mm``.

    The lengths add up to ``cut_length`` of the ``layout``.

    Raises ``WrongType``; ``NotAvailable`` where pandas is missing.

    >>> import dryfit as df
    >>> stock = df.Stock(thickness=3, sheet=(300, 200), border=5)
    >>> cuts(df.Parts.rectangles([(60, 40)]).lay_out(stock)).to_dict("records")
    [{'sheet': 1, 'order': 1, 'part': '1', 'kind': 'cut-outer', 'closed': True, 'length_mm': 200.0}]
    """
    if not isinstance(layout, Layout):
        raise refused(WrongType, "layout", f"{_words.shown(layout)} given, allowed a Layout")
    rows = [
        (number, order, cut.part, cut.kind, cut.closed, cut.length)
        for number, sheet in enumerate(layout.sheets, 1)
        for order, cut in enumerate(sheet.route().cuts, 1)
    ]
    return _frame(rows, {"sheet": int, "order": int, "part": object, "kind": object, "closed": bool, "length_mm": float})


def costs(
    layout: Layout, /, *, per_sheet: _Price | Mapping[Stock, _Price], pace: Pace | None = None, per_hour: _Price | None = None, passes: int | None = None
) -> "_pandas.DataFrame":
    """What a ``layout`` costs: a row for each kind of board, and with a ``pace`` one for the machine. ``price`` adds up to the whole.

    ``per_sheet`` is the price of a sheet, or a mapping from each ``Stock`` to it (0 for an offcut, say); ``per_hour`` that of an hour of the machine, whose
    minutes are ``layout.minutes``, each line cut ``passes`` times. Columns: ``item``, ``sheets``, ``minutes``, ``price_per_sheet``, ``price_per_hour``, ``price``; what
    an item has not is missing.

    Raises ``MissingKey`` for a stock that has no price, or one of ``pace`` and ``per_hour`` without the other; ``OutOfRange``, ``NotFinite``, ``WrongType`` for
    a price that is none; ``NotAvailable`` where pandas is missing.

    >>> import dryfit as df
    >>> stock = df.Stock(thickness=3, sheet=(300, 200), border=5)
    >>> layout = df.Parts.rectangles([(150, 150)] * 3).lay_out(stock)
    >>> made = costs(layout, per_sheet=4.5, pace=df.Pace(feed=10, acceleration=1000), per_hour=30)
    >>> made[["item", "sheets", "price"]].round(2).values.tolist()
    [['board 300 x 200 x 3 mm', 3, 13.5], ['machine', <NA>, 1.52]]
    """
    if not isinstance(layout, Layout):
        raise refused(WrongType, "layout", f"{_words.shown(layout)} given, allowed a Layout")
    if (pace is None) != (per_hour is None):
        missing, other = ("pace", "per_hour") if pace is None else ("per_hour", "pace")
        raise refused(MissingKey, missing, f"missing, needed beside {other}")
    counts: dict[Stock, int] = {}
    for sheet in layout.sheets:
        counts[sheet.stock] = counts.get(sheet.stock, 0) + 1
    rows: list[tuple[Any, ...]] = []
    for stock, count in counts.items():
        each = _price_of(stock, per_sheet)
        rows.append((_board(stock), count, None, each, None, count * each))
    if pace is not None:
        hour = _price(per_hour, "per_hour")
        minutes = layout.minutes(pace, passes=passes)
        rows.append(("machine", None, minutes, None, hour, minutes / 60 * hour))
    columns = {"item": object, "sheets": "Int64", "minutes": float, "price_per_sheet": float, "price_per_hour": float, "price": float}
    return _frame(rows, columns)


def _frame(rows: list[tuple[Any, ...]], columns: Mapping[str, Any]) -> "_pandas.DataFrame":
    """A table whose columns have these types even where it has no rows."""
    pandas = _need("pandas", "tables")
    return pandas.DataFrame(rows, columns=list(columns)).astype({name: kind for name, kind in columns.items() if kind is not object})


def _outline(board: Panel | Part) -> tuple[object, ...]:
    """The same for two boards that are alike."""
    if isinstance(board, Panel):
        loops, arcs = board.loops_nm, board.arcs_nm
    else:
        loops, arcs = board.finished_loops_nm, board.finished_arcs_nm
    # A slab's corner may lie elsewhere; the outline is what counts.
    corner = np.vstack(loops).min(axis=0)
    return board.thickness, *((loop - corner).tobytes() for loop in loops), *((arc - [0, *corner]).tobytes() for arc in arcs)


def _sizes(board: Panel | Part) -> tuple[float, float, float | None, float]:
    points = np.vstack(board.loops if isinstance(board, Panel) else board.finished_loops)
    width, height = points.max(axis=0) - points.min(axis=0)
    return float(width), float(height), board.thickness, board.area


def _board(stock: Stock) -> str:
    width, height = map(_words.number, stock.sheet)
    return f"board {width} x {height} x {_words.number(stock.thickness)} mm"


def _price_of(stock: Stock, per_sheet: object) -> float:
    if not isinstance(per_sheet, Mapping):
        return _price(per_sheet, "per_sheet")
    if stock not in per_sheet:
        raise refused(MissingKey, "per_sheet", f"no price for {stock!r}, allowed one for each stock that is used")
    return _price(per_sheet[stock], f"per_sheet[{stock!r}]")


def _price(value: Any, name: str) -> float:
    if isinstance(value, (str, bytes, bool)) or not hasattr(value, "__float__"):
        raise refused(WrongType, name, f"{_words.shown(value)} given, allowed a number from 0 to {_MOST:.0f}")
    price = float(value)
    if not isfinite(price):
        raise refused(NotFinite, name, f"{price} given, allowed 0 to {_MOST:.0f}")
    if not 0 <= price <= _MOST:
        raise refused(OutOfRange, name, f"{_words.shown(value)} given, allowed 0 to {_MOST:.0f}")
    return price
