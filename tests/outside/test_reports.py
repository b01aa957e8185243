"""What the dry fit reports of shapes that do not fit, against volumes of the same solids (manifold3d)."""

import dryfit as df
import pytest
import scenes
import solids

MM = 1_000_000
EXACT = df.Cutter.blade(kerf=0, trail="0.25 mm")

FITS = [
    {"flank": 0.1, "cheek": 0.3},
    {"flank": -0.1, "cheek": 0.0},
    {"flank": 0.0, "cheek": -0.2},
    {"flank": -0.15, "cheek": -0.05},
    {"flank": 0.2, "cheek": -0.1},
    {"flank": 0.0, "cheek": 0.0, "tip": -0.4},
]


def cases():
    yield "box", df.box(outside=(100, 80, 60), stock=scenes.stock(3 * MM))
    yield "open box", df.box(outside=(100, 80, 60), stock=scenes.stock(3 * MM), top="open")
    yield "dividers", df.box(outside=(150, 110, 50), stock=scenes.stock(2_500_000), top="open", dividers=(2, 1))
    rack = df.Assembly(stock=scenes.stock(6 * MM))
    rack.add("left", normal="x", at=(0, 0, 0), size=(100, 200))
    rack.add("right", normal="x", at=(194, 0, 0), size=(100, 200))
    rack.add("shelf", normal="z", at=(0, 0, 90), size=(200, 100))
    yield "rack", rack


def slabs(panels):
    """The full slab of each panel of a piece in which every panel reaches all ends of its slab, as solids."""
    found = []
    for panel in panels.values():
        low, high = (f(p for loop in panel.loops_nm for p in loop.tolist()) for f in (corner(min), corner(max)))
        ring = [(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])]
        found.append(solids.solid([ring], panel.thickness, panel.frame))
    return found


def corner(choose):
    def of(points):
        points = list(points)
        return choose(p[0] for p in points), choose(p[1] for p in points)

    return of


@pytest.mark.parametrize("fit", FITS, ids=str)
def test_overlap_and_void_are_the_solids(fit):
    for name, piece in cases():
        parts = piece.cut(cutter=EXACT, fit=df.Fit(**fit))
        report = parts.dry_fit()
        made = solids.finished_solids(parts)
        overlap = sum(solids.overlaps(made).values())
        whole = solids.union(slabs(piece.panels))
        void = solids.volume(whole - solids.union(made.values()))
        assert report.overlap_volume == pytest.approx(overlap, rel=1e-9, abs=1e-9), name
        assert report.void_volume == pytest.approx(void, rel=1e-9, abs=1e-9), name
        asked = [fit["flank"], fit["cheek"]]
        assert report.overlap_max == pytest.approx(max(0, *(-a for a in asked)), abs=2e-6), name
        assert (overlap > solids.NOTHING) == (min(asked) < 0), name
        assert (void > solids.NOTHING) == (max(asked) > 0 or fit.get("tip", 0) < 0), name
        assert (report.gap_min, report.gap_max) == pytest.approx((min(asked), max(asked)), abs=2e-6), name


def test_mixed_parts_do_not_fit():
    """A front with other fingers than its box has: the kernel finds the overlap, and only there."""
    right = df.box(outside=(100, 80, 60), stock=scenes.stock(3 * MM))
    wrong = df.box(outside=(100, 80, 60), stock=scenes.stock(3 * MM), finger_width=20)
    made = solids.panel_solids(right.panels) | {"front": solids.panel_solids(wrong.panels)["front"]}
    shared = solids.overlaps(made)
    assert sum(shared.values()) > 1
    assert all("front" in pair for pair, volume in shared.items() if volume > solids.NOTHING)
