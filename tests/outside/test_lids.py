"""Lids, shelves and feet as solids, against a 3-D boolean kernel (manifold3d): what may move moves, and what may not runs into something."""

import pytest

import dryfit as df
import scenes
import solids
from solids import NOTHING

MM = 1_000_000
T, C = 2_500_000, 200_000
SIZE = (110, 85, 60)
DIRECTIONS = {sign + axis: [(1 if sign == "+" else -1) if k == axis else 0 for k in "xyz"] for axis in "xyz" for sign in "+-"}


def made(**asked):
    box = df.box(outside=SIZE, stock=scenes.stock(T), **asked)
    assert box.dry_fit().ok
    return box, solids.panel_solids(box.panels)


def hits(moving, standing, way, by):
    """Volume in mm3 that two solids share, the first moved by so many nanometres."""
    return solids.volume(moving.translate([float(by * w) for w in DIRECTIONS[way]]) ^ standing)


def parted(box, bodies):
    """The last step's boards as one solid, all others as another."""
    last = box.order()[-1]
    along = {last.panel, *last.along}
    return last, solids.union(bodies[name] for name in along), solids.union(solid for name, solid in bodies.items() if name not in along)


def out(direction):
    return ("-" if direction[0] == "+" else "+") + direction[1]


LIDS = {"lift-off": ("lid", ["batten-left", "batten-right"], "-z", ["+x", "-x", "+y", "-y"]), "sliding": ("lid", ["pull"], "+y", ["+x", "-x", "+z", "+y"])}


@pytest.mark.parametrize("top", LIDS)
def test_the_lid_comes_off_and_is_kept_in_its_place(top):
    box, bodies = made(top=top)
    shared = solids.overlaps(bodies)
    assert max(shared.values()) <= NOTHING, shared
    last, lid, rest = parted(box, bodies)
    panel, along, direction, held = LIDS[top]
    assert (last.panel, last.along, last.direction) == (panel, along, direction)
    # All the way out, in steps finer than any board is thick.
    for by in range(0, 100 * MM, T // 2):
        assert hits(lid, rest, out(direction), by) <= NOTHING, by
    # As far as the clearance, and no farther.
    for way in held:
        assert hits(lid, rest, way, C) <= NOTHING, way
        assert hits(lid, rest, way, C + 10_000) > 1000 * NOTHING, way
    # A lid lies on what carries it.
    assert hits(lid, rest, "-z", 10_000) > 1000 * NOTHING


def test_the_clearance_is_what_was_asked():
    for top in LIDS:
        box, bodies = made(top=top, lid_clearance=0.75)
        _, lid, rest = parted(box, bodies)
        for way in LIDS[top][3]:
            assert hits(lid, rest, way, 750_000) <= NOTHING < hits(lid, rest, way, 760_000) / 1000, (top, way)


def test_what_is_cut_has_the_clearance_too():
    for top in LIDS:
        box, _ = made(top=top)
        parts = box.cut(cutter=df.Cutter.beam(kerf=0.18), fit=df.Fit(flank=0.02, cheek=0.05))
        assert parts.dry_fit().ok
        _, lid, rest = parted(box, solids.finished_solids(parts))
        for by in range(0, 100 * MM, T // 2):
            assert hits(lid, rest, out(LIDS[top][2]), by) <= NOTHING


@pytest.mark.parametrize("top", ["closed", "open", "lift-off", "sliding"])
def test_a_shelf_is_captive(top):
    """With all walls there it moves in no direction; and in the order two walls at least come after it."""
    box, bodies = made(top=top, shelves=[12, 30])
    steps = [step.panel for step in box.order()]
    for name in ("shelf-1", "shelf-2"):
        rest = solids.union(solid for other, solid in bodies.items() if other != name)
        for way in DIRECTIONS:
            assert hits(bodies[name], rest, way, 10_000) > 1000 * NOTHING, (name, way)
        after = set(steps[steps.index(name) :])
        assert len(after & {"front", "back", "left", "right"}) >= 2


@pytest.mark.parametrize("name", ["runner-left", "runner-right", "kicker-left", "kicker-right"])
def test_runners_and_kickers_are_captive(name):
    """As long as all walls stand."""
    _, bodies = made(top="sliding")
    rest = solids.union(solid for other, solid in bodies.items() if other not in (name, "lid", "pull"))
    for way in DIRECTIONS:
        assert hits(bodies[name], rest, way, 10_000) > 1000 * NOTHING, way


def test_feet_carry_the_box_and_tile():
    box, bodies = made(feet=12)
    assert max(solids.overlaps(bodies).values()) <= NOTHING
    box_alone = df.box(outside=(*SIZE[:2], SIZE[2] - 12), stock=scenes.stock(T))
    whole = sum(map(solids.volume, bodies.values()))
    x, y = SIZE[0] * MM, SIZE[1] * MM
    feet = [((5 * T, 2 * T, 0), (6 * T, y - 2 * T, 12 * MM)), ((2 * T, 5 * T, 0), (x - 2 * T, 6 * T, 12 * MM))]
    feet += [((x - 6 * T, 2 * T, 0), (x - 5 * T, y - 2 * T, 12 * MM)), ((2 * T, y - 6 * T, 0), (x - 2 * T, y - 5 * T, 12 * MM))]
    below = solids.volume(solids.union(solids.cuboid(lo, hi) for lo, hi in feet))
    assert abs(whole - below - sum(map(solids.volume, solids.panel_solids(box_alone.panels).values()))) <= 1e-6
