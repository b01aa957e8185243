"""Plots by matplotlib: ``pip install "dryfit[plots]"``.

Each draws into ``ax`` or, without it, into a figure of its own, and returns the ``matplotlib.axes.Axes``. The colours are those of Okabe and Ito (2008), which
the colour-blind can tell apart; what matters is said in words or hatches too.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal, SupportsFloat, SupportsIndex

import numpy as np
import numpy.typing as npt

from dryfit import _dryfit as df
from dryfit._extras import need
from dryfit._refused import refused
from dryfit._words import shown

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["fit_window", "minutes", "sheet_use"]

_ORANGE, _GREEN, _BLUE, _PURPLE, _GREY = "#E69F00", "#009E73", "#56B4E9", "#CC79A7", "#BBBBBB"
_STEPS = 121
_SOME = 7
"""So many bars have names at most."""


def _axes(ax: "Axes | None", height: float | None = None) -> "Axes":
    """The axes, or those of a new figure, so many inches high."""
    if ax is not None:
        known: type = need("matplotlib.axes", "plots").Axes
        if not isinstance(ax, known):
            raise refused(df.WrongType, "ax", f"{shown(ax)} given, allowed a matplotlib Axes")
        return ax
    size = None if height is None else (6.4, height)
    made: "Axes" = need("matplotlib.pyplot", "plots").subplots(layout="constrained", figsize=size)[1]
    return made


def _number(value: float, name: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float | np.floating | np.integer):
        raise refused(df.WrongType, name, f"{shown(value)} given, allowed a number of mm")
    if not np.isfinite(value):
        raise refused(df.NotFinite, name, f"{value} given, allowed a number of mm")
    return float(value)


def fit_window(
    *,
    thickness: SupportsFloat | SupportsIndex | str,
    kerf: SupportsFloat | SupportsIndex | str = 0.0,
    fit: df.Fit | None = None,
    gap: Literal["flank", "shoulder", "cheek", "tip"] = "cheek",
    least: float = 0.0,
    most: float = 0.1,
    real_thickness: npt.ArrayLike | None = None,
    real_kerf: npt.ArrayLike | None = None,
    ax: "Axes | None" = None,
) -> "Axes":
    """How far board and cut may stray from what the parts were made for: the gap over both, and the window in which it is neither too small nor too large.

    ``thickness`` and ``kerf`` (0) are what the parts are made for, in mm or strings with a unit, ``fit`` is their fit (exact if left out). ``gap``: which of the
    gaps of ``gaps`` is drawn. From ``least`` (0) to ``most`` (0.1 mm) it is right. ``real_thickness`` and ``real_kerf``: arrays (n,) and (m,) of what board and cut may be in mm,
    rising; if left out, a tenth of the thickness either way, and 0 to 0.5 mm or twice the kerf. ``ax``: where it is drawn.

    Raises what ``gaps`` raises; ``OutOfRange``, ``WrongType``, ``NotFinite``; ``NotAvailable`` where matplotlib is missing.

    >>> import dryfit as df
    >>> from dryfit import plots
    >>> ax = plots.fit_window(thickness=2.5, kerf=0.2, fit=df.Fit(cheek=0.05))
    >>> ax.get_xlabel(), ax.get_ylabel()
    ('real thickness of the board, mm', 'real width of the cut, mm')
    """
    if gap not in ("flank", "shoulder", "cheek", "tip"):
        raise refused(df.OutOfRange, "gap", f'{shown(gap)} given, allowed "flank", "shoulder", "cheek" or "tip"')
    # As they are read everywhere else.
    thickness, kerf = df.Stock(thickness=thickness, sheet=(1, 1)).thickness, df.Cutter.beam(kerf=kerf).kerf
    least, most = _number(least, "least"), _number(most, "most")
    if not least < most:
        raise refused(df.OutOfRange, "most", f"{most} given, allowed more than least, {least}")
    board = np.linspace(0.9 * thickness, 1.1 * thickness, _STEPS) if real_thickness is None else _rising(real_thickness, "real_thickness")
    cut = np.linspace(0, max(2 * kerf, 0.5), _STEPS) if real_kerf is None else _rising(real_kerf, "real_kerf")
    found = df.gaps(thickness=thickness, kerf=kerf, fit=fit, real_thickness=board[None, :], real_kerf=cut[:, None])
    over: npt.NDArray[np.float64] = np.broadcast_to(getattr(found, gap), (len(cut), len(board)))

    ax = _axes(ax)
    patch = need("matplotlib.patches", "plots").Patch
    beyond = abs(over).max() + abs(least) + abs(most) + 1
    looks = [(_ORANGE, "//", "too tight"), (_GREEN, "", "right"), (_BLUE, "..", "too loose")]
    ax.contourf(board, cut, over, levels=[-beyond, least, most, beyond], colors=[f"{colour}80" for colour, _, _ in looks], hatches=[hatch for _, hatch, _ in looks])
    lines = ax.contour(board, cut, over, levels=8, colors="#000000", linewidths=0.6)
    ax.clabel(lines, fmt=lambda value: f"{value:g} mm", fontsize="small")
    (meant,) = ax.plot([thickness], [kerf], "o", color="#000000", label="made for")
    ax.set_xlabel("real thickness of the board, mm")
    ax.set_ylabel("real width of the cut, mm")
    ax.set_title(f"{gap}: right from {least:g} to {most:g} mm")
    ax.legend(handles=[*(patch(facecolor=f"{colour}80", hatch=hatch, label=label) for colour, hatch, label in looks), meant], loc="best", framealpha=0.9)
    return ax


def _rising(values: npt.ArrayLike, name: str) -> npt.NDArray[np.float64]:
    try:
        array = np.asarray(values, dtype=np.float64)
    except (TypeError, ValueError):
        raise refused(df.WrongType, name, f"{shown(values)} given, allowed an array of numbers") from None
    if array.ndim == 1 and len(array) > 1:
        named: dict[str, Any] = {name: array}
        df.gaps(thickness=1, **named)
    if array.ndim != 1 or len(array) < 2 or not (np.diff(array) > 0).all():
        raise refused(df.OutOfRange, name, f"an array of shape {array.shape} given, allowed two or more numbers that rise")
    return array


def minutes(size: npt.ArrayLike, boxes: df.Boxes, *, ax: "Axes | None" = None) -> "Axes":
    """The minutes of boxes against their size, with the number of sheets where it is known.

    ``size``: an array (n,) of what goes along the axis, in mm, as the sides of cubes. ``boxes``: what ``boxes`` made of these n boxes with a ``pace``; those that
    cannot be made are left out. No two of one size: they are joined by a line. ``ax``: where it is drawn.

    Raises ``WrongType``, ``MissingKey`` where no pace was given, ``OutOfRange`` where they are not as many; ``NotAvailable`` where matplotlib is missing.

    >>> import numpy as np, dryfit as df
    >>> from dryfit import plots
    >>> stock, side = df.Stock(thickness=2, sheet=(280, 280), border=6), np.arange(60, 131, 10)
    >>> cubes = np.repeat(side[:, None], 3, axis=1)
    >>> ax = plots.minutes(side, df.boxes(stock=stock, outside=cubes, pace=df.Pace(feed=20, acceleration=500)))
    >>> ax.get_ylabel()
    'minutes'
    """
    if not isinstance(boxes, df.Boxes):
        raise refused(df.WrongType, "boxes", f"{shown(boxes)} given, allowed Boxes")
    if boxes.minutes is None:
        raise refused(df.MissingKey, "boxes", "no minutes in them, allowed boxes that were made with a pace")
    try:
        along = np.asarray(size, dtype=np.float64).ravel()
    except (TypeError, ValueError):
        raise refused(df.WrongType, "size", f"{shown(size)} given, allowed an array of numbers") from None
    made = np.asarray(boxes.minutes).ravel()
    if len(along) != len(made):
        raise refused(df.OutOfRange, "size", f"{len(along)} given, allowed {len(made)}, one for each box")
    order = np.argsort(along, kind="stable")
    along, made = along[order], made[order]
    ax = _axes(ax)
    if len(np.unique(along)) == len(along):
        ax.plot(along, made, color="#000000", linewidth=0.8)
    sheets = np.zeros(len(made), dtype=np.int64) if boxes.sheets is None else np.asarray(boxes.sheets).ravel()[order]
    good = np.isfinite(made)
    for index, count in enumerate(np.unique(sheets[good])):
        here = good & (sheets == count)
        label = f"{count} sheet{'s' if count != 1 else ''}" if count else None
        colour, mark = (_BLUE, _ORANGE, _GREEN, _PURPLE)[index % 4], "osD^v"[index % 5]
        ax.plot(along[here], made[here], mark, color=colour, markeredgecolor="#000000", markeredgewidth=0.5, label=label)
    if sheets[good].any():
        ax.legend()
    ax.set_xlabel("size, mm")
    ax.set_ylabel("minutes")
    ax.set_ylim(bottom=0)
    return ax


def sheet_use(layout: df.Layout, *, ax: "Axes | None" = None) -> "Axes":
    """What becomes of each sheet: a bar of the shares that are parts, offcuts worth keeping, and waste.

    ``layout``: whose sheets. ``ax``: where it is drawn.

    Raises ``WrongType``; ``NotAvailable`` where matplotlib is missing.

    >>> import dryfit as df
    >>> from dryfit import plots
    >>> stock = df.Stock(thickness=2.5, sheet=(500, 350), border=8)
    >>> ax = plots.sheet_use(df.Parts.rectangles([(200, 330)]).lay_out(stock))
    >>> [round(float(bar.get_width()), 1) for bar in ax.patches]
    [37.7, 58.2, 4.1]
    """
    if not isinstance(layout, df.Layout):
        raise refused(df.WrongType, "layout", f"{shown(layout)} given, allowed a Layout")
    sheets = layout.sheets
    whole = np.array([sheet.stock.sheet[0] * sheet.stock.sheet[1] for sheet in sheets])
    parts = np.array([sum(placement.area for placement in sheet.placements) for sheet in sheets]) / whole * 100
    left = np.array([sum(offcut.width * offcut.height for offcut in sheet.offcuts) for sheet in sheets]) / whole * 100
    ax = _axes(ax, min(1.2 + 0.5 * len(sheets), 8))
    at, before = np.arange(1, len(sheets) + 1), np.zeros(len(sheets))
    shares: Sequence[tuple[str, npt.NDArray[np.float64], str, str]] = (
        ("parts", parts, _ORANGE, ""),
        ("offcuts", left, _BLUE, ".."),
        ("waste", 100 - parts - left, _GREY, "//"),
    )
    for name, share, colour, hatch in shares:
        bars = ax.barh(at, share, left=before, color=colour, hatch=hatch, edgecolor="#000000", linewidth=0.5, label=name)
        if len(sheets) <= _SOME:
            ax.bar_label(bars, [f"{value:.0f} %" if value >= 5 else "" for value in share], label_type="center", bbox={"facecolor": "#FFFFFFCC", "edgecolor": "none", "pad": 1})
        before = before + share
    ax.set_yticks(at if len(sheets) <= _SOME else at[:: len(sheets) // _SOME + 1])
    ax.set_ylabel("sheet")
    ax.set_xlabel("share of the sheet, %")
    ax.set_xlim(0, 100)
    ax.invert_yaxis()
    ax.legend(loc="lower center", bbox_to_anchor=(0.5, 1), ncols=3, frameon=False)
    return ax
