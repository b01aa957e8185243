"""Pictures with sliders, for notebooks: ``pip install "dryfit[notebook]"``, which is ipywidgets.

Whatever one moves, the picture is made anew by the core in a few milliseconds. Where nobody runs the notebook, on a page or on paper, the picture stands there
as it was at first.
"""

from collections.abc import Callable
from typing import Any

from dryfit import _dryfit as df
from dryfit import _html
from dryfit._extras import need
from dryfit._refused import refused
from dryfit._words import number, shown

__all__ = ["explode", "fit"]

_PIXELS = 96 / 25.4


def _column(sliders: list[Any], draw: Callable[..., str], height: float = 0) -> Any:
    """Sliders above what ``draw`` makes of their values, at least so many pixels high so that the page below stands still."""
    widgets = need("ipywidgets", "notebook")
    picture = widgets.HTML()

    def again(change: object = None) -> None:
        picture.value = f'<div style="min-height:{height:.0f}px">{draw(*(slider.value for slider in sliders))}</div>'

    again()
    for slider in sliders:
        slider.observe(again, names="value")
    column = widgets.VBox([*sliders, picture])
    plain, still = column._repr_mimebundle_, draw(*(slider.value for slider in sliders))

    def shown_as(**named: Any) -> dict[str, Any]:
        return {**plain(**named), "text/html": still}

    column._repr_mimebundle_ = shown_as
    return column


def _slider(name: str, value: float, least: float, most: float, digits: int) -> Any:
    step = 10**-digits
    return need("ipywidgets", "notebook").FloatSlider(
        value=value, min=least, max=most, step=step, description=f"{name}, mm", readout_format=f".{digits}f",
        style={"description_width": "9em"}, layout={"width": "32em", "max_width": "100%"},
    )  # fmt: skip


def explode(assembly: df.Assembly) -> Any:
    """The picture of an assembly with a slider for how far apart its boards are.

    ``assembly``: what is shown, as it is whenever the slider moves. The slider goes from 0, all put together, to half the longest
    board, in mm. Returns an ``ipywidgets.VBox``: the slider and the picture.

    Raises ``WrongType``; what ``Assembly.picture`` raises, ``Locked`` where no straight moves take the boards apart; ``NotAvailable`` where ipywidgets is missing.

    >>> import dryfit as df
    >>> from dryfit import notebook
    >>> stock = df.Stock(thickness=2.5, sheet=(500, 350))
    >>> view = notebook.explode(df.box(outside=(110, 85, 60), stock=stock))
    >>> slider, picture = view.children
    >>> slider.value = 0
    >>> picture.value.count("</title>")
    7
    """
    if not isinstance(assembly, df.Assembly):
        raise refused(df.WrongType, "assembly", f"{shown(assembly)} given, allowed an Assembly")
    panels = assembly.panels
    longest = max(max(_html.flat(panel.loops)) for panel in panels.values())
    most = max(round(longest / 2), 1)
    assembly.picture(explode=most)

    def draw(apart: float) -> str:
        return _html.picture(assembly.picture(explode=apart))

    _, height = _html.size(assembly.picture(explode=most))
    slider = _slider("apart", round(longest / 5), 0, most, 0)
    return _column([slider], draw, height=min(height * _PIXELS, 640))


def fit(parts: df.Parts, *, cutter: df.Cutter, fit: df.Fit | None = None, part: str | None = None) -> Any:
    """What becomes of parts where the cut or the board is not what they were made for: the corner of one part, much enlarged, and the gaps.

    ``parts``: as ``Assembly.cut`` made them for ``cutter`` and ``fit`` (exact if left out). ``part``: the name of the one whose lower left corner is shown, the
    first if left out. One slider is the real width of the cut, the other the real thickness of the board, in mm; in dashes stands the outline that was meant.
    Returns an ``ipywidgets.VBox``: both sliders and the picture with the table of gaps, by ``gaps``.

    Raises ``WrongType``; ``UnknownKey`` for a name that is not among the parts; ``MissingKey`` for plain parts of any board; ``NotAvailable`` where ipywidgets is missing.

    >>> import dryfit as df
    >>> from dryfit import notebook
    >>> beam, loose = df.Cutter.beam(kerf=0.2), df.Fit(cheek=0.1)
    >>> box = df.box(outside=(110, 85, 60), stock=df.Stock(thickness=3, sheet=(500, 350)))
    >>> view = notebook.fit(box.cut(cutter=beam, fit=loose), cutter=beam, fit=loose)
    >>> kerf, board, picture = view.children
    >>> kerf.value = 0.25
    >>> "0.15" in picture.value     # cheek 0.1, and twice half of what the cut is wider
    True
    """
    for name, value, kind in (("parts", parts, df.Parts), ("cutter", cutter, df.Cutter), ("fit", df.Fit() if fit is None else fit, df.Fit)):
        if not isinstance(value, kind):
            raise refused(df.WrongType, name, f"{shown(value)} given, allowed a {kind.__name__}")
    if not parts:
        raise refused(df.MissingKey, "parts", "no part given, allowed parts that an assembly was cut into")
    name = next(iter(parts)) if part is None else part
    if name not in parts:
        raise refused(df.UnknownKey, "part", f"{shown(name)} given, allowed one of {', '.join(map(shown, list(parts)[:8]))}")
    one = parts[name]
    if one.thickness is None:
        raise refused(df.MissingKey, "thickness", f"missing in part {shown(name)}, allowed parts that an assembly was cut into")
    thickness, kerf, side = one.thickness, cutter.kerf, 6 * one.thickness

    def draw(real_kerf: float, real_thickness: float) -> str:
        gaps = df.gaps(thickness=thickness, kerf=kerf, real_thickness=real_thickness, real_kerf=real_kerf, fit=fit)
        found = [float(gap) for gap in (gaps.flank, gaps.shoulder, gaps.cheek, gaps.tip)]
        rows = [(what, gap, _word(gap, *words)) for (what, *words), gap in zip(_GAPS, found, strict=True)]
        close = _html.picture(one.picture(kerf=real_kerf, side=side))
        said = f"{name}, lower left corner; made for a cut of {number(kerf)} mm and a board of {number(thickness)} mm"
        return _html.figure(close, said) + _html.table(("gap", "mm", ""), rows)

    sliders = [
        _slider("real cut", kerf, 0, max(round(2 * kerf, 2), 0.5), 2),
        _slider("real board", thickness, round(0.8 * thickness, 2), round(1.2 * thickness, 2), 2),
    ]
    return _column(sliders, draw)


_GAPS = (
    ("flank: cut edge against cut edge", "clearance", "interference"),
    ("shoulder: behind a finger, against the mate's face", "clearance", "interference"),
    ("cheek: both sides of a slot, against the board in it", "clearance", "interference"),
    ("tip: the end of a finger, against the mate's outer face", "stands proud", "stands back"),
)


def _word(gap: float, more: str, less: str) -> str:
    return "" if gap == 0 else more if gap > 0 else less
