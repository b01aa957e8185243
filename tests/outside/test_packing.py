"""Layouts of plain rectangles: published optima (Hopper and Turton 2000; Hopper 2000), and overlap and area by shapely on every layout."""

import random

import dryfit as df
import pytest
import shapely
import strips

GOOD = "# A strip width 4 known optimal height 3 items 2 total area 12\n# any comment\nwidth,height\n4,2\n4,1\n"
C = strips.strips("hopper_turton_c")
T = strips.strips("hopper_t")


def sound(layout: df.Layout, sizes: list[tuple[float, float]], gap: float = 0.0) -> None:
    """All parts that are not listed as left out lie on a sheet, inside its border, as large as they are and apart."""
    left = len(layout.unplaced)
    assert sum(len(sheet.placements) for sheet in layout.sheets) + left == len(sizes)
    area = 0.0
    for sheet in layout.sheets:
        width, height = sheet.stock.sheet
        border = sheet.stock.border
        inside = shapely.box(border, border, width - border, height - border)
        polygons = [shapely.Polygon(placement.loops[0]) for placement in sheet.placements]
        assert all(shapely.covers(inside, polygons))
        grown = shapely.STRtree([polygon.buffer(gap / 2, join_style="mitre") if gap else polygon for polygon in polygons])
        for a, b in grown.query(grown.geometries, predicate="intersects").T:
            assert a == b or shapely.intersection(grown.geometries[a], grown.geometries[b]).area < 1e-6
        area += sum(polygon.area for polygon in polygons)
    if not left:
        assert area == pytest.approx(sum(w * h for w, h in sizes), rel=1e-12)


def height_of(strip: strips.Strip, *, turns: bool) -> float:
    """The strip is a sheet twice as high as the optimum; the items come in no order, the same each time."""
    sizes = list(strip.sizes)
    random.Random(strip.name).shuffle(sizes)
    stock = df.Stock(thickness=1, sheet=(strip.width, 2 * strip.optimum), border=0, gap=0)
    layout = df.Parts.rectangles(sizes).lay_out(stock, turns=turns)
    assert len(layout.sheets) == 1 and not layout.unplaced
    sound(layout, sizes)
    if not turns:
        assert all(placement.quarter_turns == 0 for placement in layout.sheets[0].placements)
    return layout.used_height


def mean_over(heights: dict[str, float], all_strips: list[strips.Strip]) -> float:
    return sum(heights[strip.name] / strip.optimum - 1 for strip in all_strips) * 100 / len(all_strips)


def test_strips_with_quarter_turns():
    heights = {strip.name: height_of(strip, turns=True) for strip in C}
    assert all(strip.optimum <= heights[strip.name] <= strip.optimum + 1 for strip in C), heights
    # The optimum of C1 and C2 exactly; the mean is far below the 2 % that good heuristics reach.
    assert all(heights[strip.name] == strip.optimum for strip in C[:6]), heights
    assert mean_over(heights, C) < 0.8, heights


def test_strips_as_drawn():
    heights = {strip.name: height_of(strip, turns=False) for strip in T}
    assert all(heights[strip.name] >= strip.optimum for strip in T), heights
    assert mean_over(heights, T) < 4, heights


def test_a_thousand_on_many_sheets():
    chance = random.Random(4)
    sizes = [(chance.randint(200, 2000) / 10, chance.randint(200, 2000) / 10) for _ in range(1000)]
    stock = df.Stock(thickness=3, sheet=(600, 400), border=6, gap=1)
    layout = df.Parts.rectangles(sizes).lay_out(stock)
    sound(layout, sizes, gap=1)
    # The least that the area asks for, gaps included, and 4 % more.
    bound = sum((w + 1) * (h + 1) for w, h in sizes) / (589 * 389)
    assert bound <= len(layout.sheets) <= bound * 1.04 + 1


def test_offcuts_first_and_what_is_left_out_is_listed():
    chance = random.Random(5)
    sizes = [(chance.randint(30, 120), chance.randint(30, 120)) for _ in range(60)]
    offcut = df.Stock(thickness=3, sheet=(200, 130), border=0, gap=2, count=2)
    whole = df.Stock(thickness=3, sheet=(400, 300), border=5, gap=2, count=2)
    layout = df.Parts.rectangles(sizes).lay_out([offcut, whole])
    assert [sheet.stock.sheet for sheet in layout.sheets] == [(200, 130)] * 2 + [(400, 300)] * 2
    assert layout.unplaced and set(layout.unplaced).isdisjoint(p.part for sheet in layout.sheets for p in sheet.placements)
    sound(layout, sizes, gap=2)


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        ("items 2", "items 3", "2 items, not 3"),
        ("4,1", "4,x", "line 5: not two whole numbers"),
        ("4,1", "4,-1", "line 5: not two whole numbers"),
        ("4,1", "4,0", "line 5: not two whole numbers"),
        ("4,1", "4", "line 5: not two whole numbers"),
        ("4,1", "4,nan", "line 5: not two whole numbers"),
        ("4,1", "2,1", "total area 10, not 12"),
        ("4,1", "5,6", "line 5: 5 x 6 is wider than the strip of 4"),
        ("strip width", "strip wide", "line 1: not the head"),
        (GOOD, "", "line 1: not the head"),
    ],
)
def test_bad_files_are_refused(old: str, new: str, problem: str):
    assert strips.read(GOOD).sizes == ((4, 2), (4, 1))
    with pytest.raises(ValueError, match=problem):
        strips.read(GOOD.replace(old, new))
