"""Plots: that they draw what the package computes, where it is asked for."""

import subprocess
import sys
from decimal import Decimal
from typing import Any

import dryfit as df
import numpy as np
import pytest
from dryfit import plots

matplotlib = pytest.importorskip("matplotlib")
matplotlib.use("agg")

OKABE_ITO = ["#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7", "#bbbbbb"]


@pytest.fixture
def ax() -> Any:
    from matplotlib.figure import Figure

    return Figure().subplots()


@pytest.mark.parametrize("gap", ["flank", "shoulder", "cheek", "tip"])
def test_the_window_is_where_the_gap_is_right(ax: Any, gap: Any) -> None:
    board, cut = np.linspace(2.3, 2.7, 41), np.linspace(0.1, 0.4, 31)
    fit = df.Fit(flank=0.02, cheek=0.05, tip=-0.02)
    assert plots.fit_window(thickness=2.5, kerf=0.2, fit=fit, gap=gap, least=-0.03, most=0.08, real_thickness=board, real_kerf=cut, ax=ax) is ax
    bands = [path for path in ax.collections[0].get_paths()]
    assert len(bands) == 3
    rng = np.random.default_rng(7)
    inside = 0
    for thick, kerf in zip(rng.uniform(2.31, 2.69, 300), rng.uniform(0.11, 0.39, 300), strict=True):
        value = float(getattr(df.gaps(thickness=2.5, kerf=0.2, fit=fit, real_thickness=thick, real_kerf=kerf), gap))
        if min(abs(value + 0.03), abs(value - 0.08)) > 1e-6:
            band = 0 if value < -0.03 else 1 if value < 0.08 else 2
            assert [path.contains_point((thick, kerf)) for path in bands] == [band == 0, band == 1, band == 2], (thick, kerf, value)
            inside += band == 1
    assert 10 < inside < 300
    assert "real thickness" in ax.get_xlabel() and "real width of the cut" in ax.get_ylabel() and gap in ax.get_title()


def test_a_window_has_its_own_ranges_and_figure() -> None:
    from matplotlib import pyplot

    ax = plots.fit_window(thickness=2.5, kerf=0.3)
    assert ax.get_xlim() == pytest.approx((2.25, 2.75)) and ax.get_ylim() == pytest.approx((0, 0.6))
    legend = ax.get_legend()
    assert legend and [text.get_text() for text in legend.get_texts()] == ["too tight", "right", "too loose", "made for"]
    pyplot.close("all")


def test_the_shares_of_sheets_add_up(ax: Any, stock: df.Stock) -> None:
    parts = df.box(outside=(110, 85, 60), stock=stock).cut(cutter=df.Cutter.beam(kerf=0.2))
    layout = (parts + parts + parts + parts + parts).lay_out(stock)
    plots.sheet_use(layout, ax=ax)
    widths = np.array([bar.get_width() for bar in ax.patches]).reshape(3, len(layout.sheets))
    assert widths.sum(axis=0) == pytest.approx(100) and (widths >= 0).all()
    first = sum(placement.area for placement in layout.sheets[0].placements) / (500 * 350) * 100
    assert widths[0, 0] == pytest.approx(first)
    assert [matplotlib.colors.to_hex(bar.get_facecolor()) in OKABE_ITO for bar in ax.patches] == [True] * len(ax.patches)


def cubes(stock: df.Stock, sides: list[int], pace: df.Pace | None) -> df.Boxes:
    return df.boxes(stock=stock, outside=[(side, side, side) for side in sides], pace=pace)


def test_minutes_stand_where_the_sizes_are(ax: Any) -> None:
    stock, pace = df.Stock(thickness=2, sheet=(280, 280), border=6), df.Pace(feed=20, acceleration=500)
    sides = [120, 60, 90, 3, 100]
    made = cubes(stock, sides, pace)
    assert made.minutes is not None and made.sheets is not None and made.code[3] != 0
    assert plots.minutes(sides, made, ax=ax) is ax
    line, *marks = ax.lines
    other = ax.figure.add_subplot()
    assert line.get_xdata().tolist() == sorted(sides) and np.isnan(line.get_ydata()[0])
    shown = {(x, y): mark.get_label() for mark in marks for x, y in zip(mark.get_xdata(), mark.get_ydata(), strict=True)}
    told = {(side, minutes): f"{sheets} sheet{'s' if sheets > 1 else ''}" for side, minutes, sheets in zip(sides, made.minutes, made.sheets, strict=True) if side > 3}
    assert shown == told and len(set(told.values())) > 1
    # Where several are of one size, no line goes through them.
    plots.minutes([1, 2, 3, 4, 4], made, ax=other)
    assert len(other.lines) == len(marks)
    # Without a layout of its own nobody knows the sheets, nor the minutes.
    with pytest.raises(df.MissingKey, match="^boxes: no minutes"):
        plots.minutes(sides, cubes(stock, sides, None), ax=ax)
    with pytest.raises(df.OutOfRange, match="^size: 2 given, allowed 5"):
        plots.minutes([1, 2], made, ax=ax)
    wrong: Any = "large"
    with pytest.raises(df.WrongType, match="^size: "):
        plots.minutes(wrong, made, ax=ax)
    with pytest.raises(df.WrongType, match="^boxes: "):
        plots.minutes(sides, wrong, ax=ax)


def test_what_parts_are_made_for_may_have_a_unit(ax: Any) -> None:
    plots.fit_window(thickness="1/8 in", kerf=Decimal("0.2"), ax=ax)
    made_for = ax.lines[0]
    assert (made_for.get_xdata()[0], made_for.get_ydata()[0]) == (3.175, 0.2)


def test_boxes_that_cannot_be_made_leave_an_empty_plot(ax: Any) -> None:
    stock = df.Stock(thickness=2, sheet=(280, 280))
    plots.minutes([3], cubes(stock, [3], df.Pace(feed=20, acceleration=500)), ax=ax)
    assert len(ax.lines) == 1 and ax.get_ylabel() == "minutes"


def test_many_sheets_and_none(stock: df.Stock) -> None:
    from matplotlib.figure import Figure

    for count in (0, 40):
        ax = Figure().subplots()
        plots.sheet_use(df.Parts.rectangles([(400, 300)] * count).lay_out(stock), ax=ax)
        assert len(ax.patches) == 3 * count and len(ax.get_yticks()) <= 9


def test_bad_input_is_named(stock: df.Stock, ax: Any) -> None:
    wrong: Any = "wide"
    with pytest.raises(df.OutOfRange, match='^gap: "wide" given, allowed "flank", '):
        plots.fit_window(thickness=2.5, gap=wrong)
    with pytest.raises(df.NotALength, match="^thickness: 'wide' given, allowed 0.01 mm to 200 mm"):
        plots.fit_window(thickness=wrong)
    with pytest.raises(df.NotFinite, match="^most: nan given"):
        plots.fit_window(thickness=2.5, most=float("nan"))
    with pytest.raises(df.OutOfRange, match="^most: 0.1 given, allowed more than least, 0.2"):
        plots.fit_window(thickness=2.5, least=0.2, most=0.1)
    for name, values in {"real_thickness[1]": [2.4, float("nan"), 2.6], "real_kerf[0]": [float("inf"), 1]}.items():
        with pytest.raises(df.NotFinite) as refused:
            plots.fit_window(thickness=2.5, **{name[:-3]: values}, ax=ax)  # type: ignore[arg-type]
        assert refused.value.parameter == name and str(refused.value).startswith(f"{name}: ")
    with pytest.raises(df.OutOfRange, match="^real_kerf.0.: -0.1 mm given, allowed 0 mm to 20 mm"):
        plots.fit_window(thickness=2.5, real_kerf=[-0.1, 0.1], ax=ax)
    with pytest.raises(df.WrongType, match='^ax: "wide" given'):
        plots.fit_window(thickness=2.5, ax=wrong)
    for bad in ([], [1], [2, 1], [[1, 2]]):
        with pytest.raises(df.OutOfRange, match="^real_kerf: an array of shape .* given, allowed two or more numbers that rise"):
            plots.fit_window(thickness=2.5, real_kerf=bad, ax=ax)
    with pytest.raises(df.WrongType, match="^real_thickness: "):
        plots.fit_window(thickness=2.5, real_thickness=["thick"], ax=ax)
    with pytest.raises(df.OutOfRange, match="thickness"):
        plots.fit_window(thickness=-1)
    with pytest.raises(df.WrongType, match="^layout: .* given, allowed a Layout"):
        plots.sheet_use(wrong)


def test_without_the_library_it_says_what_to_install() -> None:
    code = """
import sys
sys.modules["matplotlib"] = None
import dryfit as df
from dryfit import plots
try:
    plots.fit_window(thickness=3)
except df.NotAvailable as error:
    print(error)
"""
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert 'pip install "dryfit[plots]"' in said
