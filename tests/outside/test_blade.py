"""A trailing blade's tip, integrated along the axis' way of written files: does it follow the outlines, and turn at every corner?"""

import itertools
import math

import drag
import dryfit as df
import hpgl
import numpy as np
import pytest
import rs274
import shapely

TRAIL = 0.25


# The simulator itself, against figures that were worked out beforehand (rear wheel, front wheel; see drag.py for the sources).


@pytest.mark.parametrize(
    ("turn", "way", "degrees", "off"),
    [
        (90, 0.25, 40.395063, 0.162014),
        (90, 0.5, 15.414627, 0.066451),
        (90, 1.0, 2.098583, 0.009155),
        (90, 2.0, 0.038441, 0.000168),
        (60, 0.5, 8.935555, 0.038831),
        (120, 0.5, 26.384761, 0.111099),
    ],
)
def test_after_a_corner_an_unled_blade_falls_into_line(turn, way, degrees, off):
    """tan(θ/2) = tan(φ/2) e^(-s/l), and l sin θ off the line; in closed form and by Runge and Kutta."""
    start, end = (0.0, 0.0), (0.0, way)
    before = math.radians(90 - turn)
    closed = drag.straight(before, start, end, TRAIL)
    path = (lambda t: (0.0, way * t), lambda t: (0.0, way))
    stepped = drag.runge_kutta(before, path, TRAIL, 4000)[-1]
    for theta in (closed, stepped):
        assert 90 - math.degrees(theta) == pytest.approx(degrees, abs=1e-6)
        assert TRAIL * math.sin(math.pi / 2 - theta) == pytest.approx(off, abs=1e-6)


def test_on_a_circle_the_rear_wheel_runs_inside():
    """Axis on a circle of 10: the tip settles on sqrt(100 - l²) = 9.9968745116."""
    around = rs274.Motion(3, (10.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0), 1, 0, 0)
    tips, _ = drag.track([around, around], TRAIL, math.pi / 2)
    assert math.hypot(*tips[-1]) == pytest.approx(9.9968745116, abs=1e-9)


# Written files.


def strokes(program):
    """The motions between lowering and lifting the tool, without those that only change its depth."""
    groups = itertools.groupby(program.motions, key=lambda motion: motion.kind != 0)
    found = [[motion for motion in group if motion.start[:2] != motion.end[:2]] for cutting, group in groups if cutting]
    assert found
    return [stroke for stroke in found if stroke]


def loops(sheet):
    """Every outline and hole of a sheet."""
    return [np.asarray(loop) for placement in sheet.placements for loop in placement.loops]


def jobs():
    stock = df.Stock(thickness=2.5, sheet=(500, 350), border=8, gap=1)
    yield "box", df.box(outside=(80, 60, 40), stock=stock, dividers=(1, 0)), {}, stock, 0.25
    yield "relief", df.box(outside=(50, 40, 30), stock=stock), {"relief": df.Relief(radius=0.4)}, stock, 0.25
    yield "prism", df.prism(sides=6, height=40, stock=stock, across_flats=60), {}, stock, 0.8
    tails = df.Assembly(stock=stock)
    tails.add("left", normal="z", at=(0, 0, 0), size=(120, 60))
    tails.add("right", normal="z", at=(110, 0, 0), size=(120, 60))
    tails.joint("left", "right", df.Tails(count=3, slope=8))
    yield "tails", tails, {}, stock, 0.25
    holed = df.Assembly(stock=stock)
    holed.add("left", normal="x", at=(0, 0, 0), size=(90, 70))
    holed.add("shelf", normal="z", at=(0, 0, 30), size=(80, 90))
    holed.joint("shelf", "left", df.Tabs(width=12, spacing=20))
    holed.hole("left", at=(45, 55), diameter=8)
    holed.hole("left", at=(20, 55), size=(14, 4), ends="round")
    yield "holes", holed, {}, stock, 0.25


WAYS = {
    "plain": df.Motion(),
    "chords": df.Motion(flat=0.002),
    "turned near the face": df.Motion(turn_depth=0.5, passes=2, light=0.2),
    "the other way round": df.Motion(inner="counter-clockwise", outer="clockwise", start="middle"),
}


@pytest.mark.parametrize("way", WAYS.values(), ids=WAYS)
@pytest.mark.parametrize(("piece", "more", "stock", "trail"), [job[1:] for job in jobs()], ids=[job[0] for job in jobs()])
def test_the_tip_stays_on_the_outlines(piece, more, stock, trail, way):
    """Within 0.02 mm everywhere, and everywhere along them: at every corner too, and along the first of the edge behind it."""
    layout = piece.cut(cutter=df.Cutter.blade(kerf=0, trail=trail), **more).lay_out(stock)
    for sheet in layout.sheets:
        follows(sheet, strokes(rs274.read(sheet.gcode(way))), trail)
        assert sheet.plan(way).deviation < 0.02


@pytest.mark.parametrize(("piece", "more", "stock", "trail"), [job[1:] for job in jobs()], ids=[job[0] for job in jobs()])
def test_so_it_does_in_steps_of_a_plotter(piece, more, stock, trail):
    """HP-GL rounds all points to 0.025 mm and has chords for arcs; the tip stays within 0.02 mm all the same."""
    layout = piece.cut(cutter=df.Cutter.blade(kerf=0, trail=trail), **more).lay_out(stock)
    for sheet in layout.sheets:
        drawn = [list(itertools.pairwise(stroke.points)) for stroke in hpgl.read(sheet.hpgl())]
        follows(sheet, [[rs274.Motion(1, (*a, 0.0), (*b, 0.0), None, 1.0, 0, 0.0) for a, b in stroke] for stroke in drawn], trail)


def follows(sheet, stroked, trail):
    """Whether the tip, whose axis makes these strokes, goes along all outlines of a sheet and nowhere else."""
    theta, tips = 0.0, []
    for stroke in stroked:
        # While it is up, the blade keeps its direction; at first it points along x.
        found, theta = drag.track(stroke, trail, theta)
        tips.append(found)
    outlines = shapely.MultiLineString([np.vstack([loop, loop[:1]]) for loop in loops(sheet)])
    tracks = shapely.MultiLineString(tips)
    shapely.prepare([outlines, tracks])
    assert shapely.dwithin(shapely.points(np.vstack(tips)), outlines, 0.02).all()
    dense = shapely.get_coordinates(shapely.segmentize(outlines, 0.2))
    assert shapely.dwithin(shapely.points(dense), tracks, 0.02).all()


def test_the_area_between_both_tracks():
    """Mamikon: over one turn round an outline the blade sweeps the area of a circle with the trail as radius, whatever the outline; backwards round holes."""
    trail = 0.8
    stock = df.Stock(thickness=2.5, sheet=(500, 350), border=8, gap=1)
    box = df.box(outside=(110, 85, 60), stock=stock, dividers=(1, 1)).cut(cutter=df.Cutter.blade(kerf=0, trail=trail))
    signs = []
    for parts in (box, df.Parts.rectangles([(60, 40), (7, 90), (0.5, 0.5)])):
        sheet = parts.lay_out(stock).sheets[0]
        cuts = sheet.route().cuts
        for cut, stroke in zip(cuts, strokes(rs274.read(sheet.gcode(df.Motion(cutter=df.Cutter.blade(kerf=0, trail=trail))))), strict=True):
            # The first turn comes from the line before; from its end on it is a whole way round, to the same place of the axis.
            first = 1 if stroke[0].centre and np.allclose(stroke[0].centre, cut.points[0], atol=1e-3) else 0
            start = stroke[first].start[:2]
            last = next(k for k in range(first + 2, len(stroke)) if np.allclose(stroke[k].end[:2], start, atol=1e-3))
            around = np.vstack([np.array(motion.points(1e-6))[:, :2] for motion in stroke[first : last + 1]])
            swept = shoelace(around) - shoelace(cut.points)
            sign = math.copysign(1, shoelace(cut.points))
            assert swept == pytest.approx(sign * math.pi * trail**2, abs=2e-3)
            signs.append(sign)
    assert set(signs) == {1, -1} and len(signs) > 10


def shoelace(points):
    """The area within points, and the way from the last to the first."""
    (x, y), (u, v) = np.asarray(points).T, np.roll(points, -1, axis=0).T
    return float(np.sum(x * v - u * y)) / 2


def test_a_circle_is_led_from_a_larger_one():
    """The axis of a tip on a circle of 10 runs on sqrt(100 + l²) = 10.0031245116."""
    stock = df.Stock(thickness=2.5, sheet=(200, 150), border=8)
    plate = df.Assembly(stock=stock)
    plate.add("plate", normal="z", at=(0, 0, 0), size=(60, 60))
    plate.hole("plate", at=(30, 30), diameter=20)
    sheet = plate.cut(cutter=df.Cutter.blade(kerf=0, trail=0.25)).lay_out(stock).sheets[0]
    around = [motion for motion in strokes(rs274.read(sheet.gcode()))[0] if motion.centre and math.dist(motion.start[:2], motion.centre) > 1]
    radii = [math.dist(end[:2], motion.centre) for motion in around for end in (motion.start, motion.end)]
    # Written to the tenth of a micrometre.
    assert radii == pytest.approx([10.0031245116] * len(radii), abs=1.5e-4) and len(radii) >= 4


def test_an_unled_blade_rounds_the_corners():
    """What all this is for: with its axis on the outline the tip leaves the corners by more than half the trail."""
    stock = df.Stock(thickness=2.5, sheet=(200, 150), border=8)
    sheet = df.Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0]
    program = rs274.read(sheet.gcode(df.Motion(cutter=df.Cutter.blade(kerf=0, trail=0))))
    tips, _ = drag.track(strokes(program)[0], 0.5, 0.0)
    assert float(shapely.distance(shapely.points(tips), shapely.LinearRing(loops(sheet)[0])).max()) > 0.25


def test_small_turns_cost_what_the_plan_says():
    """Where the axis takes the chord of a turn, the tip strays; the plan says by how much at most."""
    stock = df.Stock(thickness=2.5, sheet=(400, 300), border=8)
    eight = df.prism(sides=8, height=40, stock=stock, across_flats=120, top="open").cut(cutter=df.Cutter.blade(kerf=0, trail=1.5))
    for above in (10, 60, 90):
        motion, seen = df.Motion(swivel_above=above), 0.0
        for sheet in eight.lay_out(stock).sheets:
            outlines = shapely.MultiLineString([np.vstack([loop, loop[:1]]) for loop in loops(sheet)])
            theta = 0.0
            for stroke in strokes(rs274.read(sheet.gcode(motion))):
                tips, theta = drag.track(stroke, 1.5, theta)
                seen = max(seen, float(shapely.distance(shapely.points(tips), outlines).max()))
        said = max(sheet.plan(motion).deviation for sheet in eight.lay_out(stock).sheets)
        assert seen <= said + 2e-4
        assert above < 60 or said > 0.01


@pytest.mark.parametrize("trail", [0.25, 5])
def test_chords_cost_no_more_than_four_times_their_tolerance(trail):
    """Chords in place of the arcs of the axis, also of those about the tip: each pushes the tip back, and it falls behind a little at every turn."""
    stock = df.Stock(thickness=2.5, sheet=(300, 200), border=8, gap=4)
    [sheet] = df.box(outside=(50, 40, 30), stock=stock).cut(cutter=df.Cutter.blade(kerf=0, trail=trail)).lay_out(stock).sheets
    outlines = shapely.MultiLineString([np.vstack([loop, loop[:1]]) for loop in loops(sheet)])
    for flat in (0.001, 0.02):
        theta, seen = 0.0, 0.0
        for stroke in strokes(rs274.read(sheet.gcode(df.Motion(flat=flat)))):
            tips, theta = drag.track(stroke, trail, theta)
            seen = max(seen, float(shapely.distance(shapely.points(tips), outlines).max()))
        assert flat < seen < 4 * flat
