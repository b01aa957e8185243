"""Common practice, no source: a closed cube of 80, 90, 100 or 120 mm in 2 mm board, cut with no kerf and no allowance at all,
goes together by hand without glue."""

import dryfit as df
import pytest
import solids

STOCK = df.Stock(thickness=2, sheet=(500, 350), border=8)


@pytest.mark.parametrize("side", [80, 90, 100, 120])
def test_closed_cube_in_2_mm_board(side):
    box = df.box(outside=(side, side, side), stock=STOCK)
    report = box.dry_fit()
    assert report.ok and report.problems == []
    assert (report.overlap_max, report.overlap_volume, report.void_volume, report.loose_pieces) == (0, 0, 0, 0)
    assert (report.gap_min, report.gap_max) == (0, 0)
    order = box.order()
    assert sorted(step.panel for step in order) == sorted(box.panels)

    parts = box.cut(cutter=df.Cutter.blade(kerf=0, trail=0.25), fit=df.Fit(flank=0, cheek=0, tip=0))
    assert parts.dry_fit().ok
    made = solids.finished_solids(parts)
    assert max(solids.overlaps(made).values()) <= solids.NOTHING
    assert solids.volume(solids.union(made.values())) == pytest.approx(side**3 - (side - 4) ** 3, rel=1e-12)


@pytest.mark.parametrize("side", [80, 120])
def test_order_moves_pass_through_nothing(side):
    """Each step's panel, moved backwards along its direction, meets none of the boards that are there already."""
    box = df.box(outside=(side, side, side), stock=STOCK)
    made = solids.panel_solids(box.panels)
    steps = box.order()
    for k, step in enumerate(steps[1:], 1):
        axis, sign = "xyz".index(step.direction[1]), 1 if step.direction[0] == "+" else -1
        there = solids.union(made[s.panel] for s in steps[:k])
        for millimetres in (0.5, 1, 1.5, 2, 2.5, 3, 5, 10, 50, 200):
            away = [0.0, 0.0, 0.0]
            away[axis] = -sign * millimetres * 1e6
            assert solids.volume(there ^ made[step.panel].translate(away)) <= solids.NOTHING, (step.panel, step.direction, millimetres)
