"""Sheets and boards as drawings of ezdxf, to which layers, dimensions and title blocks of one's own can be added.

Needs ezdxf: ``pip install "dryfit[dxf]"``. (``Sheet.dxf`` writes a file of release 12 without it.) One unit is 1 mm, and the drawing says so.

>>> import dryfit as df
>>> from dryfit import dxf
>>> stock = df.Stock(thickness=2.5, sheet=(500, 350), border=8)
>>> case = df.box(outside=(110, 85, 60), stock=stock)
>>> drawing = dxf.document(case.cut(cutter=df.Cutter.beam(kerf=0.18)).lay_out(stock).sheets[0])
>>> drawing.layers.add("fold").color
7
>>> len(drawing.modelspace().query("*[layer=='cut-outer']"))
6
"""

from math import atan2, tan, tau
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from dryfit import _dxf, _words
from dryfit._dryfit import Assembly, Motion, OutOfRange, Panel, Part, Parts, Sheet, WrongType
from dryfit._extras import need as _need
from dryfit._refused import refused

if TYPE_CHECKING:
    from ezdxf.document import Drawing

__all__ = ["document"]

_VERSIONS = ("R2000", "R2010", "R2018")
# As in the files of sheets: name, colour, kind of line.
_LAYERS = (("mark", 241, "DASHED"), ("cut-inner", 122, "CONTINUOUS"), ("cut-shared", 30, "CONTINUOUS"), ("cut-outer", 7, "CONTINUOUS"), ("trim", 151, "DASHED"))
# Between boards in a row, and the height of their names below them, in mm.
_GAP, _LETTERS = 12.0, 4.0


def document(
    what: Sheet | Assembly | Parts | Panel | Part, /, *, motion: Motion | None = None, title: str | None = None, version: str = "R2010"
) -> "Drawing":
    """A drawing of a sheet, or of boards in a row with their names below them, as an ``ezdxf.document.Drawing``.

    ``what`` is a sheet, or an assembly, parts, a panel or a part. A sheet is drawn as ``Sheet.dxf`` draws it, with a ``motion`` the lines of the tool's axis. Panels are nominal; parts are the lines that the cutter's centre
    follows. Layers are named by the kind of line: ``cut-outer``, ``cut-inner``, ``cut-shared``, ``mark`` (names), ``trim``; arcs are bulges. ``version`` is
    "R2000", "R2010" or "R2018". ``title`` and ``motion`` are for sheets.

    Raises ``OutOfRange``, ``WrongType``, what ``Sheet.dxf`` raises, and ``NotAvailable`` where ezdxf is missing.

    >>> import dryfit as df
    >>> plates = df.Parts.rectangles([(60, 40), (30, 20)], names=["large", "small"])
    >>> drawing = document(plates)
    >>> [float(line[0][0]) for line in drawing.modelspace().query("LWPOLYLINE")]
    [0.0, 72.0]
    >>> [text.dxf.text for text in drawing.modelspace().query("TEXT")]
    ['large', 'small']
    """
    if version not in _VERSIONS:
        raise refused(OutOfRange, "version", f"{_words.shown(version)} given, allowed {_words.listed(_VERSIONS)}")
    if isinstance(what, Sheet):
        _need("ezdxf", "dxf")
        return _dxf.drawing(what.dxf(motion, title=title), version)
    boards = _boards(what)
    for name, given in (("motion", motion), ("title", title)):
        if given is not None:
            raise refused(WrongType, name, f"{_words.shown(given)} given, allowed None for boards that lie on no sheet")
    made = _dxf.in_mm(_need("ezdxf", "dxf").new(version, setup=["linetypes"]), version)
    for layer, colour, line in _LAYERS:
        made.layers.add(layer, color=colour, linetype=line)
    right = 0.0
    for label, board in boards:
        right += _draw(made.modelspace(), label, board, right) + _GAP
    return made


def _boards(what: object) -> list[tuple[str, Panel | Part]]:
    match what:
        case Assembly():
            return list(what.panels.items())
        case Parts():
            return list(what.items())
        case Panel() | Part():
            return [(what.name, what)]
    raise refused(WrongType, "what", f"{_words.shown(what)} given, allowed a Sheet, an Assembly, Parts, a Panel or a Part")


def _draw(space: Any, label: str, board: Panel | Part, right: float) -> float:
    """Draws a board so far to the right; its width."""
    points = np.vstack(board.loops)
    (left, below), (end, _) = points.min(axis=0), points.max(axis=0)
    moved = np.array([right - left, -below])
    for loop, arcs in zip(board.loops_nm, board.arcs_nm, strict=True):
        x, y = (loop / 1e6 + moved).T
        layer = "cut-outer" if _area(loop) > 0 else "cut-inner"
        rows = np.column_stack([x, y, _bulges(loop, arcs)]).tolist()
        space.add_lwpolyline(rows, format="xyb", close=True, dxfattribs={"layer": layer})
    width = float(end - left)
    name = space.add_text(label, height=_LETTERS, dxfattribs={"layer": "mark"})
    name.set_placement((right + width / 2, -_LETTERS), align=_need("ezdxf.enums", "dxf").TextEntityAlignment.TOP_CENTER)
    return width


def _bulges(loop: npt.NDArray[np.int64], arcs: npt.NDArray[np.int64]) -> list[float]:
    """Of every edge: the tangent of a quarter of its angle, negative since arcs run clockwise; 0 if it is straight."""
    bulges = [0.0] * len(loop)
    for index, *centre in arcs.tolist():
        (ax, ay), (bx, by) = (loop[index] - centre).tolist(), (loop[(index + 1) % len(loop)] - centre).tolist()
        bulges[index] = -tan(atan2(ay * bx - ax * by, ax * bx + ay * by) % tau / 4)
    return bulges


def _area(loop: npt.NDArray[np.int64]) -> float:
    """Twice the area between the corners: more than 0 for what runs counter-clockwise. Arcs run clockwise, so a hole of arcs alone has none or less."""
    x, y = loop.astype(float).T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1))
