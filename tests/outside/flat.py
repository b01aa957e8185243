"""Outlines as shapely polygons."""

from shapely import MultiPolygon, Polygon, box
from shapely.geometry import shape


def polygons(loops):
    """One polygon per outer loop, with the holes that lie in it. Nothing is repaired."""
    rings = [Polygon(loop) for loop in loops]
    outer = [loop for loop in loops if signed_area(loop) > 0]
    holes = [loop for loop in loops if signed_area(loop) <= 0]
    assert len(outer) + len(holes) == len(rings)
    return [Polygon(loop, [hole for hole in holes if Polygon(loop).contains(Polygon(hole).representative_point())]) for loop in outer]


def region(loops):
    """All of it in one; shapely tells whether it is valid."""
    found = polygons(loops)
    return found[0] if len(found) == 1 else MultiPolygon(found)


def signed_area(loop):
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(loop, [*loop[1:], loop[0]])) / 2


def from_interface(panel):
    """The polygon as other packages see it."""
    return shape(panel.__geo_interface__)


def rectangle(x0, y0, x1, y1):
    return box(x0, y0, x1, y1)
