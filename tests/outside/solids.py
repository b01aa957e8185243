"""Outlines as manifold3d solids, placed by their frames."""

from itertools import combinations

import manifold3d as m3
from lengths import nm

# mm3: what the kernel's rounding may leave. One square millimetre that is one nanometre too deep would be a thousand times as much.
NOTHING = 1e-9


def solid(loops_nm, thickness, frame):
    """A sheet of this outline where the frame puts it, in nanometres: whole numbers, so that no sum of doubles is rounded.

    A clockwise outline would give an empty solid, and "nothing overlaps" would hold of nothing: so the volume is looked at here.
    """
    flat = m3.CrossSection([[tuple(map(float, point)) for point in loop] for loop in loops_nm], m3.FillRule.Positive)
    place = [[*map(float, row[:3]), float(nm(row[3]))] for row in frame[:3]]
    placed = m3.Manifold.extrude(flat, nm(thickness)).transform(place)
    assert placed.status() == m3.Error.NoError, placed.status()
    assert placed.volume() > 0, "an empty solid"
    return placed


def volume(made):
    """In mm3."""
    return made.volume() / 1e18


def panel_solids(things):
    """Solids of panels or parts (name -> thing), by name."""
    return {name: solid(thing.loops_nm, thing.thickness, thing.frame) for name, thing in things.items()}


def finished_solids(parts):
    """Solids of what comes off the cutter."""
    return {name: solid(part.finished_loops_nm, part.thickness, part.frame) for name, part in parts.items()}


def cuboid(lo, hi):
    """Corners in nanometres."""
    return m3.Manifold.cube([float(b - a) for a, b in zip(lo, hi)]).translate([float(a) for a in lo])


def union(solids):
    return m3.Manifold.batch_boolean(list(solids), m3.OpType.Add)


def overlaps(solids):
    """Volume in mm3 that two solids share, for each pair."""
    return {(p, q): volume(solids[p] ^ solids[q]) for p, q in combinations(solids, 2)}
