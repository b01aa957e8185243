"""Boards at an angle held against shapely (plane) and manifold3d (solids).

Corners of turned outlines are rounded to whole nanometres, so two solids that touch may share a film of a few nanometres: what is allowed
here is 5 nm over the faces that touch.
"""

import math
from itertools import combinations

import dryfit as df
import manifold3d as m3
import numpy as np
import pytest
from shapely.affinity import rotate
from shapely.geometry import Point, Polygon, box

STOCK = df.Stock(thickness=3, sheet=(500, 350), border=8)
FILM = 5e-6
SIDES = range(3, 13)


def placed(loops, thickness, frame):
    """A sheet of this outline where the frame puts it, in mm."""
    flat = m3.CrossSection([[tuple(map(float, point)) for point in loop] for loop in loops], m3.FillRule.Positive)
    made = m3.Manifold.extrude(flat, thickness).transform([list(map(float, row)) for row in frame[:3]])
    assert made.status() == m3.Error.NoError and made.volume() > 0, "an empty solid"
    return made


def solids(assembly):
    return {name: placed(panel.loops, panel.thickness, panel.frame) for name, panel in assembly.panels.items()}


def union(made):
    return m3.Manifold.batch_boolean(list(made), m3.OpType.Add)


def slab(panel, size):
    """The full board of a panel."""
    width, height = size
    return placed([[(0, 0), (width, 0), (width, height), (0, height)]], panel.thickness, panel.frame)


def touching(made):
    """The most that films between the solids can hold: half of all faces."""
    return FILM * sum(solid.surface_area() for solid in made.values()) / 2


def fits(assembly, whole):
    """No two solids share more than a film; what all of them leave of `whole` (mm3) is the void that the dry fit states."""
    made, report = solids(assembly), assembly.dry_fit()
    assert report.ok, report.problems
    film = touching(made)
    for p, q in combinations(made, 2):
        assert (made[p] ^ made[q]).volume() <= film, (p, q)
    assert union(made.values()).volume() + report.void_volume == pytest.approx(whole, rel=1e-6)
    return report


def strip(width, angle):
    return rotate(box(-500, -width / 2, 500, width / 2), angle, origin=(0, 0))


@pytest.mark.parametrize("turn", [-75, -60, -33.3, -10, 0, 5, 30, 45, 62.5, 75])
@pytest.mark.parametrize(("first", "second"), [(3, 3), (2, 5), (6.35, 1.5)])
def test_slots_are_the_shadow_of_the_mate(turn, first, second):
    """A crossing's slot is as wide as the overlap of the two strips reaches along the board, by shapely."""
    cross = df.Assembly(stock=df.Stock(thickness=first, sheet=(500, 350)))
    cross.add("long", normal="y", at=(0, 50 - first / 2, 0), size=(100, 60))
    other = df.Stock(thickness=second, sheet=(500, 350))
    cross.add("slanted", normal="x", at=(50 - second / 2, 0, 0), size=(100, 60), stock=other, turn=turn)
    one, two = strip(first, 0), strip(second, 90 + turn)
    shared = one.intersection(two)
    for name, back in (("long", 0), ("slanted", -90 - turn)):
        left, _, right, _ = rotate(shared, back, origin=(0, 0)).bounds
        inner = [x for x, y in cross.panels[name].loops[0] if y == 30]
        # Rounded outwards at both ends.
        assert right - left - 1e-8 <= max(inner) - min(inner) <= right - left + 2.1e-6
    # The least rectangle along a board around the overlap, as deep as the board is thick.
    assert shared.area == pytest.approx(first * second / math.cos(math.radians(turn)), rel=1e-9)
    fits(cross, 60 * one.intersection(box(-50, -50, 50, 50)).union(rotate(box(-50, -second / 2, 50, second / 2), 90 + turn, origin=(0, 0))).area)


def polygon(sides, side, inset=0.0):
    """A regular polygon by the length of its sides, moved inwards."""
    inner = side / 2 / math.tan(math.pi / sides) - inset
    radius = inner / math.cos(math.pi / sides)
    return Polygon([(radius * math.cos(2 * math.pi * k / sides), radius * math.sin(2 * math.pi * k / sides)) for k in range(sides)])


@pytest.mark.parametrize("top", ["open", "closed"])
@pytest.mark.parametrize("sides", SIDES)
def test_prisms_are_shells_but_for_the_wedges(sides, top):
    prism = df.prism(sides=sides, outside=60, height=50, stock=STOCK, top=top)
    shell = polygon(sides, 60).area * 50 - polygon(sides, 60, 3).area * (44 if top == "closed" else 47)
    if sides == 3:
        # The tips of fingers at sharp corners stay inside the mate's face: the slabs do not reach into the outer corners.
        tip = 3 / math.tan(math.pi / 3)
        walls = [slab(prism.panels[f"side-{k}"], (60 - 2 * tip, 50)) for k in (1, 2, 3)]
        core = m3.Manifold.extrude(m3.CrossSection([[tuple(p) for p in np.asarray(polygon(3, 60, 3).exterior.coords)[:-1]]]), 50)
        # Base and top fill what lies inside the walls.
        shell = union(walls).volume() + core.volume() * (2 if top == "closed" else 1) * 3 / 50
    report = fits(prism, shell)
    assert (report.void_volume == 0) == (sides == 4)


@pytest.mark.parametrize("sides", SIDES)
def test_the_outside_of_prisms_closes_at_the_corners(sides):
    """From a right angle on, fingers reach the outer corner line; at sharper corners no finger stands proud."""
    prism = df.prism(sides=sides, outside=60, height=50, stock=STOCK)
    outer = polygon(sides, 60)
    reach = max(np.hypot(x, y) for x, y in outer.exterior.coords)
    whole = union(solids(prism).values())
    points = np.asarray(whole.to_mesh().vert_properties)[:, :2]
    low, high = points.min(axis=0), points.max(axis=0)
    first = prism.panels["side-1"].frame
    # The middle of the front side is below the middle of the polygon.
    middle = (first[:3, :3] @ np.array([prism.panels["side-1"].loops[0][:, 0].max() / 2, 0, 3]) + first[:3, 3])[:2]
    centre = middle + np.array([0, 30 / math.tan(math.pi / sides)])
    far = np.hypot(*(points - centre).T).max()
    assert far <= reach + 1e-5
    assert (far >= reach - 1e-5) == (sides > 3)
    assert (high - low >= 0).all()


@pytest.mark.parametrize("turns", [(0, 60, 120), (0, 45, 90, 135), (0, 30, 100), (10, 90)])
def test_laps_share_one_line(turns):
    """Each board keeps its part; together they are the union of the full boards but for the void."""
    star = df.Assembly(stock=STOCK)
    names = [f"board-{k}" for k in range(len(turns))]
    for name, turn in zip(names, turns, strict=True):
        star.add(name, normal="y", at=(0, 48.5, 0), size=(100, 60), turn=turn)
    star.lap(names)
    fits(star, union([slab(star.panels[name], (100, 60)) for name in names]).volume())
    # Fairham, Woodwork Joints (1921), the halved joint, "one-third lapped": at the middle each keeps its part of the height, no more.
    for k, name in enumerate(names):
        at_middle = box(49.999, -1, 50.001, 61).intersection(Polygon(star.panels[name].loops[0]))
        low, high = at_middle.bounds[1], at_middle.bounds[3]
        assert (low, high) == pytest.approx((60 * k / len(turns), 60 * (k + 1) / len(turns)), abs=1e-6)


def leaning_rib(lean):
    rib = df.Assembly(stock=STOCK)
    rib.add("base", normal="z", at=(-80, 0, 0), size=(160, 100), stock=df.Stock(thickness=4, sheet=(500, 350)))
    middle = 30 * math.cos(math.radians(lean)) + 1.5 * math.sin(math.radians(abs(lean)))
    rib.add("rib", normal="x", at=(-1.5, 0, middle - 30), size=(100, 60), turn=lean, about="y")
    rib.joint("rib", "base", df.Tabs(width=12, spacing=18))
    return rib


@pytest.mark.parametrize("lean", [-45, -20, 15, 30, 60])
def test_leaning_ribs(lean):
    rib = leaning_rib(lean)
    assert len(rib.panels["base"].loops) > 2
    panels = rib.panels
    fits(rib, union([slab(panels["base"], (160, 100)), slab(panels["rib"], (100, 60))]).volume())


def away(panel, direction):
    """Where a step comes from: against its direction, along the assembly's axes or the panel's own."""
    sign = -1 if direction[0] == "+" else 1
    if direction[1] in "uvw":
        return sign * panel.frame[:3, "uvw".index(direction[1])]
    return sign * np.eye(3)["xyz".index(direction[1])]


@pytest.mark.parametrize("top", ["open", "closed"])
@pytest.mark.parametrize("sides", SIDES)
def test_order_moves_pass_through_nothing(sides, top):
    prism = df.prism(sides=sides, outside=60, height=50, stock=STOCK, top=top)
    made = solids(prism)
    film = touching(made)
    steps = prism.order()
    for k, step in enumerate(steps[1:], 1):
        there = union(made[s.panel] for s in steps[:k])
        way = away(prism.panels[step.panel], step.direction)
        for far in (0.3, 1, 2, 2.9, 3.1, 5, 9, 20, 60):
            moved = made[step.panel].translate([float(far * x) for x in way])
            assert (there ^ moved).volume() <= film, (step.panel, step.direction, far)


@pytest.mark.parametrize("sides", [3, 5, 6, 8, 12])
def test_allowances_are_square_to_the_face(sides):
    """Cut with a cheek of 0.1 mm and flanks of 0.05 mm nothing touches, and the report's least gap is the least distance of the solids."""
    prism = df.prism(sides=sides, outside=60, height=50, stock=STOCK, top="closed")
    parts = prism.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(cheek=0.1, flank=0.05))
    report = parts.dry_fit()
    assert report.ok, report.problems
    made = {name: placed(part.finished_loops, part.thickness, part.frame) for name, part in parts.items()}
    gaps = [made["side-1"].min_gap(made["side-2"], 1.0), made["side-1"].min_gap(made["base"], 1.0)]
    assert min(gaps) == pytest.approx(0.05, abs=1e-5)
    assert report.gap_min == pytest.approx(0.05, abs=1e-5)


def disc_at(x, y, radius):
    return Point(x, y).buffer(radius, quad_segs=256)


def relieved_corners(loop):
    """Inner corners of a loop and the middle of the void's angle there: where a relief on the diagonal has its centre."""
    for (ax, ay), (bx, by), (cx, cy) in zip(np.roll(loop, 1, 0), loop, np.roll(loop, -1, 0)):
        back, on = np.array([ax - bx, ay - by]), np.array([cx - bx, cy - by])
        if on[0] * back[1] - on[1] * back[0] < 0:
            way = back / np.hypot(*back) + on / np.hypot(*on)
            yield np.array([bx, by]), way / np.hypot(*way)


RELIEVED = [(f"prism of {n}", lambda n=n: df.prism(sides=n, outside=60, height=50, stock=STOCK, top="open")) for n in (3, 4, 5, 6, 8, 12)]
RELIEVED += [(f"rib at {lean}", lambda lean=lean: leaning_rib(lean)) for lean in (-45, 15, 30)]


@pytest.mark.parametrize("make", [row[1] for row in RELIEVED], ids=[row[0] for row in RELIEVED])
def test_turned_boards_are_relieved(make):
    """Without relief a bit's fillets are in the way; with it a part is the square one less discs, and the solids share nothing."""
    cutter, fit, radius = df.Cutter.bit(diameter=1), df.Fit(cheek=0.1, flank=0.1), 0.6
    plain = make().cut(cutter=cutter, fit=fit)
    assert not plain.dry_fit().ok
    parts = make().cut(cutter=cutter, fit=fit, relief=df.Relief(radius=radius))
    report = parts.dry_fit()
    assert report.ok, report.problems
    lost = 0
    for name, part in parts.items():
        outer, *holes = plain[name].finished_loops
        square = Polygon(outer, holes)
        want, corners = square, [each for loop in plain[name].finished_loops for each in relieved_corners(loop)]
        for corner, way in corners:
            want = want.difference(disc_at(*(corner + radius * way), radius))
        loops = part.finished_loops
        made = Polygon(loops[0], loops[1:])
        assert made.is_valid
        # Each chord lies within a thousandth of its arc.
        assert made.symmetric_difference(want).area <= 1e-3 * math.pi * radius * len(corners)
        assert part.area == pytest.approx(want.area, abs=len(corners) * radius**2 * 1e-4)
        assert sum(len(each) for each in part.finished_arcs_nm) == 2 * len(corners)
        lost += (plain[name].area - part.area) * part.thickness
    assert lost > 0
    # What the reliefs take is void, once; the rest is what lacks without them.
    assert report.void_volume - plain.dry_fit().void_volume == pytest.approx(lost, rel=1e-3)
    made = {name: placed(part.finished_loops, part.thickness, part.frame) for name, part in parts.items()}
    assert max((made[p] ^ made[q]).volume() for p, q in combinations(made, 2)) <= 1e-9
    # No neck between the arcs of one relief.
    assert report.thinnest_neck > radius
