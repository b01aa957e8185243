"""Boards of one plane that share their overlap, against GEOS (shapely) in the plane and a 3-D boolean kernel (manifold3d) as solids.

Flanks lean, so GEOS is asked in whole nanometres from a corner near by: products of such doubles are exact up to 94 mm (53 bits), and nearly so beyond.
"""

import math
import random
from itertools import combinations

import dryfit as df
import numpy as np
import pytest
import solids
import vectors
from lengths import nm, text
from scenes import stock
from shapely import LineString, Polygon, unary_union
from solids import NOTHING

MM = 1_000_000
EXACT = df.Cutter.blade(kerf=0, trail="0.25 mm")


def cases():
    """Every case of the vectors that is no refusal."""
    return [(case, vectors.assembly(case)) for case in vectors.cases("splices") if "error" not in case]


CASES = cases()


def in_plane(thing, loops):
    """The one outline in whole nanometres of the assembly, on the two axes of the plane; the frame only moves and turns it."""
    (loop,) = loops
    frame = thing.frame
    turn, shift = np.rint(frame[:3, :2]).astype(np.int64), np.array([nm(value) for value in frame[:3, 3]])
    across = int(np.argmax(np.abs(frame[:3, 2])))
    points = (loop @ turn.T + shift)[:, [k for k in range(3) if k != across]]
    return Polygon(points.tolist())


def nominal(asm):
    return {name: in_plane(panel, panel.loops_nm) for name, panel in asm.panels.items()}


def finished(parts):
    return {name: in_plane(part, part.finished_loops_nm) for name, part in parts.items()}


def slabs(case):
    """The full slabs as rectangles; a key's lies inside the others'."""
    out = []
    for row in case["boards"]:
        axes = [k for k in range(3) if "xyz"[k] != row["normal"]]
        (x, y), (w, h) = (row["at"][k] for k in axes), row["size"]
        out.append(Polygon([(x, y), (x + w, y), (x + w, y + h), (x, y + h)]))
    return out


def test_panels_tile_their_slabs():
    for case, asm in CASES:
        made = nominal(asm)
        assert all(region.is_valid for region in made.values()), case["name"]
        size = sum(region.area for region in made.values())
        for p, q in combinations(made, 2):
            # A strip of one nanometre along one flank would be a hundred million times as much.
            assert made[p].intersection(made[q]).area <= 1e-16 * size, (case["name"], p, q)
        whole, union = unary_union(slabs(case)), unary_union(list(made.values()))
        assert union.symmetric_difference(whole).area <= 1e-16 * size, case["name"]
        assert math.isclose(size, whole.area, rel_tol=1e-15), case["name"]


def test_a_strip_of_one_nanometre_would_be_seen():
    case, asm = CASES[0]
    made = nominal(asm)
    one, other = made.values()
    moved = Polygon([(x - 1, y - 1) for x, y in other.exterior.coords])
    assert one.intersection(moved).area > 1e-10 * one.area


def test_the_kerf_taken_off_a_path_is_the_part():
    """GEOS moves the whole path inwards with mitred corners; the parts' own corners are rounded to the nanometre."""
    for case, asm in CASES:
        parts = asm.cut(cutter=df.Cutter.beam(kerf=vectors.text(case["kerf"])), fit=df.Fit(flank=vectors.text(case["flank"])))
        for name, part in parts.items():
            path, made = Polygon(part.loops_nm[0].tolist()), Polygon(part.finished_loops_nm[0].tolist())
            taken = path.buffer(-(case["kerf"] // 2), join_style="mitre", mitre_limit=100)
            assert taken.hausdorff_distance(made) <= 2, (case["name"], name)


def test_mates_are_the_allowance_apart():
    """The least distance of two mates, and the distance of each leaning edge from the mate's.

    Where one is wider than the other, a side of the one is free as soon as the other ends: from there to the other's corner it is one share of the
    allowance, half of it.
    """
    seen = 0
    for flank in (100_000, 33_333):
        for case, asm in CASES:
            if case["name"] in POINTED:
                continue
            made = finished(asm.cut(cutter=EXACT, fit=df.Fit(flank=text(flank))))
            for p, q in combinations(made, 2):
                if made[p].distance(made[q]) > MM or (case["keys"] and "key" not in q):
                    continue
                least = flank / 2 if differ(case, p, q) else flank
                assert abs(made[p].distance(made[q]) - least) <= 2, (case["name"], p, q)
            for p, region in made.items():
                mates = unary_union([made[q] for q in made if q != p])
                for a, b in zip(region.exterior.coords, region.exterior.coords[1:]):
                    if a[0] != b[0] and a[1] != b[1]:
                        middle = LineString([a, b]).interpolate(0.5, normalized=True)
                        assert abs(mates.distance(middle) - flank) <= 2, (case["name"], p, a, b)
                        seen += 1
    assert seen > 1000


def differ(case, p, q):
    """Along one axis both boards end elsewhere by different ways in the same direction (the depth); along the other one is wider."""
    rows = {row["name"]: row for row in case["boards"]}
    if p not in rows or q not in rows:
        return False
    p, q = rows[p], rows[q]
    axes = [k for k in range(3) if "xyz"[k] != p["normal"]]
    ends = [[(row["at"][k], row["at"][k] + row["size"][i]) for row in (p, q)] for i, k in enumerate(axes)]
    (run,) = [(one, two) for one, two in ends if (one[0] - two[0]) * (one[1] - two[1]) <= 0]
    return run[0] != run[1]


# Pins or tails that come to nearly nothing: no allowance leaves anything of them.
POINTED = {case["name"] for case, asm in CASES if asm.dry_fit().thinnest_neck < 0.5}


def test_thinnest_necks_of_parts():
    """The report's thinnest neck of parts with slanted edges, by a slow and plain search with GEOS."""
    rng, seen = random.Random(55), 0
    for case, asm in rng.sample(CASES, 40):
        if case["name"] in POINTED:
            continue
        parts = asm.cut(cutter=EXACT, fit=df.Fit(flank=text(40_001)))
        neck = nm(parts.dry_fit().thinnest_neck)
        assert neck == pytest.approx(min(thinnest(region) for region in finished(parts).values()), abs=2), case["name"]
        seen += 1
    assert seen > 20


def thinnest(region):
    """Least length of a cut between two edges through the solid: from each corner to each edge that it sees inside. Slow and plain."""
    corners = list(region.exterior.coords)[:-1]
    edges = list(zip(corners, [*corners[1:], corners[0]]))
    least = math.inf
    grown = region.buffer(0.5)
    for corner in corners:
        for edge in edges:
            if corner in edge:
                continue
            line = LineString(edge)
            foot = line.interpolate(line.project(LineString([corner, corner]).centroid))
            cut = LineString([corner, foot])
            if cut.length >= least or cut.length == 0 or not grown.contains(cut):
                continue
            # Through the solid, not along its border.
            if cut.intersection(region.exterior.buffer(1)).length < cut.length - 10:
                least = cut.length
    return least


def solid_cases():
    """Name, assembly, volume of the union of its slabs in mm3."""
    ring = df.ring(outside=(220, 160), width=36, stock=stock(3 * MM), joint=df.Tails(count=1, slope=6))
    yield "ring", ring, (220 * 160 - 148 * 88) * 3
    keyed = df.Assembly(stock=stock(3 * MM))
    keyed.add("left", normal="z", at=(0, 0, 0), size=(100, 80))
    keyed.add("right", normal="z", at=(100, 0, 0), size=(90, 80))
    keyed.key("key", between=("left", "right"), length=30, width=20, at=40, slope=6)
    yield "butterfly key", keyed, 190 * 80 * 3
    yield "long board", df.splice(length=700, width=80, stock=stock(3 * MM), joint=df.Tails(count=2, slope=8, half="tails"), pieces=3), 700 * 80 * 3
    tray = df.Assembly(stock=stock(3 * MM))
    for name, normal, at, size in TRAY:
        tray.add(name, normal=normal, at=at, size=size)
    boxes = [(3, *[[*at], [at[k] + (dict(zip([a for a in range(3) if "xyz"[a] != normal], size)).get(k, 3)) for k in range(3)]]) for _, normal, at, size in TRAY]
    whole = solids.union(solids.cuboid([c * MM for c in lo], [c * MM for c in hi]) for _, lo, hi in boxes)
    yield "spliced side of a tray", tray, solids.volume(whole)


# A long front of two boards, fingered into a base, two ends and a shelf.
TRAY = [
    ("base", "z", (0, 0, 0), (220, 90)),
    ("front west", "y", (0, 0, 0), (118, 60)),
    ("front east", "y", (104, 0, 0), (116, 60)),
    ("back", "y", (0, 87, 0), (220, 60)),
    ("left", "x", (0, 0, 0), (90, 60)),
    ("right", "x", (217, 0, 0), (90, 60)),
    ("shelf", "z", (0, 0, 30), (220, 90)),
]


@pytest.mark.parametrize(("name", "asm", "whole"), list(solid_cases()), ids=lambda value: value if isinstance(value, str) else "")
def test_solids_share_nothing_and_fill_the_slabs(name, asm, whole):
    assert asm.dry_fit().ok, asm.dry_fit().problems
    made = solids.panel_solids(asm.panels)
    assert max(solids.overlaps(made).values()) <= NOTHING
    assert sum(map(solids.volume, made.values())) == pytest.approx(whole, rel=1e-12)
    assert solids.volume(solids.union(made.values())) == pytest.approx(whole, rel=1e-12)
    # And so they do with gaps, of which the report knows the volume.
    parts = asm.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(flank=0.1, cheek=0.1))
    report, made = parts.dry_fit(), solids.finished_solids(parts)
    assert report.ok, report.problems
    assert max(solids.overlaps(made).values()) <= NOTHING
    assert report.void_volume == pytest.approx(whole - sum(map(solids.volume, made.values())), rel=1e-6)


def shells(how_many, seed=2):
    """Open shells with a shelf or a rib whose boards are spliced at random: (slabs, assembly)."""
    rng, made, crowded = random.Random(seed), [], 0
    while len(made) < how_many:
        t = rng.choice([3 * MM, 2_500_001, 4 * MM])
        x, y, z = (rng.randrange(120, 260) * MM + rng.randrange(3) for _ in range(3))
        high, right = rng.randrange(50 * MM, z - 40 * MM), rng.randrange(50 * MM, x - 40 * MM)
        walls = [((0, 0, 0), (x, t, z)), ((0, y - t, 0), (x, y, z)), ((0, 0, 0), (t, y, z)), ((x - t, 0, 0), (x, y, z)), ((0, 0, 0), (x, y, t))]
        walls += [((0, 0, high), (x, y, high + t)), ((right, 0, 0), (right + t, y, z))][: rng.randrange(3)]
        slabs = [slab for wall in walls for slab in pieces(rng, *wall)]
        rng.shuffle(slabs)
        asm = df.Assembly(stock=stock(t))
        try:
            for number, (axis, lo, hi) in enumerate(slabs):
                size = [text(hi[k] - lo[k]) for k in range(3) if k != axis]
                asm.add(f"b{number}", normal="xyz"[axis], at=[text(c) for c in lo], size=size)
            asm.panels
        except (df.Crowded, df.Blind, df.RunTooShort) as refusal:
            crowded += isinstance(refusal, df.Crowded)
            continue
        if len(slabs) > len(walls):
            made.append((slabs, asm))
    assert 0 < crowded < how_many / 2
    return made


def pieces(rng, lo, hi):
    """A board, or the two that it is spliced of."""
    axis = min(range(3), key=lambda k: hi[k] - lo[k])
    if rng.random() > 0.4:
        return [(axis, lo, hi)]
    along = rng.choice([k for k in range(3) if k != axis])
    at = rng.randrange(lo[along] + 40 * MM, hi[along] - 40 * MM)
    end, start = list(hi), list(lo)
    end[along], start[along] = at + rng.randrange(5 * MM, 20 * MM), at
    return [(axis, lo, end), (axis, start, hi)]


def test_shells_of_spliced_boards():
    for slabs, asm in shells(60):
        whole = solids.volume(solids.union(solids.cuboid(lo, hi) for _, lo, hi in slabs))
        made = solids.panel_solids(asm.panels)
        assert asm.dry_fit().ok, (asm.dry_fit().problems, slabs)
        assert max(solids.overlaps(made).values()) <= NOTHING, slabs
        assert sum(map(solids.volume, made.values())) == pytest.approx(whole, rel=1e-9), slabs
        assert solids.volume(solids.union(made.values())) == pytest.approx(whole, rel=1e-9), slabs
        parts = asm.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(flank=0.05, cheek=0.08))
        report, made = parts.dry_fit(), solids.finished_solids(parts)
        assert report.ok and max(solids.overlaps(made).values()) <= NOTHING, (report.problems, slabs)
        assert report.void_volume == pytest.approx(whole - solids.volume(solids.union(made.values())), rel=1e-6), slabs


@pytest.mark.parametrize(("spec", "count"), [(df.Tails(count=1, slope=8), 2), (df.Tails(count=3, slope=6, half="tails"), 3)])
def test_it_goes_together_across_the_sheet_only(spec, count):
    board = df.splice(length=100 * count, width=60, stock=stock(3 * MM), joint=spec, pieces=count, depth=12)
    made = solids.panel_solids(board.panels)
    one, other = made["piece-1"], made["piece-2"]
    for step in [(1, 0), (-1, 0), (0, 1), (0, -1)]:
        for millimetres in (0.001, 0.1, 1):
            moved = other.translate([step[0] * millimetres * MM, step[1] * millimetres * MM, 0.0])
            assert solids.volume(one ^ moved) > 1e-6, (step, millimetres)
    for millimetres in (0.1, 1, 2.9, 3, 50):
        for sign in (1, -1):
            assert solids.volume(one ^ other.translate([0.0, 0.0, sign * millimetres * MM])) <= NOTHING
    assert [step.direction[1] for step in board.order()[1:]] == ["z"] * (count - 1)
