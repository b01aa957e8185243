"""`gaps` against solids of what comes out: the paths, cut by another kerf (shapely), as boards of another thickness that are put together (manifold3d)."""

import random

import dryfit as df
import manifold3d as m3
import pytest
import shapely
from lengths import nm, text

MM = 1_000_000
AXES = {"front": 1, "back": 1, "left": 0, "right": 0, "base": 2, "top": 2}
# Two offsets by half a nanometre or less each, and the kernel's own rounding.
CLOSE = 3


def solid(part, kerf, thickness, keep):
    """What a cut of this width leaves of the path, in nanometres, of a board of this thickness that keeps its lower face, its upper one, or its middle."""
    path = shapely.Polygon(part.loops_nm[0], [loop for loop in part.loops_nm[1:]])
    left = path.buffer(-kerf / 2, join_style="mitre", mitre_limit=10)
    assert left.geom_type == "Polygon"
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (left.exterior, *left.interiors)]
    turned = [ring if shapely.LinearRing(ring).is_ccw == (number == 0) else ring[::-1] for number, ring in enumerate(rings)]
    frame = part.frame
    place = [[*map(float, row[:3]), float(nm(row[3]))] for row in frame[:3]]
    flat = m3.CrossSection([[tuple(map(float, point)) for point in ring] for ring in turned], m3.FillRule.Positive)
    made = m3.Manifold.extrude(flat, thickness).transform(place)
    assert made.status() == m3.Error.NoError and made.volume() > 0
    (axis,) = (row for row in range(3) if abs(frame[row][2]) == 1)
    meant = sorted([nm(frame[axis][3]), nm(frame[axis][3]) + round(frame[axis][2]) * nm(part.thickness)])
    now = made.bounding_box()
    now = (now[axis], now[axis + 3])
    by = {"low": meant[0] - now[0], "high": meant[1] - now[1], "middle": sum(meant) / 2 - sum(now) / 2}[keep]
    return made.translate([by if row == axis else 0.0 for row in range(3)])


def asked(rng):
    """(fit, thickness, kerf, real thickness, real kerf) in nanometres; clearance all round, so that there are gaps to measure."""
    fit = [rng.randrange(150_000, 400_000) for _ in range(2)] + [rng.randrange(-100_000, 300_000)]
    return fit, rng.randrange(28, 33) * MM // 10, rng.randrange(200_000), rng.randrange(2_900_000, 3_100_000), rng.randrange(200_000)


def found(fit, thickness, kerf, real_thickness, real_kerf):
    flank, cheek, tip = map(text, fit)
    given = {"thickness": thickness, "kerf": kerf, "real_thickness": real_thickness, "real_kerf": real_kerf}
    window = df.gaps(fit=df.Fit(flank=flank, cheek=cheek, tip=tip), **{name: [text(value)] for name, value in given.items()})
    return {name: nm(values[0]) for name, values in window.columns().items()}


@pytest.mark.parametrize("seed", range(6))
def test_corners(seed):
    case = asked(random.Random(seed))
    fit, thickness, kerf, real_thickness, real_kerf = case
    stock = df.Stock(thickness=text(thickness), sheet=(900, 900))
    box = df.box(outside=(70, 60, 50), stock=stock, finger_width=8)
    parts = box.cut(cutter=df.Cutter.beam(kerf=text(kerf)), fit=df.Fit(flank=text(fit[0]), cheek=text(fit[1]), tip=text(fit[2])))
    # The faces inside stay where they were meant to be.
    keep = {name: "high" if name in ("front", "left", "base") else "low" for name in parts}
    solids = {name: solid(part, real_kerf, real_thickness, keep[name]) for name, part in parts.items()}
    gaps = found(*case)
    least = min(gaps["flank"], gaps["shoulder"])
    for a, b in [("front", "left"), ("front", "base"), ("left", "base"), ("back", "top"), ("right", "back"), ("top", "left")]:
        assert solids[a].min_gap(solids[b], 2.0 * MM) == pytest.approx(least, abs=CLOSE), (a, b)
    proud = solids["left"].bounding_box()[0] - solids["front"].bounding_box()[0]
    assert proud == pytest.approx(gaps["tip"], abs=CLOSE)


@pytest.mark.parametrize("seed", range(6))
def test_slots(seed):
    case = asked(random.Random(seed + 100))
    fit, thickness, kerf, real_thickness, real_kerf = case
    stand = df.Assembly(stock=df.Stock(thickness=text(thickness), sheet=(900, 900)))
    at = text(50 * MM - thickness // 2)
    stand.add("long", normal="y", at=(0, at, 0), size=(100, 60))
    stand.add("short", normal="x", at=(at, 0, 0), size=(100, 60))
    parts = stand.cut(cutter=df.Cutter.beam(kerf=text(kerf)), fit=df.Fit(flank=text(fit[0]), cheek=text(fit[1]), tip=text(fit[2])))
    long, short = (solid(part, real_kerf, real_thickness, "middle") for part in parts.values())
    gaps = found(*case)
    # A slot has half its gap on either side; the floors of the two slots meet as flanks.
    assert long.min_gap(short, 2.0 * MM) == pytest.approx(min(gaps["flank"], gaps["cheek"] / 2), abs=CLOSE)
    # Without the floors, which are moved apart, the cheeks are alone.
    assert long.translate([0, 0, float(-MM)]).min_gap(short, 2.0 * MM) == pytest.approx(min(gaps["flank"] + MM, gaps["cheek"] / 2), abs=CLOSE)
