"""Holes and slots against shapely, sizes of hardware against published tables, bolted boxes as solids."""

import math

import dryfit as df
import pytest
import solids
from flat import region
from shapely import LineString, Point, box

FLAT = 1e-3
FINE = 256

# Thread, pitch, nut across flats s, nut height m, holes fine / medium / coarse. ISO 4032:2012 and ISO 273:1979 as printed in the data of
# bd-warehouse 0.4.0, a library of parts: hex_nut_parameters.csv (iso4032:s, iso4032:m) and clearance_hole_sizes.csv (close, normal, loose).
TABLE = [
    ("M2", 0.4, 4, 1.6, (2.2, 2.4, 2.6)),
    ("M2.5", 0.45, 5, 2, (2.7, 2.9, 3.1)),
    ("M3", 0.5, 5.5, 2.4, (3.2, 3.4, 3.6)),
    ("M4", 0.7, 7, 3.2, (4.3, 4.5, 4.8)),
    ("M5", 0.8, 8, 4.7, (5.3, 5.5, 5.8)),
    ("M6", 1, 10, 5.2, (6.4, 6.6, 7)),
    ("M8", 1.25, 13, 6.8, (8.4, 9, 10)),
]


def stock(thickness):
    return df.Stock(thickness=thickness, sheet=(900, 900))


def plate(thickness=6):
    made = df.Assembly(stock=stock(thickness))
    made.add("plate", normal="z", at=(0, 0, 0), size=(300, 200))
    return made


def want(*holes):
    return box(0, 0, 300, 200).difference(holes[0] if len(holes) == 1 else holes[0].union(want_all(holes[1:])))


def want_all(holes):
    joined = holes[0]
    for hole in holes[1:]:
        joined = joined.union(hole)
    return joined


def test_holes_are_shapely_s_circles_and_buffered_lines():
    made = plate()
    made.hole("plate", at=(60, 50), diameter=35)
    made.hole("plate", at=(200, 150), size=(90, 30))
    made.hole("plate", at=(250, 60), size=(30, 80))
    made.hole("plate", at=(150, 50), size=(40, 25), ends="square")
    made.hole("plate", at=(20, 180), diameter=5, count=(6, 2), spacing=(20, -12))
    holes = [
        Point(60, 50).buffer(17.5, quad_segs=FINE),
        LineString([(170, 150), (230, 150)]).buffer(15, quad_segs=FINE),
        LineString([(250, 35), (250, 85)]).buffer(15, quad_segs=FINE),
        box(130, 37.5, 170, 62.5),
        *[Point(20 + 20 * i, 180 - 12 * j).buffer(2.5, quad_segs=FINE) for i in range(6) for j in range(2)],
    ]
    wanted = want(*holes)
    panel = made.panels["plate"]
    shape = region(panel.loops)
    assert shape.is_valid and len(shape.interiors) == 16
    assert shape.symmetric_difference(wanted).area < FLAT * (math.pi * (35 + 30 + 30 + 12 * 5))
    assert panel.area == pytest.approx(wanted.area, abs=0.2)
    exact = 300 * 200 - math.pi * 17.5**2 - 60 * 30 - math.pi * 15**2 - 50 * 30 - math.pi * 15**2 - 1000 - 12 * math.pi * 2.5**2
    assert panel.area == pytest.approx(exact, abs=1e-4)
    assert made.dry_fit().ok and made.dry_fit().void_volume == 0
    # A tool goes along inside: shapely's buffer of the path is the finished hole's rim.
    part = made.cut(cutter=df.Cutter.bit(diameter=3))["plate"]
    grown = box(-1.5, -1.5, 301.5, 201.5).difference(want_all([hole.buffer(-1.5, quad_segs=FINE) for hole in holes[:3] + holes[4:]] + [box(131.5, 39, 168.5, 61)]))
    assert region(part.loops).symmetric_difference(grown).area < 2 * FLAT * (math.pi * (35 + 30 + 30 + 12 * 5))
    assert region(part.finished_loops).equals(shape)


@pytest.mark.parametrize(("thread", "pitch", "s", "m", "holes"), TABLE)
@pytest.mark.parametrize("series", [0, 1, 2])
def test_slots_for_hardware_have_the_tables_sizes(thread, pitch, s, m, holes, series):
    hole, clearance, length, gap = holes[series], ("fine", "medium", "coarse")[series], 45, 0.3
    made = df.box(outside=(260, 200, 150), stock=stock(12), finger_width=50)
    plain = made.panels
    made.bolt("front", "left", thread=thread, length=length, at=75, clearance=clearance, gap=gap)
    assert made.dry_fit().ok, made.dry_fit().problems
    face, edge = made.panels["left"], made.panels["front"]
    # The front stands across y, 0 to 9; the left board's own axes are y and z: the hole in the middle of the front, 75 up.
    wanted = region(plain["left"].loops).difference(Point(6, 75).buffer(hole / 2, quad_segs=FINE))
    assert region(face.loops).symmetric_difference(wanted).area < FLAT * math.pi * hole
    # Behind the left board: two pitches beyond the nut stands the screw's end, one pitch further ends the shaft.
    tip = length
    near, end = tip - 2 * pitch - m, max(tip, tip - 2 * pitch + gap) + pitch
    shaft = box(0, 75 - hole / 2, end, 75 + hole / 2)
    pocket = box(near, 75 - (s + gap) / 2, near + m + gap, 75 + (s + gap) / 2)
    wanted = region(plain["front"].loops).difference(shaft.union(pocket))
    assert region(edge.loops).symmetric_difference(wanted).area < 1e-6


def solid(panel):
    """With points on its arcs."""
    return solids.solid([loop * 1e6 for loop in panel.loops], panel.thickness, panel.frame)


def test_a_bolted_box_as_solids():
    """Nothing overlaps, and what lacks is the slots and holes alone."""
    plain, made = (df.box(outside=(200, 150, 90), stock=stock(6), finger_width=26) for _ in range(2))
    for face in ("left", "right"):
        for edge in ("front", "back"):
            made.bolt(edge, face, thread="M4", length=25, at=45)
    report = made.dry_fit()
    assert report.ok and report.void_volume == 0, report.problems
    before, after = ({name: solid(panel) for name, panel in each.panels.items()} for each in (plain, made))
    assert max(solids.overlaps(after).values()) < solids.NOTHING
    lost = sum(map(solids.volume, before.values())) - sum(map(solids.volume, after.values()))
    assert lost == pytest.approx(4 * 6 * (math.pi * 2.25**2 + 4.5 * 19.7 + 2.7 * 3.4), rel=1e-4)
    assert [step.panel for step in made.order()] == [step.panel for step in plain.order()]
    parts = made.cut(cutter=df.Cutter.bit(diameter=2), fit=df.Fit(cheek=0.1, flank=0.05), relief=df.Relief(radius=1))
    assert parts.dry_fit().ok, parts.dry_fit().problems
