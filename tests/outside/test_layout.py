"""Layouts of boxes: what the proof of a layout says, and the offcuts, held against shapely."""

import itertools

import dryfit as df
import pytest
import shapely

STOCKS = {
    "wide": df.Stock(thickness=3, sheet=(400, 300), border=8, gap=1.5),
    "tight": df.Stock(thickness=3, sheet=(260, 260), border=3, gap=0.4),
    "touching": df.Stock(thickness=3, sheet=(350, 250), border=0, gap=0),
}
JOBS = {
    "box": lambda stock: df.box(outside=(110, 85, 60), stock=stock),
    "cells": lambda stock: df.box(outside=(120, 90, 50), stock=stock, dividers=(2, 1), top="open"),
    "prism": lambda stock: df.prism(sides=6, across_flats=90, height=60, stock=stock),
}


def polygon(loops) -> shapely.Polygon:
    """The chords of a part's outlines; they bound a solid that holds the part."""
    solid = shapely.Polygon()
    for loop in loops:
        solid = shapely.symmetric_difference(solid, shapely.Polygon(loop))
    return solid


@pytest.mark.parametrize("share_cuts", [False, True])
@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS)
@pytest.mark.parametrize("job", JOBS.values(), ids=JOBS)
def test_overlap_gaps_and_offcuts(job, stock, share_cuts):
    layout = job(stock).cut(cutter=df.Cutter.blade(kerf=0)).lay_out(stock, share_cuts=share_cuts)
    report = layout.check()
    assert report.ok, report.problems
    least = []
    shared = 0.0
    for sheet in layout.sheets:
        solids = [polygon(placement.loops) for placement in sheet.placements]
        width, height = sheet.stock.sheet
        border = sheet.stock.border
        assert all(shapely.covers(shapely.box(border, border, width - border, height - border), solids))
        common = {}
        for (i, a), (j, b) in itertools.combinations(enumerate(solids), 2):
            assert shapely.intersection(a, b).area < 1e-9
            common[i, j] = shapely.intersection(a.boundary, b.boundary).length if share_cuts else 0.0
        shared += sum(common.values())
        # Parts that hang together by shared cuts keep no gap to each other.
        group = list(range(len(solids)))
        for _ in solids:
            for (i, j), length in common.items():
                if length > 1e-6:
                    group[i] = group[j] = min(group[i], group[j])
        least += [a.distance(b) for (i, a), (j, b) in itertools.combinations(enumerate(solids), 2) if group[i] != group[j]]
        for one, other in itertools.combinations(offcuts := [box_of(offcut) for offcut in sheet.offcuts], 2):
            assert shapely.intersection(one, other).area == 0
        for offcut in offcuts:
            assert shapely.covers(shapely.box(0, 0, width, height), offcut)
            assert all(offcut.distance(solid) >= sheet.stock.gap - 1e-9 for solid in solids)
    if least:
        assert report.gap_min == pytest.approx(min(least), abs=2e-6)
        assert min(least) >= stock.gap - 1e-9
    else:
        assert report.gap_min is None
    assert report.shared_length == pytest.approx(shared, abs=1e-3)
    assert layout.shared_length == pytest.approx(report.shared_length, abs=1e-3)


def box_of(offcut: df.Offcut) -> shapely.Polygon:
    return shapely.box(offcut.x, offcut.y, offcut.x + offcut.width, offcut.y + offcut.height)
