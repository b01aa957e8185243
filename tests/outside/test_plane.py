"""Nominal panels in the plane, against GEOS (shapely): valid, simple, of the stated area, and mates that tile their block."""

import math

import flat
import scenes
from shapely import LinearRing, unary_union


def every_panel(boxes, free_assemblies):
    for name, *_, assembly in [*boxes, *free_assemblies]:
        for panel in assembly.panels.values():
            yield f"{name}, {panel.name}", panel


def test_outlines_are_valid_and_simple(boxes, free_assemblies):
    count = 0
    for name, panel in every_panel(boxes, free_assemblies):
        region = flat.region(panel.loops)
        assert region.is_valid and not region.is_empty, name
        assert all(LinearRing(loop).is_simple for loop in panel.loops), name
        assert LinearRing(panel.loops[0]).is_ccw, name
        count += 1
    assert count > 1000


def test_areas_are_the_stated_ones(boxes, free_assemblies):
    for name, panel in every_panel(boxes, free_assemblies):
        assert math.isclose(flat.region(panel.loops).area, panel.area, rel_tol=1e-12), name
        assert math.isclose(flat.from_interface(panel).area, panel.area, rel_tol=1e-12), name


def share(panel, slab, mate):
    """What a panel has of the block with its mate, as pieces along the run: the block's other side is the mate's thickness."""
    (axis, lo, _), (across, mate_lo, mate_hi) = slab, mate
    run = 3 - axis - across
    low, high = scenes.overlap(slab, mate)
    along = sorted(k for k in range(3) if k != axis).index(run)
    start, end = [(low[run] - lo[run]) / 1e6, (high[run] - lo[run]) / 1e6]
    near, far = (mate_lo[across] - lo[across]) / 1e6, (mate_hi[across] - lo[across]) / 1e6
    block = flat.rectangle(start, near, end, far) if along == 0 else flat.rectangle(near, start, far, end)
    piece = flat.region(panel.loops).intersection(block)
    # On the run alone: the run's coordinate, and 0 to 1 across.
    squash = []
    for part in getattr(piece, "geoms", [piece]):
        if part.area == 0:
            continue
        x0, y0, x1, y1 = part.bounds
        a, b = (x0, x1) if along == 0 else (y0, y1)
        assert math.isclose(part.area, (b - a) * (far - near), rel_tol=1e-9), "a share goes through the mate's whole thickness"
        squash.append(flat.rectangle(a + lo[run] / 1e6, 0, b + lo[run] / 1e6, 1))
    return unary_union(squash), flat.rectangle(low[run] / 1e6, 0, high[run] / 1e6, 1)


def cubes(slabs, p, q):
    """Where third boards cross the block of p and q."""
    found = []
    for third in slabs:
        common = scenes.overlap(slabs[p], slabs[q], third)
        if third not in (slabs[p], slabs[q]) and common:
            run = third[0]
            found.append(flat.rectangle(common[0][run] / 1e6, 0, common[1][run] / 1e6, 1))
    return unary_union(found)


def test_mating_profiles_neither_overlap_nor_gap(free_assemblies):
    pairs = 0
    for name, slabs, assembly in free_assemblies:
        panels = list(assembly.panels.values())
        for p in range(len(slabs)):
            for q in range(p + 1, len(slabs)):
                if not scenes.overlap(slabs[p], slabs[q]):
                    continue
                one, block = share(panels[p], slabs[p], slabs[q])
                two, _ = share(panels[q], slabs[q], slabs[p])
                outside = cubes(slabs, p, q)
                one, two, block = one - outside, two - outside, block - outside
                assert one.intersection(two).area <= 1e-9, (name, panels[p].name, panels[q].name)
                assert abs(one.union(two).area - block.area) <= 1e-9, (name, panels[p].name, panels[q].name)
                pairs += block.area > 0
    assert pairs > 500
