"""Relieved corners against shapely's buffers: the part is the square part less discs, and a disc on the path leaves the part."""

import io
import math

import dryfit as df
import pytest
from flat import region
from shapely import LineString, MultiLineString, Point, Polygon
from svgelements import SVG, Arc, Close, Path

SHAPES = ["diagonal", "flank", "cheek"]
# The tool's radius and the relief's, mm.
RADII = [(1.5, 1.5), (1.0, 1.6), (0.5, 2.4)]
# Chords of a thousandth of a millimetre, here and in the package; shapely's own circles are finer.
FLAT = 1e-3
FINE = 256


def box():
    return df.box(outside=(180, 120, 70), stock=df.Stock(thickness=6, sheet=(900, 900)), finger_width=18, top="open")


def cut(tool, radius, shape):
    piece = box()
    return piece.cut(cutter=df.Cutter.bit(diameter=2 * tool)), piece.cut(cutter=df.Cutter.bit(diameter=2 * tool), relief=df.Relief(radius=radius, shape=shape))


def inner_corners(loop):
    """Corners where a counter-clockwise outline turns right, and the two directions along its edges from there."""
    n = len(loop)
    for k in range(n):
        (ax, ay), (bx, by), (cx, cy) = loop[k - 1], loop[k], loop[(k + 1) % n]
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < 0:
            back, on = (ax - bx, ay - by), (cx - bx, cy - by)
            yield (bx, by), [(x / math.hypot(x, y), y / math.hypot(x, y)) for x, y in (back, on)]


def discs(square, radius, shape, thickness, size):
    """The relief circles, set out anew: on the bisector, or on the edge that is a finger's side (6 mm deep) or not."""
    for (x, y), (back, on) in inner_corners(square):
        if shape == "diagonal":
            way = ((back[0] + on[0]) / math.sqrt(2), (back[1] + on[1]) / math.sqrt(2))
        else:
            # A flank ends at the board's rim, a thickness away from the corner.
            ends = [(x + thickness * dx, y + thickness * dy) for dx, dy in (back, on)]
            rim = [min(abs(px), abs(px - size[0]), abs(py), abs(py - size[1])) < 1e-9 for px, py in ends]
            flank = back if rim[0] else on
            way = flank if shape == "flank" else (on if flank == back else back)
        yield Point(x + radius * way[0], y + radius * way[1]).buffer(radius, quad_segs=FINE)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(("tool", "radius"), RADII)
def test_the_part_is_the_square_one_less_discs(tool, radius, shape):
    plain, relieved = cut(tool, radius, shape)
    lost = 0
    for name in plain:
        square = region(plain[name].finished_loops)
        corners = list(inner_corners(plain[name].finished_loops[0]))
        assert corners and len(plain[name].finished_loops) == 1
        want = square
        for disc in discs(plain[name].finished_loops[0], radius, shape, 6, square.bounds[2:]):
            want = want.difference(disc)
        made = region(relieved[name].finished_loops)
        assert made.is_valid
        arcs = sum(len(arcs) for arcs in relieved[name].finished_arcs_nm)
        assert arcs == len(corners) * (2 if shape == "diagonal" else 1)
        # Each chord lies within a thousandth of its arc.
        slack = FLAT * math.pi * radius * len(corners)
        assert made.symmetric_difference(want).area < slack
        # The exact area against shapely's, whose circles are 1024-gons.
        assert relieved[name].area == pytest.approx(want.area, abs=len(corners) * radius**2 * 1e-4)
        lost += plain[name].area - relieved[name].area
    report = relieved.dry_fit()
    assert report.ok, report.problems
    assert report.void_volume == pytest.approx(6 * lost, abs=1e-6)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(("tool", "radius"), RADII)
def test_a_disc_on_the_path_leaves_the_part(tool, radius, shape):
    plain, relieved = cut(tool, radius, shape)
    for name in plain:
        rough = Polygon(plain[name].loops[0])
        way = MultiLineString([LineString([*loop, loop[0]]) for loop in relieved[name].loops])
        left = rough.difference(way.buffer(tool, quad_segs=FINE))
        # What the tool goes around in the void, between the path and where it turns back, falls out.
        left = max(getattr(left, "geoms", [left]), key=lambda part: part.area)
        made = region(relieved[name].finished_loops)
        corners = len(list(inner_corners(plain[name].finished_loops[0])))
        assert left.symmetric_difference(made).area < 3 * FLAT * math.pi * (radius + tool) * corners
        assert made.buffer(-2 * FLAT).within(left) and left.buffer(-2 * FLAT).within(made)


def arcs_of(path):
    """(start, end, centre, radius) of every arc, as the reader of SVG files understands it."""
    return [(s.start, s.end, s.center, s.rx) for s in path.segments() if isinstance(s, Arc)]


def test_arcs_in_the_sheet_file_are_those_of_the_loops():
    _, relieved = cut(1.0, 1.6, "diagonal")
    layout = relieved.lay_out(df.Stock(thickness=6, sheet=(900, 900)))
    found, wanted = [], []
    for sheet in layout.sheets:
        drawing = sheet.svg()
        assert " 0 0 1 " in drawing
        height = 900
        # One unit is a millimetre, but for 5.4e-7 of it that the reader adds.
        for path in SVG.parse(io.StringIO(drawing), ppi=25.4).elements():
            if isinstance(path, Path) and any(isinstance(s, Arc) for s in path):
                assert any(isinstance(s, Close) for s in path)
                found += [(a.x, height - a.y, b.x, height - b.y, c.x, height - c.y, r) for a, b, c, r in arcs_of(path)]
        for placement in sheet.placements:
            for loop, arcs in zip(placement.loops_nm, placement.arcs_nm, strict=True):
                for index, x, y in arcs / 1:
                    a, b = loop[int(index)] / 1e6, loop[(int(index) + 1) % len(loop)] / 1e6
                    wanted.append((*a, *b, x / 1e6, y / 1e6, math.dist(a, (x / 1e6, y / 1e6))))
    assert len(found) == len(wanted) > 100
    for one, other in zip(sorted(found), sorted(wanted), strict=True):
        assert one == pytest.approx(other, abs=6e-4)


def test_a_splice_is_relieved_too():
    """Corners of less than a quarter turn, in the sockets of tails 1:6."""
    board = df.splice(length=600, width=120, stock=df.Stock(thickness=9, sheet=(900, 900)), joint=df.Tails(count=2, slope=6))
    plain = board.cut(cutter=df.Cutter.bit(diameter=3))
    assert not plain.dry_fit().ok
    with pytest.raises(df.OutOfRange, match="relief radius: 1.5 mm given, allowed 1.520691 mm to 20 mm"):
        board.cut(cutter=df.Cutter.bit(diameter=3), relief=df.Relief(radius=1.5))
    relieved = board.cut(cutter=df.Cutter.bit(diameter=3), relief=df.Relief(radius=1.6))
    report = relieved.dry_fit()
    assert report.ok, report.problems
    for name in relieved:
        square, made = region(plain[name].finished_loops), region(relieved[name].finished_loops)
        corners = [(corner, ways) for corner, ways in inner_corners(plain[name].finished_loops[0])]
        want = square
        for (x, y), (back, on) in corners:
            bx, by = back[0] + on[0], back[1] + on[1]
            long = math.hypot(bx, by)
            want = want.difference(Point(x + 1.6 * bx / long, y + 1.6 * by / long).buffer(1.6, quad_segs=FINE))
        assert made.symmetric_difference(want).area < FLAT * math.pi * 1.6 * max(len(corners), 1)
