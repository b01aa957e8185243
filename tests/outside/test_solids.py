"""Nominal panels as solids, against a 3-D boolean kernel (manifold3d): nothing overlaps, nothing is missing."""

import scenes
import solids
from solids import NOTHING


def divided(box):
    return any(name.startswith("divider") for name in box.panels)


def hold(name, panels, whole):
    """Panels share no volume and fill the whole."""
    made = solids.panel_solids(panels)
    assert len(made) == len(panels) > 1
    shared = solids.overlaps(made)
    assert max(shared.values()) <= NOTHING, (name, shared)
    total = sum(map(solids.volume, made.values()))
    assert abs(total - whole) <= 1e-9 * whole, name
    assert abs(solids.volume(solids.union(made.values())) - whole) <= 1e-9 * whole, name


def test_boxes_without_dividers_are_shells(boxes):
    plain = [case for case in boxes if not divided(case[3])]
    assert len(plain) >= 150
    for name, size, t, box in plain:
        inside = [s - 2 * t for s in size]
        if "top" not in box.panels:
            inside[2] += t
        outer, inner = (s[0] * s[1] * s[2] / 1e18 for s in (size, inside))
        hold(name, box.panels, outer - inner)


def slabs_of(panels):
    """The full slab of each panel, from its frame and the bounds of its outline: a panel reaches all its slab's ends."""
    found = []
    for panel in panels.values():
        points = [p for loop in panel.loops for p in loop]
        corners = [panel.frame @ [u, v, w, 1.0] for u, v in points for w in (0.0, panel.thickness)]
        lo = [round(min(c[k] for c in corners) * 1e6) for k in range(3)]
        hi = [round(max(c[k] for c in corners) * 1e6) for k in range(3)]
        found.append((0, lo, hi))
    return found


def test_boxes_with_dividers_fill_their_slabs(boxes):
    some = [case for case in boxes if divided(case[3])]
    assert len(some) >= 60
    for name, _, _, box in some:
        slabs = slabs_of(box.panels)
        whole = solids.volume(solids.union(solids.cuboid(lo, hi) for _, lo, hi in slabs))
        hold(name, box.panels, whole)


def test_free_assemblies_fill_their_slabs(free_assemblies):
    assert len(free_assemblies) >= 100
    assert any(scenes.overlap(*three) for _, some, _ in free_assemblies for three in zip(some, some[1:], some[2:])), "no cubes"
    for name, some, asm in free_assemblies:
        whole = solids.volume(solids.union(solids.cuboid(lo, hi) for _, lo, hi in some))
        hold(name, asm.panels, whole)


def test_an_overlap_would_be_seen(boxes):
    """The same check on a box with one panel moved by a micrometre fails."""
    _, _, _, box = boxes[0]
    made = solids.panel_solids(box.panels)
    made["front"] = made["front"].translate([1000.0, 0.0, 0.0])
    assert max(solids.overlaps(made).values()) > 1000 * NOTHING
