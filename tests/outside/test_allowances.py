"""Allowances and kerf, measured on the finished parts by outside libraries: gaps between placed solids (manifold3d), widths (shapely)."""

import dryfit as df
import flat
import pytest
import scenes
import solids
from lengths import nm, text

MM = 1_000_000
EXACT = df.Cutter.blade(kerf=0, trail="0.25 mm")


def box(**asked):
    return df.box(outside=(100, 80, 60), stock=scenes.stock(3 * MM), **asked)


def gaps(parts):
    """Least distance in nanometres of each pair of solids that come near each other."""
    made = solids.finished_solids(parts)
    names = list(made)
    found = {}
    for i, p in enumerate(names):
        for q in names[i + 1 :]:
            near = made[p].min_gap(made[q], 2.0 * MM)
            if near < 2 * MM:
                found[p, q] = near
    return found


# The narrower of the two kinds of contact is the least distance of two mates.
@pytest.mark.parametrize(("flank", "cheek"), [("0.1 mm", "0.3 mm"), ("0.3 mm", "0.1 mm"), ("0.2 mm", "0.2 mm"), ("0.05 mm", "1 mm")])
@pytest.mark.parametrize("top", ["closed", "open"])
def test_least_gap_of_mates_is_flank_or_cheek(flank, cheek, top):
    parts = box(top=top).cut(cutter=EXACT, fit=df.Fit(flank=flank, cheek=cheek))
    asked = min(float(flank.split()[0]), float(cheek.split()[0])) * MM
    found = gaps(parts)
    assert len(found) == (12 if top == "closed" else 8)
    for pair, gap in found.items():
        assert gap == pytest.approx(asked, abs=1.5), pair


def test_each_kind_of_contact_has_its_own_gap():
    """On a corner of two boards: move one along the run until it touches (flank), and along its own plane (cheek)."""
    asm = df.Assembly(stock=scenes.stock(3 * MM))
    asm.add("one", normal="x", at=(0, 0, 0), size=(80, 100))
    asm.add("two", normal="y", at=(0, 0, 0), size=(60, 100))
    made = solids.finished_solids(asm.cut(cutter=EXACT, fit=df.Fit(flank="0.1 mm", cheek="0.25 mm")))
    one, two = made["one"], made["two"]

    def touch(*step):
        """How far `two` moves until it overlaps `one`, in nanometres."""
        free, hit = 0, 1 * MM
        while hit - free > 1:
            middle = (free + hit) // 2
            moved = two.translate([float(s * middle) for s in step])
            free, hit = (free, middle) if solids.volume(one ^ moved) > 0 else (middle, hit)
        return free

    # Half the flank allowance lies on either side, so from the middle there is half of 0.1 + 0.1 in each direction.
    assert touch(0, 0, 1) == pytest.approx(100_000, abs=2)
    assert touch(0, 0, -1) == pytest.approx(100_000, abs=2)
    # The shoulder of `two` faces the inner face of `one`; one way only, the other way nothing is met.
    assert touch(-1, 0, 0) == pytest.approx(250_000, abs=2)
    assert touch(0, 1, 0) == pytest.approx(250_000, abs=2)


def slot_sizes(part, slab_width, slab_height):
    """Widths and heights of what is missing of the slab."""
    missing = flat.rectangle(0, 0, slab_width, slab_height) - flat.region(part.finished_loops)
    pieces = getattr(missing, "geoms", [missing])
    return sorted((nm(x1 - x0), nm(y1 - y0)) for x0, y0, x1, y1 in (p.bounds for p in pieces if p.area > 1e-9))


@pytest.mark.parametrize("cheek", ["0 mm", "0.2 mm", "-0.05 mm", "0.000001 mm"])
@pytest.mark.parametrize("flank", ["0 mm", "0.1 mm"])
def test_slot_is_thickness_plus_cheek(cheek, flank):
    stand = df.Assembly(stock=scenes.stock(2_500_000))
    stand.add("long", normal="y", at=(0, 50, 0), size=(120, 80))
    stand.add("short", normal="x", at=(60, 0, 0), size=(100, 80))
    parts = stand.cut(cutter=EXACT, fit=df.Fit(cheek=cheek, flank=flank))
    wide = 2_500_000 + nm(float(cheek.split()[0]))
    deep = [40 * MM + d for d in (nm(float(flank.split()[0])) // 2, nm(float(flank.split()[0])) - nm(float(flank.split()[0])) // 2)]
    [(w0, h0)], [(w1, h1)] = slot_sizes(parts["long"], 120, 80), slot_sizes(parts["short"], 100, 80)
    assert (w0, w1) == (wide, wide)
    assert (h0, h1) == tuple(deep)


def test_tab_slots_are_thickness_plus_cheek_by_tab_plus_flank():
    rack = df.Assembly(stock=scenes.stock(6 * MM))
    rack.add("left", normal="x", at=(0, 0, 0), size=(100, 200))
    rack.add("right", normal="x", at=(194, 0, 0), size=(100, 200))
    rack.add("shelf", normal="z", at=(0, 0, 90), size=(200, 100))
    for side in ("left", "right"):
        rack.joint("shelf", side, df.Tabs(width=20, spacing=20))
    parts = rack.cut(cutter=EXACT, fit=df.Fit(cheek="0.15 mm", flank="0.1 mm"))
    for side in ("left", "right"):
        # At either end of the slot there is half a flank on the slot's side, the other half on the tab's.
        assert slot_sizes(parts[side], 100, 200) == [(20_100_000, 6_150_000)] * 2, side
    outside_left = flat.region(parts["shelf"].finished_loops) & flat.rectangle(0, 0, 1, 100)
    assert [nm(y1 - y0) for _, y0, _, y1 in (tab.bounds for tab in outside_left.geoms)] == [19_900_000] * 2


@pytest.mark.parametrize("kerf", ["0.2 mm", "0.1 mm", "1 mm"])
def test_taking_the_kerf_off_gives_the_panel_back(kerf, boxes, free_assemblies):
    half = float(kerf.split()[0]) / 2
    count = 0
    for name, *_, assembly in [*boxes[:40], *free_assemblies[:60]]:
        try:
            parts = assembly.cut(cutter=df.Cutter.beam(kerf=kerf), fit=df.Fit())
        except df.DryfitError:
            continue  # pieces that hang together by a point alone
        for panel in assembly.panels.values():
            finished = flat.region(parts[panel.name].loops).buffer(-half, join_style="mitre", mitre_limit=10)
            assert finished.symmetric_difference(flat.region(panel.loops)).area <= 1e-7, (name, panel.name)
            count += 1
    assert count > 300


def test_text_of_a_length_is_exact():
    assert text(-1) == "-0.000001 mm" and text(2_500_000) == "2.500000 mm"
