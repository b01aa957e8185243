"""Outlines and frames as numpy arrays, and the interfaces that other libraries read."""

import dryfit as df
import numpy as np
import pytest


@pytest.fixture
def drawer(stock: df.Stock) -> df.Assembly:
    return df.box(outside=(230, 160, 48), stock=stock, top="open", dividers=(3, 2), dividers_in_base=True)


def doubled_area(loop: "np.ndarray[tuple[int, int], np.dtype[np.int64]]") -> int:
    x, y = (loop[:, i].astype(object) for i in (0, 1))
    return int((x * np.roll(y, -1) - np.roll(x, -1) * y).sum())


def test_loops(drawer: df.Assembly) -> None:
    for panel in drawer.panels.values():
        for mm, nm in zip(panel.loops, panel.loops_nm, strict=True):
            assert mm.dtype == np.float64 and nm.dtype == np.int64 and mm.shape == nm.shape
            assert np.array_equal(np.rint(mm * 1e6).astype(np.int64), nm)
            assert not mm.flags.writeable and not nm.flags.writeable
            with pytest.raises(ValueError):
                mm[0, 0] = 1
            assert not np.array_equal(nm[0], nm[-1])
        areas = [doubled_area(loop) for loop in panel.loops_nm]
        assert areas[0] > 0 and all(area < 0 for area in areas[1:])
        assert panel.area == pytest.approx(sum(areas) / 2e12, rel=1e-12)


def test_frames_put_panels_where_they_stand(drawer: df.Assembly) -> None:
    boards = {"front": (0, 0, 0), "back": (0, 157.5, 0), "left": (0, 0, 0), "right": (227.5, 0, 0), "base": (0, 0, 0)}
    for name, lowest in boards.items():
        panel = drawer.panels[name]
        frame = panel.frame
        assert not frame.flags.writeable
        assert np.linalg.det(frame[:3, :3]) == 1
        u, v = panel.loops[0].T
        w = np.tile([0, panel.thickness], len(u))
        corners = frame @ np.array([np.repeat(u, 2), np.repeat(v, 2), w, np.ones(2 * len(u))])
        assert np.allclose(corners[:3].min(axis=1), lowest, atol=2.5)


def test_geo_interface(drawer: df.Assembly) -> None:
    panel = drawer.panels["base"]
    shape = panel.__geo_interface__
    assert shape["type"] == "Polygon" and len(shape["coordinates"]) == len(panel.loops)
    for ring, loop in zip(shape["coordinates"], panel.loops, strict=True):
        assert ring[0] == ring[-1] and np.array_equal(np.array(ring[:-1]), loop)
    shapely = pytest.importorskip("shapely.geometry")
    polygon = shapely.shape(panel)
    assert polygon.is_valid and polygon.area == pytest.approx(panel.area, rel=1e-12)


def test_without_panels_there_is_no_geo_interface(stock: df.Stock, locked: df.Assembly) -> None:
    asm = df.Assembly(stock=stock)
    assert not hasattr(asm, "__geo_interface__")
    with pytest.raises(AttributeError, match="^__geo_interface__: no panels yet: boards: the assembly is empty$") as refused:
        _ = asm.__geo_interface__
    assert isinstance(refused.value.__cause__, df.NoBoards)
    asm.add("left", normal="x", at=(0, 0, 0), size=(100, 100))
    assert hasattr(asm, "__geo_interface__") and hasattr(locked, "__geo_interface__")
    asm.add("far", normal="x", at=(50, 0, 0), size=(100, 100))
    with pytest.raises(AttributeError) as refused:
        _ = asm.__geo_interface__
    assert isinstance(refused.value.__cause__, df.MeetsNothing)


def test_a_panel_in_two_pieces_is_a_multipolygon(stock: df.Stock) -> None:
    asm = df.Assembly(stock=stock)
    asm.add("cut", normal="z", at=(0, 0, 50), size=(100, 60))
    asm.add("across", normal="x", at=(40, 0, 0), size=(60, 100))
    asm.add("pin", normal="y", at=(60, 30, 20), size=(30, 60))
    asm.joint("across", "cut", df.Fingers(count=1))
    asm.joint("pin", "cut", df.Tabs(width=10, spacing=10))
    panel = asm.panels["cut"]
    shape = panel.__geo_interface__
    assert shape["type"] == "MultiPolygon"
    assert [len(polygon) for polygon in shape["coordinates"]] == [1, 1 + len(panel.loops) - 2]
    report = asm.dry_fit()
    assert not report.ok and report.loose_pieces == 1 and any("pieces" in problem for problem in report.problems)


def test_parts_carry_the_path_and_what_comes_off(stock: df.Stock) -> None:
    box = df.box(outside=(110, 85, 60), stock=stock)
    parts = box.cut(cutter=df.Cutter.beam(kerf=0.2))
    for name, part in parts.items():
        panel = box.panels[name]
        assert all(np.array_equal(a, b) for a, b in zip(part.finished_loops_nm, panel.loops_nm, strict=True))
        assert part.area == panel.area and part.thickness == panel.thickness
        assert np.array_equal(part.frame, panel.frame) and part.board == name
        assert np.array_equal(part.loops[0].min(axis=0), panel.loops[0].min(axis=0) - 0.1)
        assert part.__geo_interface__["type"] == "Polygon" and part._repr_svg_().startswith("<svg")
    assert parts.dry_fit().ok
    both = box.cut(cutter=df.Cutter.beam(kerf=0.2), label="tea") + parts + parts
    assert [(both[name].board, both[name].name) for name in ("tea base", "base", "base-2")] == [("base", "tea base"), ("base", "base"), ("base", "base-2")]
    assert df.Parts.rectangles([(60, 40)])["1"].board is None


def test_threads_share_an_assembly(drawer: df.Assembly, blade: df.Cutter) -> None:
    from concurrent.futures import ThreadPoolExecutor

    def work(number: int) -> bool:
        if number % 7 == 0:
            drawer.joint("front", "left", df.Fingers(width=8 + number % 3))
        return drawer.dry_fit().ok and drawer.cut(cutter=blade).dry_fit().ok and len(drawer.panels) == 10

    with ThreadPoolExecutor(8) as pool:
        assert all(pool.map(work, range(60)))
