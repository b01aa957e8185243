"""How values show themselves in notebooks: pictures, and tables beside them.

One place for the style, and it takes everything from the page it stands on: letters and rules have the page's own colour, nothing has a background, so dark
pages and light ones can both be read whatever made them so. No script, no style sheet, nothing from elsewhere. The pictures come from the core.
"""

import re
from collections.abc import Iterable, Sequence
from html import escape

import numpy as np
import numpy.typing as npt

from dryfit import _dryfit as df
from dryfit._words import number

_MOST = 60
"""So many parts or boards are shown; of the rest only how many there are."""

_SHEETS = 20
"""And so many sheets."""

_CELL = "padding:.15em .8em;border-bottom:1px solid #8888;text-align:"
_MM = 96 / 25.4
"""Pixels in a mm of the page."""


def picture(svg: str | None, width: float | None = None) -> str:
    """A picture that gets no wider than the page, nor than ``width`` pixels. Its groups lose their names, of which a page may have only one each."""
    if not svg:
        return ""
    svg = re.sub(r"<!--.*?-->\n?", "", re.sub(r'(<g[^>]*?) id="[^"]*"', r"\1", svg), flags=re.DOTALL)
    most = "100%" if width is None else f"min(100%,{width:.0f}px)"
    return svg.replace("<svg ", f'<svg style="max-width:{most};height:auto" ', 1)


def size(svg: str) -> tuple[float, float]:
    """A picture's width and height in mm."""
    found = re.match(r'<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm"', svg)
    return (float(found[1]), float(found[2])) if found else (0.0, 0.0)


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table; numbers stand to the right, words to the left."""
    cells = [[_cell(value) for value in row] for row in rows]
    ways = ["right" if all(row[column][1] for row in cells) else "left" for column in range(len(head))]
    titles = "".join(f'<th style="{_CELL}{way}">{escape(title)}</th>' for title, way in zip(head, ways, strict=True))
    lines = [titles] if any(head) else []
    lines += ["".join(f'<td style="{_CELL}{way}">{text}</td>' for (text, _), way in zip(row, ways, strict=True)) for row in cells]
    body = "".join(f'<tr style="background:none">{line}</tr>\n' for line in lines)
    return f'<table style="border-collapse:collapse;border:none;background:none;color:inherit">\n{body}</table>\n'


def _cell(value: object) -> tuple[str, bool]:
    if isinstance(value, float):
        return number(value), True
    return escape(str(value)), isinstance(value, int)


def _page(*blocks: str) -> str:
    return f'<div style="color:inherit;background:none">\n{"".join(blocks)}</div>\n'


def figure(shown: str, caption: str) -> str:
    """A picture, and what is said below it."""
    return f'<figure style="display:inline-block;margin:.3em 1em .3em 0;vertical-align:bottom">{shown}<figcaption>{escape(caption)}</figcaption></figure>\n'


def _said(text: str, bold: str = "") -> str:
    strong = f"<b>{escape(bold)}</b>" if bold else ""
    return f'<p style="margin:.3em 0">{strong}{escape(text)}</p>\n'


def _by(sizes: Iterable[float]) -> str:
    return " × ".join(map(number, sizes))


def flat(loops: Sequence[npt.NDArray[np.float64]]) -> tuple[float, float]:
    """The width and height of what the loops go around, in mm."""
    (x0, y0), (x1, y1) = loops[0].min(axis=0), loops[0].max(axis=0)
    for loop in loops[1:]:
        x0, y0 = min(x0, loop[:, 0].min()), min(y0, loop[:, 1].min())
        x1, y1 = max(x1, loop[:, 0].max()), max(y1, loop[:, 1].max())
    return round(float(x1 - x0), 6), round(float(y1 - y0), 6)


def panel(value: df.Panel) -> str:
    """A panel, and its sizes below."""
    return _page(figure(picture(value._repr_svg_()), f"{value.name}: {_by([*flat(value.loops), value.thickness])} mm"))


def part(value: df.Part) -> str:
    """A part as it comes off the cutter, and its sizes below."""
    thick = [] if value.thickness is None else [value.thickness]
    return _page(figure(picture(value._repr_svg_()), f"{value.name}: {_by([*flat(value.finished_loops), *thick])} mm as it comes off the cutter"))


def placement(value: df.Placement) -> str:
    """A part as it lies, and where."""
    turned = ("", ", turned by a quarter", ", turned by a half", ", turned by three quarters")[value.quarter_turns]
    flipped = ", flipped" if value.flipped else ""
    return _page(figure(picture(value._repr_svg_()), f"{value.part}: from {number(value.x)}, {number(value.y)} mm{turned}{flipped}"))


def parts(value: df.Parts) -> str:
    """All parts side by side, in one scale, and a table of them."""
    shown = value.items()[:_MOST]
    pictures = [each._repr_svg_() for _, each in shown]
    widest = max((max(size(svg)) for svg in pictures), default=0.0)
    # The largest is as wide as half a page at most.
    scale = min(_MM, 360 / widest) if widest else _MM
    row = "".join(figure(picture(svg, size(svg)[0] * scale), name) for (name, _), svg in zip(shown, pictures, strict=True))
    sizes = [(name, *flat(each.finished_loops), "any" if each.thickness is None else each.thickness, round(each.area / 100, 2)) for name, each in shown]
    return _page(f"<div>{row}</div>\n", table(("part", "width, mm", "height, mm", "thickness, mm", "area, cm²"), sizes), _more(len(value)))


def _more(count: int, most: int = _MOST) -> str:
    return _said(f"and {count - most} more") if count > most else ""


def assembly(value: df.Assembly) -> str:
    """The exploded picture, and a table of the boards in the order of putting together."""
    try:
        panels = value.panels
    except df.DryfitError as error:
        return _page(_said(f" {error}", "No panels yet."))
    try:
        steps = {step.panel: (number, step) for number, step in enumerate(value.order(), 1)}
        locked = ""
    except df.DryfitError as error:
        steps, locked = {}, _said(f" {error}", "It cannot be put together by straight moves.")
    known = sorted(panels.values(), key=lambda panel: steps[panel.name][0] if steps else 0)
    rows = []
    for each in known[:_MOST]:
        order = [f"{steps[each.name][0]}.", _move(*steps[each.name])] if steps else ["", ""]
        rows.append([order[0], each.name, *flat(each.loops), each.thickness, order[1]])
    head = ("", "board", "width, mm", "height, mm", "thickness, mm", "moves")
    svg = value._repr_svg_() or ""
    wide, high = size(svg)
    # A tall picture would push its table off the page.
    return _page(picture(svg, 620 * min(1, wide / high) if high else None), locked, table(head, rows), _more(len(panels)))


def _move(number: int, step: df.Step) -> str:
    along = f", with {', '.join(step.along)}" if step.along else ""
    return "is put down" if number == 1 else step.direction + along


def sheet(value: df.Sheet) -> str:
    """The sheet with its parts, and what is cut."""
    return _page(_sheet(value, "Sheet"))


def _sheet(value: df.Sheet, name: str) -> str:
    width, height = value.stock.sheet
    shared = f", {_metres(value.shared_length)} m of them shared" if value.shared_length else ""
    cuts = f"{_metres(value.cut_length)} m of cuts{shared}"
    offcut = next(iter(value.offcuts), None)
    left = f"; largest offcut {_by((offcut.width, offcut.height))} mm" if offcut else ""
    caption = f"{name}: {_by((width, height, value.stock.thickness))} mm, {len(value.placements)} parts, {cuts}{left}"
    return figure(picture(value._repr_svg_(), 620), caption)


def layout(value: df.Layout) -> str:
    """All sheets, what is cut in all, and what found no place."""
    sheets = value.sheets
    shown = "".join(_sheet(each, f"Sheet {index} of {len(sheets)}") for index, each in enumerate(sheets[:_SHEETS], 1))
    unplaced = _said(" " + ", ".join(value.unplaced), "No sheet was left for") if value.unplaced else ""
    total = _said(f"In all {_metres(value.cut_length)} m of cuts on {len(sheets)} sheets.") if len(sheets) > 1 else ""
    return _page(shown, _more(len(sheets), _SHEETS), total, unplaced)


def offcut(value: df.Offcut) -> str:
    """The rectangle, its size, and where on the sheet it lies."""
    shape = df.Parts.rectangles([(value.width, value.height)], names=["offcut"])["offcut"]
    by, at = _by((value.width, value.height, value.stock.thickness)), f"{number(value.x)}, {number(value.y)}"
    return _page(figure(picture(shape._repr_svg_(), 360), f"Offcut: {by} mm from {at} mm of its sheet"))


def route(value: df.Route) -> str:
    """The cuts in their order, and the way between them."""
    cuts = value.cuts
    numbers = [[round(float(mm), 3) for mm in (cut.length, *cut.points[0])] for cut in cuts[:_MOST]]
    rows = [(index, cut.kind, cut.part or "", *each) for index, (cut, each) in enumerate(zip(cuts, numbers), 1)]
    told = _said(f"{len(cuts)} cuts, {_metres(sum(cut.length for cut in cuts))} m in all; {_metres(value.travel)} m on the way with the tool up.")
    return _page(told, table(("", "kind", "part", "length, mm", "from x, mm", "from y, mm"), rows), _more(len(cuts)))


def _metres(mm: float) -> str:
    return number(round(mm / 1000, 3))


def plan(value: df.Plan) -> str:
    """Every pass, and what is to be known of all of them."""
    passes = [(index, depth, power) for index, (depth, power) in enumerate(value.passes[:_MOST], 1)]
    told: list[tuple[str, object]] = [
        ("way with the tool down, mm", round(value.length, 3)),
        ("bridges", value.bridges),
        ("cuts that begin on the line itself", value.unled),
        ("the tip strays from the line by, mm", value.deviation),
    ]
    if value.bare:
        told.append(("no place for a bridge on", ", ".join(value.bare)))
    return _page(table(("pass", "depth, mm", "power"), passes), _more(len(value.passes)), table(("", ""), told))


def tally(value: df.Tally) -> str:
    """What a job costs in."""
    rows = [
        ("cuts, mm", value.cut),
        ("parts", value.parts),
        ("starts", value.starts),
        ("corners", value.corners),
        ("way with the tool up, mm", value.travel),
        ("sheets", value.sheets),
    ]
    return _page(table(("", ""), rows))


def report(value: df.Report) -> str:
    """The verdict, the numbers and the problems."""
    numbers = [
        ("smallest gap, mm", value.gap_min),
        ("largest gap, mm", value.gap_max),
        ("deepest overlap, mm", value.overlap_max),
        ("overlap, mm³", round(value.overlap_volume, 3)),
        ("left open, mm³", round(value.void_volume, 3)),
        ("loose pieces", value.loose_pieces),
        ("thinnest neck, mm", value.thinnest_neck),
        ("fillet in inner corners, mm", value.corner_fillet),
    ]
    return _verdict(value.ok, "It fits.", "It does not fit.", value.problems, numbers)


def layout_report(value: df.LayoutReport) -> str:
    """The verdict, the numbers and the problems."""
    gap: float | str = "no two parts on one sheet" if value.gap_min is None else value.gap_min
    numbers = [("least gap of two parts, mm", gap), ("cuts that two parts share, mm", value.shared_length)]
    return _verdict(value.ok, "It can be cut.", "It cannot be cut.", value.problems, numbers)


def _verdict(ok: bool, yes: str, no: str, problems: Sequence[str], numbers: Sequence[tuple[str, object]]) -> str:
    told = table(("", "problem"), [(index, problem) for index, problem in enumerate(problems, 1)]) if problems else ""
    mark, said = ("✓ ", yes) if ok else ("✗ ", no)
    return _page(_said("", mark + said), told, table(("", ""), numbers))


def sweep(value: df.Boxes | df.Gaps) -> str:
    """Of arrays: between what their values lie, those that are refused left out."""
    columns = value.columns()
    refused = columns.pop("code", np.zeros(1)) != 0
    rows = []
    for name, column in columns.items():
        good = column[~np.broadcast_to(refused, column.shape)]
        unit = {"area": ", mm²", "minutes": "", "parts": "", "sheets": ""}.get(name, ", mm")
        rows.append((name.replace("_", " ") + unit, *([float(good.min()), float(good.max())] if good.size else ["", ""])))
    told = f", {refused.sum()} refused" if refused.any() else ""
    return _page(_said(f" of shape {value.shape}{told}", type(value).__name__), table(("", "least", "most"), rows))


def estimate(value: df.Estimate) -> str:
    """The minutes, and how sure they are."""
    rows: list[tuple[str, object]] = [("minutes", round(value.minutes, 1))]
    if value.spread is not None:
        rows.append(("give or take", round(value.spread, 1)))
    if value.outside:
        rows.append(("a guess, since outside the known jobs", ", ".join(value.outside)))
    return _page(table(("", ""), rows))


def corner(value: df.DovetailCorner) -> str:
    """The layout sheet, on paper."""
    paper = picture(value._repr_svg_()).replace('style="', 'style="background:#fff;', 1)
    warnings = "".join(_said(" " + warning, "Beyond what handbooks advise:") for warning in value.warnings)
    return _page(paper, warnings)
