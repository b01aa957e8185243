"""What shapely and geopandas see through __geo_interface__: the same areas, valid, where they lie, and no reference system."""

import dryfit as df
import geopandas
import pytest
from shapely.geometry import shape

STOCK = df.Stock(thickness=6, sheet=(700, 500), border=7, gap=2)
RELIEF = df.Relief(radius=2)
BIT = df.Cutter.bit(diameter=3)
# A micrometre along every arc is what chords in their place may cost.
ARCS = 1e-4


def tray():
    made = df.box(outside=(200, 150, 90), stock=STOCK, dividers=(2, 1))
    made.hole("front", at=(100, 45), size=(40, 20))
    made.hole("back", at=(25, 30), diameter=4.5, count=(2, 2), spacing=(25, 25))
    return made


def frame(collection):
    made = geopandas.GeoDataFrame.from_features(collection)
    assert made.crs is None
    assert made.geometry.is_valid.all()
    assert list(made.columns) == ["geometry", "name", "thickness", "kind"]
    return made


@pytest.mark.parametrize("relief", [None, RELIEF])
def test_parts_are_what_comes_off_the_cutter(relief):
    parts = tray().cut(cutter=BIT, relief=relief)
    seen = frame(parts)
    assert list(seen.name) == list(parts) and set(seen.kind) == {"part"} and set(seen.thickness) == {6.0}
    for polygon, part in zip(seen.geometry, parts.values(), strict=True):
        assert polygon.area == pytest.approx(part.area, rel=ARCS)
        assert polygon.equals_exact(shape(part), 0)
        assert len(polygon.interiors) == len(part.finished_loops) - 1


def test_without_arcs_areas_are_equal():
    plain = df.box(outside=(200, 150, 90), stock=STOCK, dividers=(2, 1))
    parts = plain.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(cheek=0.1))
    for things, seen in ((plain.panels, frame(plain)), (parts, frame(parts))):
        assert list(seen.area) == pytest.approx([thing.area for thing in things.values()], rel=1e-13)


def test_panels_are_nominal():
    made = tray()
    seen = frame(made)
    assert list(seen.name) == list(made.panels) and set(seen.kind) == {"panel"}
    for polygon, panel in zip(seen.geometry, made.panels.values(), strict=True):
        assert polygon.equals_exact(shape(panel), 0)
        assert polygon.area == pytest.approx(panel.area, rel=ARCS)


@pytest.mark.parametrize("relief", [None, RELIEF])
def test_sheets_have_the_parts_where_they_lie(relief):
    parts = tray().cut(cutter=BIT, relief=relief)
    plates = df.Parts.rectangles([(80, 30)] * 3, thickness=6)
    layout = (parts + plates).lay_out(STOCK)
    names = []
    for sheet in layout.sheets:
        seen = frame(sheet)
        names += list(seen.name)
        assert set(seen.kind) == {"part"} and set(seen.thickness) == {6.0}
        for polygon, place in zip(seen.geometry, sheet.placements, strict=True):
            part = (parts + plates)[place.part]
            assert polygon.area == pytest.approx(part.area, rel=ARCS)
            # Half the kerf inside the path, all around; a plain part is cut as it is.
            path = shape({"type": "Polygon", "coordinates": [place.loops[0].tolist()]}).envelope
            around = path.buffer(-1.5, join_style="mitre") if place.part in parts else path
            assert polygon.bounds == pytest.approx(around.bounds, abs=1e-6)
        # Nothing overlaps, and the gap is kept.
        union = seen.geometry.union_all()
        assert union.area == pytest.approx(sum(seen.area), rel=1e-9)
    assert sorted(names) == sorted(parts + plates)


def test_plain_parts_of_any_board_have_no_thickness():
    (feature,) = df.Parts.rectangles([(60, 40)]).__geo_interface__["features"]
    assert feature["properties"] == {"name": "1", "thickness": None, "kind": "part"}


def test_turned_and_mirrored_parts_lie_as_the_layout_has_them():
    """A part without symmetry, so that a wrong turn or mirror would be seen."""
    odd = df.Assembly(stock=df.Stock(thickness=6, sheet=(300, 300)))
    odd.add("plate", normal="z", at=(0, 0, 0), size=(100, 40))
    odd.hole("plate", at=(20, 12), size=(24, 8))
    parts = odd.cut(cutter=BIT)
    job = sum([parts] * 10, parts)
    layout = job.lay_out(df.Stock(thickness=6, sheet=(160, 120), border=2), flips=True)
    turns = {(place.quarter_turns, place.flipped) for sheet in layout.sheets for place in sheet.placements}
    assert len(turns) > 1
    for sheet in layout.sheets:
        for polygon, place in zip(frame(sheet).geometry, sheet.placements, strict=True):
            hole = shape({"type": "Polygon", "coordinates": [place.loops[1].tolist()]})
            (inner,) = polygon.interiors
            assert (inner.centroid.x, inner.centroid.y) == pytest.approx((hole.centroid.x, hole.centroid.y), abs=1e-6)


def test_an_assembly_that_cannot_be_made_is_no_collection():
    made = df.Assembly(stock=STOCK)
    with pytest.raises(TypeError):
        frame(made)
    made.add("plate", normal="z", at=(0, 0, 0), size=(100, 40))
    assert frame(made).area.tolist() == [4000]
