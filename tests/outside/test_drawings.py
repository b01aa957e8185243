"""Drawings of ezdxf: what a sheet's file has, and boards in a row; ezdxf's own audit finds nothing to mend."""

import io

import dryfit as df
import ezdxf
import numpy as np
import pytest
from dryfit import dxf
from ezdxf import path
from shapely.geometry import Polygon

STOCK = df.Stock(thickness=6, sheet=(700, 500), border=7, gap=2)


def tray():
    made = df.box(outside=(200, 150, 90), stock=STOCK)
    made.hole("front", at=(100, 45), size=(60, 20))
    made.hole("back", at=(30, 40), diameter=8, count=(3, 1), spacing=(40, 40))
    return made


def outlines(drawing, layer):
    """The polylines of a layer as points, chords no farther from an arc than a micrometre."""
    return [[(v.x, v.y) for v in path.make_path(line).flattening(1e-3)] for line in drawing.modelspace().query(f"LWPOLYLINE POLYLINE[layer=='{layer}']")]


def test_a_sheet_is_what_its_file_is():
    parts = tray().cut(cutter=df.Cutter.bit(diameter=3), relief=df.Relief(radius=2))
    sheet = parts.lay_out(STOCK).sheets[0]
    drawing = dxf.document(sheet, title="Tray")
    plain = ezdxf.read(io.StringIO(sheet.dxf(title="Tray"), newline=None))
    for layer in ("cut-outer", "cut-inner"):
        assert outlines(drawing, layer) == outlines(plain, layer) != []
    assert drawing.dxfversion == "AC1024" and drawing.units == ezdxf.units.MM and drawing.header["$MEASUREMENT"] == 1
    assert not drawing.audit().errors
    with_motion = dxf.document(sheet, motion=df.Motion(bridges=2))
    assert len(outlines(with_motion, "cut-outer")) > len(outlines(drawing, "cut-outer"))


def test_layers_are_those_of_the_files_of_sheets():
    sheet = df.Parts.rectangles([(60, 40)]).lay_out(STOCK).sheets[0]
    of_sheet, of_boards = dxf.document(sheet), dxf.document(tray())
    for name in ("mark", "cut-inner", "cut-shared", "cut-outer", "trim"):
        one, other = (drawing.layers.get(name).dxf for drawing in (of_sheet, of_boards))
        assert (one.color, one.linetype.upper()) == (other.color, other.linetype.upper())


def area(line):
    """Of a closed polyline: between its corners, and between each chord and its arc."""
    points = line.get_points("xyb")
    total = 0.0
    for (x0, y0, bulge), (x1, y1, _) in zip(points, [*points[1:], points[0]], strict=True):
        angle = 4 * np.arctan(bulge)
        radius = np.hypot(x1 - x0, y1 - y0) / 2 / np.sin(angle / 2) if bulge else 0
        total += (x0 * y1 - x1 * y0) / 2 + radius**2 / 2 * (angle - np.sin(angle))
    return total


@pytest.mark.parametrize("version", ["R2000", "R2010", "R2018"])
@pytest.mark.parametrize("cut", [False, True])
def test_boards_stand_in_a_row(cut, version):
    made = tray()
    boards = made.cut(cutter=df.Cutter.bit(diameter=3)) if cut else made.panels
    drawing = dxf.document(boards if cut else made, version=version)
    assert drawing.acad_release == version and not drawing.audit().errors
    outer, inner = outlines(drawing, "cut-outer"), outlines(drawing, "cut-inner")
    assert len(outer) == 6 and len(outer) + len(inner) == sum(len(board.loops) for board in boards.values()) == 6 + 1 + 3
    right = 0.0
    for points, board in zip(outer, boards.values(), strict=True):
        polygon = Polygon(points, [hole for hole in inner if Polygon(points).contains(Polygon(hole))])
        assert polygon.is_valid and polygon.area == pytest.approx(Polygon(board.loops[0], board.loops[1:]).area, rel=1e-4)
        assert polygon.bounds[:2] == pytest.approx((right, 0))
        right = polygon.bounds[2] + 12
    assert [text.dxf.text for text in drawing.modelspace().query("TEXT[layer=='mark']")] == list(boards)


def test_arcs_are_bulges():
    """Three round holes and a slot with round ends: no chord stands for an arc, and areas are those of circles."""
    drawing = dxf.document(tray().panels["back"])
    assert {layer.dxf.layer for layer in drawing.modelspace().query("LWPOLYLINE")} == {"cut-outer", "cut-inner"}
    for line in drawing.modelspace().query("LWPOLYLINE[layer=='cut-inner']"):
        assert len(line) <= 4 and all(bulge < 0 for *_, bulge in line.get_points("xyb"))
        assert area(line) == pytest.approx(-np.pi * 16, rel=1e-6)


def test_users_add_layers_of_their_own(tmp_path):
    drawing = dxf.document(tray())
    drawing.layers.add("fold", color=3)
    drawing.modelspace().add_line((0, 0), (10, 10), dxfattribs={"layer": "fold"})
    drawing.saveas(tmp_path / "tray.dxf")
    back = ezdxf.readfile(tmp_path / "tray.dxf")
    assert len(back.modelspace().query("LINE[layer=='fold']")) == 1 and len(outlines(back, "cut-outer")) == 6


def test_what_is_refused():
    with pytest.raises(df.OutOfRange, match=r'^version: "R12" given, allowed "R2000", "R2010", "R2018"$'):
        dxf.document(tray(), version="R12")
    with pytest.raises(df.WrongType, match=r"^what: 3 given, allowed a Sheet, an Assembly, Parts, a Panel or a Part$"):
        dxf.document(3)
    with pytest.raises(df.WrongType, match=r"^motion: .* given, allowed None for boards that lie on no sheet$"):
        dxf.document(tray(), motion=df.Motion(passes=2))
