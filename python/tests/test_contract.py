"""The lines of the Python contract, as written in the design."""

import dryfit as df
import numpy as np
import pytest


def test_the_contract_runs_as_written() -> None:
    stock = df.Stock(thickness=2.5, sheet=(500, "13 3/4 in"), border=8, gap=1.0)
    blade = df.Cutter.blade(kerf=0.0, trail=0.25)
    assert df.Cutter.beam(kerf=0.18).kerf == 0.18
    assert df.Cutter.bit(diameter=3.0).kerf == 3.0
    fit = df.Fit(flank=0.0, cheek=0.0, tip=0.0)

    box = df.box(outside=(110, 85, 60), stock=stock)
    panel = box.panels["front"]
    assert list(box.panels) == ["front", "back", "left", "right", "base", "top"]
    assert [loop.dtype for loop in panel.loops] == [np.float64]
    assert panel.loops[0].shape[1] == 2
    assert [loop.dtype for loop in panel.loops_nm] == [np.int64]
    assert panel.frame.dtype == np.float64 and panel.frame.shape == (4, 4)
    assert panel.thickness == 2.5 and panel.area > 0 and panel.name == "front"
    assert panel.__geo_interface__["type"] == "Polygon"
    assert panel._repr_svg_().startswith("<svg")

    asm = df.Assembly(stock=stock)
    asm.add("left", normal="x", at=(0, 0, 0), size=(200, 300))
    asm.add("shelf", normal="z", at=(0, 0, 150), size=(250, 200))
    asm.joint("shelf", "left", df.Tabs(width=20, spacing=40))
    assert len(asm.panels["left"].loops) == 1 + 3

    report = box.dry_fit()
    assert report.ok and report.problems == []
    parts = box.cut(cutter=blade, fit=fit)
    report = parts.dry_fit()
    assert report.ok is True and report.problems == []
    assert (report.overlap_max, report.gap_min, report.gap_max) == (0, 0, 0)
    assert (report.void_volume, report.loose_pieces) == (0, 0)
    assert report.thinnest_neck > 2.5
    steps = box.order()
    assert [(step.panel, step.direction) for step in steps][0][0] == "base"
    assert (steps[-1].panel, steps[-1].direction) == ("top", "-z")

    other_parts = df.box(inside=(40, 40, 30), stock=stock, top="open", finger_width=8, dividers=(1, 0)).cut(cutter=blade, fit=fit)
    both = parts + other_parts
    assert len(both) == len(parts) + len(other_parts)
    layout = both.lay_out(stock, share_cuts=False)
    placement = layout.sheets[0].placements[0]
    assert placement.part in both
    assert (placement.x, placement.y) >= (8, 8) and placement.quarter_turns in range(4) and placement.flipped is False
    assert np.array_equal(placement.loops[0].min(axis=0), [placement.x, placement.y])
    assert layout.sheets[0].svg().startswith("<svg")
    assert layout.cut_length == pytest.approx(sum(sheet.cut_length for sheet in layout.sheets))


def test_all_kinds_of_joints() -> None:
    stock = df.Stock(thickness=3, sheet=(500, 350))
    for spec in (df.Fingers(width=12), df.Fingers(count=5), df.Fingers(count=4, first="b"), df.Tabs(width=10, spacing=10), df.Halves()):
        asm = df.Assembly(stock=stock)
        asm.add("one", normal="x", at=(0, 0, 0), size=(80, 100))
        asm.add("two", normal="y", at=(0, 0, 0), size=(60, 100))
        asm.joint("one", "two", spec)
        assert asm.dry_fit().ok, spec


def test_panels_are_made_once_and_anew_after_a_change(stock: df.Stock) -> None:
    asm = df.Assembly(stock=stock)
    asm.add("one", normal="x", at=(0, 0, 0), size=(80, 100))
    asm.add("two", normal="y", at=(0, 0, 0), size=(60, 100))
    first = asm.panels
    assert asm.panels is first
    asm.joint("one", "two", df.Fingers(count=3))
    assert asm.panels is not first and asm.panels["one"] != first["one"]
    with pytest.raises(TypeError):
        first["one"] = first["two"]  # type: ignore[index]


def test_boards_of_different_thickness(stock: df.Stock, blade: df.Cutter) -> None:
    thick = df.Stock(thickness=4, sheet=(300, 300))
    asm = df.Assembly(stock=stock)
    asm.add("wall", normal="x", at=(0, 0, 0), size=(80, 100))
    asm.add("base", normal="z", at=(0, 0, 0), size=(60, 80), stock=thick)
    assert (asm.panels["wall"].thickness, asm.panels["base"].thickness) == (2.5, 4)
    assert asm.dry_fit().ok
    layout = asm.cut(cutter=blade).lay_out([stock, thick])
    assert [sheet.stock for sheet in layout.sheets] == [stock, thick]


def test_labels_tell_pieces_apart(stock: df.Stock, blade: df.Cutter) -> None:
    box = df.box(outside=(60, 50, 40), stock=stock)
    assert list(box.cut(cutter=blade, label="tea") + box.cut(cutter=blade, label="tea"))[5:7] == ["tea top", "tea front-2"]


def test_many_pieces_add_up_to_one_job(stock: df.Stock, blade: df.Cutter) -> None:
    pieces = [df.box(outside=(90 + 5 * number, 80, 70), stock=stock).cut(cutter=blade, label=label) for number, label in enumerate(["", "b", "c"])]
    job = sum(pieces)
    assert job == pieces[0] + pieces[1] + pieces[2] and isinstance(job, df.Parts)
    assert list(job)[0] == "front" and "b front" in job
    for other in (1, 0.0, False, None):
        with pytest.raises(TypeError):
            other + pieces[0]  # type: ignore[operator]


def test_a_picture(stock: df.Stock) -> None:
    box = df.box(outside=(110, 85, 60), stock=stock)
    apart, together = box.picture(explode=40), box.picture(explode=0)
    assert ">top</text>" in apart and apart != together
    assert box._repr_svg_() == box.picture()
