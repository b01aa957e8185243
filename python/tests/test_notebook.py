"""Pictures with sliders: what they show, what they refuse, and that they follow the hand."""

import re
import subprocess
import sys
import time
from typing import Any

import dryfit as df
import pytest
from dryfit import _html, notebook

pytest.importorskip("ipywidgets")

BEAM, LOOSE = df.Cutter.beam(kerf=0.2), df.Fit(cheek=0.1)


@pytest.fixture
def box(stock: df.Stock) -> df.Assembly:
    return df.box(outside=(110, 85, 60), stock=stock)


@pytest.fixture
def drawer() -> df.Assembly:
    """Large: 4 x 3 dividers, 11 boards, more than a thousand corners."""
    stock = df.Stock(thickness=3, sheet=(900, 600))
    return df.box(outside=(420, 320, 80), stock=stock, dividers=(4, 3), dividers_in_base=True, top="open")


def moved(view: Any, slider: int, values: list[float]) -> list[tuple[str, float]]:
    """The picture at each place of a slider, and how many ms of the processor it took to get there."""
    made = []
    for value in values:
        start = time.process_time()
        view.children[slider].value = value
        made.append((view.children[-1].value, (time.process_time() - start) * 1e3))
    return made


def test_the_exploded_picture_follows_its_slider(box: df.Assembly) -> None:
    view = notebook.explode(box)
    slider, picture = view.children
    assert (slider.value, slider.min, slider.max) == (22, 0, 55)
    for value in (0, 10.0, 55.0):
        slider.value = value
        assert _html.picture(box.picture(explode=value)) in picture.value
    # As high as the highest, so that what stands below stays where it is.
    _, height = _html.size(box.picture(explode=55))
    assert f"min-height:{min(height * 96 / 25.4, 640):.0f}px" in picture.value


def test_the_gaps_follow_the_cut_and_the_board(box: df.Assembly) -> None:
    view = notebook.fit(box.cut(cutter=BEAM, fit=LOOSE), cutter=BEAM, fit=LOOSE, part="left")
    kerf, board, picture = view.children
    assert (kerf.value, kerf.min, kerf.max, board.value, board.min, board.max) == (0.2, 0, 0.5, 2.5, 2, 3)
    for value, thick in [(0.2, 2.5), (0.26, 2.5), (0.14, 2.6)]:
        kerf.value, board.value = value, thick
        gaps = df.gaps(thickness=2.5, kerf=0.2, real_thickness=thick, real_kerf=value, fit=LOOSE)
        table = re.findall(r"<tr.*?</tr>", picture.value)[1:]
        shown = [float(re.findall(r"<td[^>]*>(.*?)</td>", row)[1]) for row in table]
        assert shown == pytest.approx([float(gap) for gap in (gaps.flank, gaps.shoulder, gaps.cheek, gaps.tip)], abs=1e-9)
        assert f'stroke-width="{value}"' in picture.value and "<title>left</title>" in picture.value
    words = [re.findall(r"<td[^>]*>(.*?)</td>", row)[2] for row in re.findall(r"<tr.*?</tr>", picture.value)[1:]]
    assert words == ["interference", "clearance", "interference", "stands back"]


def test_every_update_is_quick(drawer: df.Assembly) -> None:
    """50 ms are what a hand takes for at once; of the processor and the best of five rounds, since other programs run too."""
    parts = drawer.cut(cutter=BEAM, fit=LOOSE)
    views = [(notebook.explode(drawer), 0, [0.0, 20, 60, 120, 200]), (notebook.fit(parts, cutter=BEAM, fit=LOOSE, part="base"), 0, [0.0, 0.1, 0.3, 0.4])]
    views += [(views[1][0], 1, [2.6, 2.9, 3.1, 3.4])]
    for view, slider, places in views:
        rounds = []
        for _ in range(5):
            taken = moved(view, slider, places)
            rounds.append([ms for _, ms in taken])
            assert len({picture for picture, _ in taken}) == len(places)
            view.children[slider].value = places[1] + 0.01
        least = [min(each) for each in zip(*rounds, strict=True)]
        assert max(least) < 50, f"{least} ms at {places}"


def test_where_nobody_runs_the_notebook_the_picture_stands(box: df.Assembly) -> None:
    bundle = notebook.explode(box)._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in bundle
    assert bundle["text/html"] == _html.picture(box.picture(explode=22))


def test_bad_input_is_named(box: df.Assembly) -> None:
    parts = box.cut(cutter=BEAM)
    bad: Any = box.panels["front"]
    with pytest.raises(df.WrongType, match="^assembly: .*Panel.* given, allowed an Assembly"):
        notebook.explode(bad)
    for named, name in [((bad, BEAM, None), "parts"), ((parts, bad, None), "cutter"), ((parts, BEAM, bad), "fit")]:
        with pytest.raises(df.WrongType, match=f"^{name}: .* given, allowed a "):
            notebook.fit(named[0], cutter=named[1], fit=named[2])
    with pytest.raises(df.UnknownKey, match='part: "lid" given, allowed one of "front"'):
        notebook.fit(parts, cutter=BEAM, part="lid")
    with pytest.raises(df.MissingKey, match="^parts: no part given, allowed parts that an assembly was cut into"):
        notebook.fit(df.Parts.rectangles([]), cutter=BEAM)
    with pytest.raises(df.MissingKey, match="thickness"):
        notebook.fit(df.Parts.rectangles([(60, 40)]), cutter=BEAM)
    with pytest.raises(df.NoBoards):
        notebook.explode(df.Assembly(stock=box.stock))


def test_boards_that_lock_are_refused(locked: df.Assembly) -> None:
    with pytest.raises(df.Locked):
        notebook.explode(locked)


def test_without_the_library_it_says_what_to_install() -> None:
    code = """
import sys
sys.modules["ipywidgets"] = None
import dryfit as df
from dryfit import notebook
try:
    notebook.explode(df.box(outside=(110, 85, 60), stock=df.Stock(thickness=3, sheet=(500, 350))))
except df.NotAvailable as error:
    print(error)
"""
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert 'pip install "dryfit[notebook]"' in said
