"""A disc swept along the beam's or bit's way of the written G-code, by shapely: what is left of the sheet is the finished parts, and they hang on by their bridges."""

import itertools
import math

import dryfit as df
import jobs
import pytest
import rs274
import shapely
from flat import region
from shapely.affinity import affine_transform, translate

# Circles of shapely are polygons; so many chords a quarter stay within a thousandth of a millimetre here.
FINE = 24
WIDE = {"thin beam": df.Cutter.beam(kerf=0.15), "wide beam": df.Cutter.beam(kerf=1), "bit": df.Cutter.bit(diameter=1)}


def ways(text, depth):
    """The ways of the tool as lines where it cuts so deep: one for each stroke."""
    program = rs274.read(text)
    groups = itertools.groupby(program.motions, key=lambda m: m.kind != 0 and max(m.start[2], m.end[2]) <= depth and m.start[:2] != m.end[:2])
    for down, motions in groups:
        if down:
            yield shapely.LineString([point[:2] for motion in motions for point in motion.points(5e-4)])


def left_of(sheet, motion, width):
    """What is left of the sheet once it is cut through."""
    text = sheet.gcode(motion)
    depth = min(m.end[2] for m in rs274.read(text).motions)
    swept = shapely.union_all([way.buffer(width / 2, quad_segs=FINE) for way in ways(text, depth)])
    return shapely.box(0, 0, *jobs.STOCK.sheet).difference(swept), swept


def placed(sheet, parts):
    """The finished parts where they lie, and the areas within their paths."""
    for placement in sheet.placements:
        part = parts[placement.part]
        turn = [(1, 0, 0, 1), (0, -1, 1, 0), (-1, 0, 0, -1), (0, 1, -1, 0)][placement.quarter_turns]
        side = -1 if placement.flipped else 1
        matrix = [turn[0] * side, turn[1], turn[2] * side, turn[3], 0, 0]
        path, finished = (affine_transform(region(loops), matrix) for loops in (part.loops, part.finished_loops))
        way = (placement.x - path.bounds[0], placement.y - path.bounds[1])
        yield placement.part, translate(finished, *way), translate(path, *way)


def rounded(finished, radius):
    """What a disc leaves in the inner corners of square-cornered parts: r² (tan(φ/2) - φ/2) each, for a turn of φ."""
    area = 0.0
    for number, ring in enumerate((finished.exterior, *finished.interiors)):
        points = list(ring.coords)[:-1]
        sign = 1 if ring.is_ccw == (number == 0) else -1
        for k, (x, y) in enumerate(points):
            (ax, ay), (bx, by) = points[k - 1], points[(k + 1) % len(points)]
            cross, dot = (x - ax) * (by - y) - (y - ay) * (bx - x), (x - ax) * (bx - x) + (y - ay) * (by - y)
            turn = -math.atan2(cross, dot) * sign
            area += radius**2 * (math.tan(turn / 2) - turn / 2) if turn > 0 else 0
    return area


def cut(piece, cutter):
    relief = {"relief": df.Relief(radius=0.6)} if cutter.kind == "bit" else {}
    parts = jobs.PIECES[piece]().cut(cutter=cutter, **relief)
    return parts, parts.lay_out(jobs.STOCK).sheets


CASES = [(piece, tool) for piece in jobs.PIECES for tool in WIDE]


@pytest.mark.parametrize(("piece", "tool"), CASES, ids=["-".join(case) for case in CASES])
def test_what_is_left_is_the_finished_parts(piece, tool):
    """Without bridges every part falls out, as large as it should be but for the rounds of its inner corners; with ways in from the waste as without."""
    parts, sheets = cut(piece, WIDE[tool])
    width = WIDE[tool].kerf
    for sheet in sheets:
        for lead in (0, 2):
            left, swept = left_of(sheet, df.Motion(bridges=0, lead=lead), width)
            pieces = shapely.get_parts(left)
            for name, finished, path in placed(sheet, parts):
                slack = 2e-3 * finished.length
                assert finished.buffer(-2e-3).disjoint(swept), name
                [own] = [one for one in pieces if one.intersects(finished.buffer(-0.2))]
                assert own.within(path.buffer(1e-3)) and own.buffer(width + 2e-3).contains(finished), name
                more = own.difference(finished).area
                if tool == "bit":
                    # Relieved corners have no rounds; chords of both arcs count.
                    assert more <= slack
                else:
                    assert more == pytest.approx(rounded(finished, width / 2), abs=2e-4 * finished.length)


HELD = [{"bridges": 1}, {"bridges": 4, "bridge_width": 0.3, "lead": 2}, {"bridge_spacing": 60, "bridge_width": 1.2, "lead": 3}]


@pytest.mark.parametrize("motion", HELD, ids=["one", "four", "spaced"])
@pytest.mark.parametrize(("piece", "tool"), CASES, ids=["-".join(case) for case in CASES])
def test_parts_hang_on_by_their_bridges(piece, tool, motion):
    """Nothing falls out before it is taken out; in the cut along each outline stand as many bridges as asked for, as wide, and away from its corners."""
    parts, sheets = cut(piece, WIDE[tool])
    width, bridge = WIDE[tool].kerf, motion.get("bridge_width", 2 if tool == "bit" else 0.5)
    motion = {**motion, "passes": 2}
    for sheet in sheets:
        plan = sheet.plan(df.Motion(**motion))
        assert plan.bare == []
        # In no pass, however shallow, the tool runs over a bridge.
        swept = shapely.union_all([way.buffer(width / 2, quad_segs=FINE) for way in ways(sheet.gcode(df.Motion(**motion)), 0)])
        left = shapely.box(0, 0, *jobs.STOCK.sheet).difference(swept)
        whole = next(piece for piece in shapely.get_parts(left) if piece.intersects(shapely.Point(0, 0)))
        total = 0
        for name, finished, path in placed(sheet, parts):
            assert whole.contains(finished.buffer(-2e-3)), name
            # On the line itself stand bridges alone; the rounds of inner corners are half a kerf away from it.
            found = shapely.get_parts(shapely.line_merge(path.boundary.difference(swept)))
            corners = shapely.MultiPoint([point for ring in (path.exterior, *path.interiors) for point in ring.coords])
            for line in found:
                assert line.length == pytest.approx(bridge, abs=2e-3), name
                assert line.distance(corners) >= bridge + width / 2 - 1e-3, name
                assert path.exterior.distance(line) < 1e-6, "holes need none"
            # So far apart only as far as there is room for them.
            assert len(found) == motion.get("bridges", len(found)) > 0
            total += len(found)
        assert total == plan.bridges


@pytest.mark.parametrize("lead", [0.5, 3])
@pytest.mark.parametrize("piece", jobs.PIECES)
def test_a_beam_pierces_the_waste(piece, lead):
    """Never a part, and no nearer to a line than half the kerf, but where the plan says that there is no room."""
    parts, sheets = cut(piece, WIDE["thin beam"])
    for sheet in sheets:
        motion = df.Motion(lead=lead)
        paths = [path for _, _, path in placed(sheet, parts)]
        starts = [shapely.Point(way.coords[0]) for way in ways(sheet.gcode(motion), 0)]
        edges = shapely.union_all([path.boundary for path in paths])
        on = [start for start in starts if start.distance(edges) < WIDE["thin beam"].kerf / 2 - 2e-4]
        assert len(on) == sheet.plan(motion).unled
        assert not any(path.buffer(-2e-4).contains(start) for path in paths for start in starts)
        border, (width, height) = jobs.STOCK.border, jobs.STOCK.sheet
        rim = shapely.box(border, border, width - border, height - border).exterior
        for start in on:
            assert start.distance(edges) < 2e-4
            # Behind a bridge at the sheet's border or between parts that lie near, there is no room.
            assert start.distance(rim) < lead / 4 + 0.2 or sum(path.distance(start) < lead / 4 + 0.2 for path in paths) > 1


@pytest.mark.parametrize(("piece", "kerf", "gap"), [("box", 0.2, 0), ("prism", 0.5, 0.8), ("prism", 0.1, 0.4)])
def test_shared_cuts_leave_the_finished_parts(piece, kerf, gap):
    """One cut for two parts gives up nothing of either; nor does a way in to a line that begins where three parts meet."""
    cutter = df.Cutter.beam(kerf=kerf)
    stock = df.Stock(thickness=3, sheet=jobs.STOCK.sheet, border=8, gap=gap)
    parts = jobs.PIECES[piece]().cut(cutter=cutter)
    shared = 0.0
    for sheet in parts.lay_out(stock, share_cuts=True).sheets:
        shared += sheet.shared_length
        left, swept = left_of(sheet, df.Motion(bridges=0, lead=1), kerf)
        for name, finished, _ in placed(sheet, parts):
            assert finished.buffer(-2e-3).disjoint(swept), name
            [own] = [one for one in shapely.get_parts(left) if one.intersects(finished.buffer(-0.2))]
            assert own.difference(finished).area == pytest.approx(rounded(finished, kerf / 2), abs=2e-4 * finished.length)
    assert shared > 100
