"""The order of cuts against shapely: what lies inside comes first, outlines come last, the way is what the points say."""

import dryfit as df
import numpy as np
import pytest
from shapely import STRtree, unary_union
from shapely.geometry import LinearRing, LineString, Polygon

STOCK = df.Stock(thickness=3, sheet=(900, 700), border=8, gap=2)


def layouts():
    rack = df.box(outside=(200, 150, 90), stock=STOCK, dividers=(3, 2)).cut(cutter=df.Cutter.beam(kerf=0.2))
    relieved = df.box(outside=(160, 120, 80), stock=STOCK, dividers=(2, 1)).cut(cutter=df.Cutter.bit(diameter=2), relief=df.Relief(radius=1))
    tiles = df.Parts.rectangles([(30 + 7 * k % 50, 20 + 11 * k % 40) for k in range(120)])
    return [rack.lay_out(STOCK), relieved.lay_out(STOCK), (rack + relieved).lay_out(STOCK), tiles.lay_out(STOCK)]


@pytest.mark.parametrize("start", ["corner", "middle"])
@pytest.mark.parametrize("number", range(4))
def test_order(number, start):
    for sheet in layouts()[number].sheets:
        route = sheet.route(start=start)
        cuts = route.cuts
        loops = [loop for placement in sheet.placements for loop in placement.loops]
        assert len(cuts) == len(loops)
        # Every line that shapely sees on the sheet is cut once, whole.
        areas = sorted(Polygon(loop).area for loop in loops)
        assert np.allclose(sorted(Polygon(cut.points).area for cut in cuts), areas, rtol=1e-9)
        assert sum(cut.length for cut in cuts) == pytest.approx(sum(LinearRing(loop).length for loop in loops), rel=1e-4)
        polygons = [Polygon(cut.points) for cut in cuts]
        tree = STRtree(polygons)
        for outer, inner in tree.query(polygons, predicate="contains_properly").T:
            assert inner < outer, (cuts[outer], cuts[inner])
        held = {inner for _, inner in tree.query(polygons, predicate="contains_properly").T}
        kinds = ["cut-outer" if index not in held else "cut-inner" for index in range(len(cuts))]
        # No part lies in another's hole here: what is held is a hole, and all holes come before all outlines.
        assert [cut.kind for cut in cuts] == kinds == sorted(kinds)
        at, way = np.zeros(2), 0.0
        for cut in cuts:
            way += np.hypot(*(cut.points[0] - at))
            at = cut.points[-1]
        assert way == pytest.approx(route.travel, abs=1e-4)


def test_the_way_is_no_longer_than_always_on_to_the_nearest():
    sheet = layouts()[3].sheets[0]
    corners = [np.unique(cut.points[:-1], axis=0) for cut in sheet.route().cuts]
    at, way, left = np.zeros(2), 0.0, set(range(len(corners)))
    while left:
        distance, line, corner = min(
            (float(np.hypot(*(corners[line] - at).T).min()), line, int(np.hypot(*(corners[line] - at).T).argmin())) for line in left
        )
        way, at = way + distance, corners[line][corner]
        left.remove(line)
    assert sheet.route().travel < 0.95 * way


@pytest.mark.parametrize("side", [60, 80, 90])
def test_shared_cuts_come_between_holes_and_outlines_and_once(side):
    stock = df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)
    cube = df.box(outside=(side, side, side), stock=stock, dividers=(1, 0)).cut(cutter=df.Cutter.blade(kerf=0))
    layout = cube.lay_out(stock, share_cuts=True)
    assert layout.shared_length > 0
    for sheet in layout.sheets:
        cuts = sheet.route(home=True).cuts
        order = ["cut-inner", "cut-shared", "cut-outer"]
        places = [order.index(cut.kind) for cut in cuts]
        assert places == sorted(places)
        # shapely's union of all outlines is what is cut: nothing is left out, and nothing is cut twice.
        lines = [LineString(cut.points) for cut in cuts]
        outlines = [LinearRing(loop) for placement in sheet.placements for loop in placement.loops]
        assert sum(cut.length for cut in cuts) == pytest.approx(unary_union(outlines).length, abs=1e-3)
        assert unary_union(lines).length == pytest.approx(unary_union(outlines).length, abs=1e-3)
        assert unary_union(outlines).difference(unary_union(lines).buffer(1e-6)).length < 1e-3
    assert layout.tally().cut == pytest.approx(layout.cut_length)
