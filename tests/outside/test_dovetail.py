"""The corner dovetail's lines against shapely (plane) and manifold3d (solids): tails and pins share out the corner block."""

import random
from itertools import pairwise

import dryfit as df
import manifold3d as m3
import pytest
import solids
from lengths import nm, text
from shapely import Polygon
from shapely.ops import unary_union

MM = 1_000_000
REST = 50 * MM  # what is drawn of either board beyond the corner


def flanks(corner, surface):
    return [line.points_nm for line in corner.lines if line.stroke == "flank" and line.surface == surface]


def quads(lines):
    """What lies between flank 0 and 1, 2 and 3 and so on (tails), and between the others and the edges (sockets)."""
    quad = lambda left, right: Polygon([*left, *reversed(right)])
    return [quad(*pair) for pair in zip(lines[::2], lines[1::2])], [quad(*pair) for pair in zip(lines[1::2], lines[2::2])]


def corners():
    """Published cases and drawn ones: (corner, its boards' thicknesses in nm)."""
    asked = [
        dict(width=120, tail_board=12, pin_board=12, count=5, slope="1:8", socket=8),
        dict(width=120, tail_board=12, pin_board=12, count=5, slope="1:6"),
        dict(width="6 in", tail_board="1/2 in", pin_board="1/2 in", count=4, slope="5:24", socket="3/4 in"),
        dict(width=100, tail_board=9, pin_board="7/8 in", count=3, slope=7, kind="lapped"),
    ]
    rng = random.Random(48)
    while len(asked) < 60:
        one = dict(
            width=text(rng.randrange(60 * MM, 400 * MM)), tail_board=text(rng.randrange(5 * MM, 20 * MM)), pin_board=text(rng.randrange(8 * MM, 20 * MM)),
            count=rng.randrange(1, 6), slope=(rng.randrange(1, 30), 100),
        )
        if rng.random() < 0.5:
            one.update(kind="lapped", lap=text(rng.randrange(MM, 7 * MM)))
        try:
            df.dovetail_corner(**one)
        except df.SocketCloses:
            continue
        asked.append(one)
    return [df.dovetail_corner(**one) for one in asked]


@pytest.fixture(scope="module")
def some():
    return corners()


def test_tails_and_sockets_tile_the_end(some):
    for corner in some:
        width, depth = nm(corner.width), nm(corner.tail_length)
        for surface, size in [("tail board, outer face", depth), ("tail board, inner face", depth), ("pin board, end grain", depth)]:
            lines = flanks(corner, surface)
            edge = lambda x: ((x, lines[0][0][1]), (x, lines[0][1][1]))
            tails, sockets = quads([edge(0), *lines, edge(width)])[::-1]
            assert len(tails) == corner.count and len(sockets) == corner.count + 1
            assert all(piece.is_valid for piece in tails + sockets)
            whole = unary_union(tails + sockets)
            assert whole.equals(Polygon([(0, 0), (width, 0), (width, size), (0, size)])), corner
            assert sum(piece.area for piece in tails + sockets) == pytest.approx(width * size, rel=1e-15)


def test_the_outline_is_the_board_less_its_sockets(some):
    for corner in some:
        width, depth = nm(corner.width), nm(corner.tail_length)
        line = corner.tail_outline_nm.tolist()
        board = Polygon([*line, (width, depth + REST), (0, depth + REST)])
        lines = flanks(corner, "tail board, outer face")
        tails, _ = quads(lines)
        assert board.is_valid and board.exterior.is_ccw
        assert board.symmetric_difference(unary_union([*tails, Polygon([(0, depth), (width, depth), (width, depth + REST), (0, depth + REST)])])).area == 0
        stations = [x for x, _ in line]
        assert stations[0] == 0 and stations[-1] == width
        for y in (0, depth):
            at = [0, *(x for x, level in line[1:-1] if level == y), width]
            assert sum(b - a for a, b in pairwise(at)) == width and min(b - a for a, b in pairwise(at)) > 0


@pytest.mark.parametrize(
    ("neck", "length", "run", "head", "area", "flank"), [(20, 15, 6, 25, 337.5, 15.206906), (20, 16, 8, 24, 352, 16.124515)], ids=["DT-18", "DT-19"]
)
def test_a_tail_by_neck_length_and_slope(neck, length, run, head, area, flank):
    """DT-18, DT-19: head a + 2 L s, area L (a + L s), flank L sqrt(1 + s^2); plane geometry, derived."""
    corner = df.dovetail_corner(width=2 * (neck + 12), tail_board=9, pin_board=length, count=2, slope=run, socket=12)
    assert corner.widths["tail"] == (neck, head)
    lines = flanks(corner, "tail board, outer face")
    for tail in quads(lines)[0]:
        assert tail.area == area * 1e12
    for (x0, y0), (x1, y1) in lines:
        assert ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 / 1e6 == pytest.approx(flank, abs=1e-6)


def prism(polygon, low, high):
    """A polygon in the plane of width and depth, as high as given."""
    solid = m3.Manifold.extrude(m3.CrossSection([list(polygon.exterior.coords)[:-1]], m3.FillRule.NonZero), float(high - low)).translate([0, 0, float(low)])
    assert solid.volume() > 0
    return solid


def boards(corner):
    """Both boards as solids: x along the width, y into the tail board from the pin board's outer face, z into the pin board from the tail board's
    outer face. Tails come from the tail board's faces, pins from the pin board's: its two faces, or its end grain where a lap hides one."""
    width, deep, high, lap = nm(corner.width), nm(corner.tail_length), nm(corner.pin_length), nm(corner.lap)
    inner = deep + lap
    side = [solids.cuboid((0, inner, 0), (width, inner + REST, high))]
    outside, inside = flanks(corner, "tail board, outer face"), flanks(corner, "tail board, inner face")
    for left, right, left_in, right_in in zip(outside[::2], outside[1::2], inside[::2], inside[1::2]):
        at = [(float(x), float(y + lap), z) for z, lines in ((0.0, (left, right)), (float(high), (left_in, right_in))) for line in lines for x, y in line]
        side.append(m3.Manifold.hull_points(at))
    front = [solids.cuboid((0, 0, high), (width, inner, high + REST))]
    if lap:
        front.append(solids.cuboid((0, 0, 0), (width, lap, high)))
        # End grain: (x, distance from the inner face).
        edges = [tuple((x, inner - y) for x, y in line) for line in flanks(corner, "pin board, end grain")]
    else:
        # The two faces: x on the inner one, x on the outer one.
        pairs = zip(flanks(corner, "pin board, inner face"), flanks(corner, "pin board, outer face"))
        edges = [((a[0][0], inner), (b[0][0], 0)) for a, b in pairs]
    edges = [((0, inner), (0, lap)), *edges, ((width, inner), (width, lap))]
    for left, right in zip(edges[::2], edges[1::2]):
        front.append(prism(Polygon([*left, *reversed(right)]), 0, high))
    return solids.union(side), solids.union(front)


def test_tails_and_pins_fill_the_corner(some):
    for corner in some:
        side, front = boards(corner)
        width, high, inner = corner.width, corner.pin_length, corner.tail_length + corner.lap
        whole = width * (inner * high + 50 * high + 50 * inner)
        assert solids.volume(side ^ front) <= solids.NOTHING, corner
        assert solids.volume(solids.union([side, front])) == pytest.approx(whole, rel=1e-12), corner
        assert solids.volume(side) + solids.volume(front) == pytest.approx(whole, rel=1e-12), corner


def test_it_holds_against_a_pull_and_goes_together_square_to_it(some):
    """The tail board cannot leave along its length; it goes in across the pins' faces."""
    for corner in some[:12]:
        side, front = boards(corner)
        away = side.translate([0, 0.5e6, 0])
        assert solids.volume(away ^ front) > 1e-3, corner
        over = side.translate([0, 0, -3e6])
        assert solids.volume(over ^ front) <= solids.NOTHING, corner
