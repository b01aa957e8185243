"""The same closed box by shapely (GEOS) and the same proof by manifold3d, beside dryfit in the same process.

Each peer gets what it needs for nothing (the rectangles, the outlines) and the fastest of several ways to write it.
Times are the best of several rounds, in seconds, as JSON on standard output.
"""

import json
import sys
import time
from collections.abc import Callable

import numpy as np
import shapely
from manifold3d import CrossSection, Manifold, OpType

import packing
import scene

PANELS = [scene.panel(number) for number in range(6)]


def best(work: Callable[[], object], seconds: float = 1.5) -> float:
    """The shortest of all rounds in about `seconds`; short work is timed many times over in one round."""
    start = time.perf_counter()
    work()
    repeat = max(1, int(2e-3 / max(time.perf_counter() - start, 1e-9)))
    shortest, end = float("inf"), time.perf_counter() + seconds
    while time.perf_counter() < end:
        start = time.perf_counter()
        for _ in range(repeat):
            work()
        shortest = min(shortest, (time.perf_counter() - start) / repeat)
    return shortest


# Six panels by shapely, four ways.
SLABS = [shapely.box(0, 0, *size) for size, _, _ in PANELS]
CORES = [shapely.box(scene.THICKNESS, scene.THICKNESS, w - scene.THICKNESS, h - scene.THICKNESS) for (w, h), _, _ in PANELS]
LOST = [np.array(lost) for _, lost, _ in PANELS]
KEPT = [np.array(kept) for _, _, kept in PANELS]


def difference() -> list:
    return [slab.difference(shapely.union_all(shapely.box(*lost.T))) for slab, lost in zip(SLABS, LOST)]


def difference_of_coverage() -> list:
    return [shapely.difference(slab, shapely.coverage_union_all(shapely.box(*lost.T))) for slab, lost in zip(SLABS, LOST)]


def union() -> list:
    return [shapely.union_all([core, *shapely.box(*kept.T)]) for core, kept in zip(CORES, KEPT)]


def one_call() -> list:
    """All panels side by side in one call each for the cells and for the difference."""
    lost = [shapely.union_all(shapely.box(*lost.T)) for lost in LOST]
    return list(shapely.difference(SLABS, lost))


# The proof by manifold3d.
def rings(panel: shapely.Polygon) -> list:
    """Loops without the closing point, outer ones counter-clockwise: a clockwise ring would give an empty solid."""
    turned = shapely.geometry.polygon.orient(panel, 1)
    return [np.asarray(ring.coords)[:-1] for ring in (turned.exterior, *turned.interiors)]


def solids(outlines: list) -> list:
    made = []
    for number, loops in enumerate(outlines):
        flat = CrossSection(loops).extrude(scene.THICKNESS)
        made.append(flat.transform(scene.frame(number)))
    return made


def overlaps(parts: list) -> float:
    return sum((a ^ b).volume() for i, a in enumerate(parts) for b in parts[i + 1 :])


def proof_one_by_one(outlines: list) -> tuple[float, float]:
    parts = solids(outlines)
    whole = parts[0]
    for part in parts[1:]:
        whole = whole + part
    return overlaps(parts), whole.volume()


def proof_in_one(outlines: list) -> tuple[float, float]:
    parts = solids(outlines)
    return overlaps(parts), Manifold.batch_boolean(parts, OpType.Add).volume()


def shell() -> float:
    x, y, z = scene.OUTSIDE
    t = scene.THICKNESS
    return x * y * z - (x - 2 * t) * (y - 2 * t) * (z - 2 * t)


def dryfit_times() -> dict[str, float]:
    """The package's own calls, if it is installed here."""
    try:
        import dryfit as df
    except ImportError:
        return {}
    stock = df.Stock(thickness=scene.THICKNESS, sheet=(500, 500))

    def box() -> "df.Assembly":
        return df.box(outside=scene.OUTSIDE, stock=stock, finger_width=scene.FINGER_WIDTH)

    def outlines() -> list:
        return [panel.loops for panel in box().panels.values()]

    made = box()
    vertices = sum(len(loop) for loops in outlines() for loop in loops)
    assert made.dry_fit().ok and vertices == scene.VERTICES, vertices
    return {
        "panels": best(lambda: box().panels),
        "panels and loops": best(outlines),
        "proof": best(made.dry_fit),
    }


def main() -> None:
    ways = {way.__name__: way for way in (difference, difference_of_coverage, union, one_call)}
    made = difference()
    area = sum(panel.area for panel in made)
    for name, way in ways.items():
        assert abs(sum(panel.area for panel in way()) - area) < 1e-6, name
        assert all(panel.is_valid and panel.geom_type == "Polygon" for panel in way()), name
    outlines = [rings(panel) for panel in made]
    assert all(part.volume() > 0 for part in solids(outlines))
    assert abs(area * scene.THICKNESS - shell()) < 1e-6
    proofs = {way.__name__: way for way in (proof_one_by_one, proof_in_one)}
    for name, way in proofs.items():
        overlap, whole = way(outlines)
        assert overlap < 1e-6 and abs(whole - shell()) < 1e-6, (name, overlap, whole)
    times: dict[str, object] = {
        "vertices": scene.VERTICES,
        "shapely": {name: best(way) for name, way in ways.items()},
        "manifold3d": {name: best(lambda way=way: way(outlines), 4.0) for name, way in proofs.items()},
        "dryfit": dryfit_times(),
        "rectpack": packing.best_of_all(),
    }
    json.dump(times, sys.stdout, indent=1)


if __name__ == "__main__":
    main()
