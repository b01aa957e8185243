"""Parts in the holes and bays of others: outlines, gaps and borders by shapely on every layout."""

import random

import dryfit as df
import flat
import pytest
import shapely

BLADE = df.Cutter.blade()


def plate(stock: df.Stock, name: str, size: tuple[float, float], opening: tuple[float, float], ends: str = "square") -> df.Parts:
    """A board with an opening in its middle."""
    board = df.Assembly(stock=stock)
    board.add(name, normal="z", at=(0, 0, 0), size=size)
    board.hole(name, at=(size[0] / 2, size[1] / 2), size=opening, ends=ends)
    return board.cut(cutter=BLADE)


def regions(sheet: df.Sheet) -> list[shapely.Geometry]:
    return [flat.region(placement.loops) for placement in sheet.placements]


def sound(layout: df.Layout, count: int, gap: float, slack: float = 1e-9) -> None:
    """Every part is there once, inside the border, and as far from every other as the gap says.

    `slack`: how far the chords in `loops` are from their arcs, on the void's side."""
    assert sum(len(sheet.placements) for sheet in layout.sheets) + len(layout.unplaced) == count
    for sheet in layout.sheets:
        (width, height), border = sheet.stock.sheet, sheet.stock.border
        inside = shapely.box(border - 1e-9, border - 1e-9, width - border + 1e-9, height - border + 1e-9)
        placed = regions(sheet)
        assert all(region.is_valid and inside.covers(region) for region in placed)
        for i, a in enumerate(placed):
            for b in placed[:i]:
                assert a.distance(b) >= gap - slack
                assert a.intersection(b).buffer(-slack).area < 1e-9


def boxes_area(layout: df.Layout) -> float:
    return sum(shapely.box(*region.bounds).area for sheet in layout.sheets for region in regions(sheet))


def test_frames_in_frames():
    stock = df.Stock(thickness=3, sheet=(420, 300), border=6, gap=2)
    frames = plate(stock, "frame", (300, 220), (230, 150)) + plate(stock, "small frame", (200, 140), (140, 90))
    cards = df.Parts.rectangles([(60, 40)] * 8 + [(90, 25)] * 4, thickness=3)
    layout = (frames + cards).lay_out(stock)
    sound(layout, 14, 2)
    assert len(layout.sheets) == 1
    # Rectangles around the parts have more area than there is inside the border: side by side they need a second sheet.
    assert boxes_area(layout) > 408 * 288
    # The small frame lies in the large one, and parts lie in it.
    large, small = sorted((region for region in regions(layout.sheets[0]) if region.interiors), key=lambda region: -region.area)
    hole, inner = (shapely.Polygon(region.interiors[0]) for region in (large, small))
    assert hole.contains(small)
    assert sum(inner.contains(region) for region in regions(layout.sheets[0])) >= 3


def test_lower_than_boxes():
    """The rails of a ring beside frames: what lies in the openings does not raise the strip."""
    stock = df.Stock(thickness=3, sheet=(420, 600), border=6, gap=2)
    rails = df.ring(outside=(180, 130), width=20, stock=stock, joint=df.Tails(count=1, slope=6)).cut(cutter=BLADE)
    job = rails + plate(stock, "frame", (400, 260), (340, 200)) + df.Parts.rectangles([(50, 40)] * 12, thickness=3)
    layout = job.lay_out(stock)
    sound(layout, 4 + 1 + 12, 2)
    # All of it lies in the frame; side by side, the frame and two rows of (50, 40) alone are higher.
    assert len(layout.sheets) == 1
    assert layout.used_height == 6 + 260 + 6


def test_round_ends():
    """Parts in an opening whose ends are arcs."""
    stock = df.Stock(thickness=3, sheet=(320, 220), border=5, gap=1.5)
    job = plate(stock, "stadium", (300, 200), (260, 100), "round") + df.Parts.rectangles([(90, 50)] * 3, thickness=3)
    layout = job.lay_out(stock)
    sound(layout, 4, 1.5, slack=0.001)
    assert len(layout.sheets) == 1


@pytest.mark.parametrize("seed", range(12))
def test_whatever_comes_out(seed):
    some = random.Random(seed)
    gap = some.choice([0, 0.5, 2, 3.25])
    stock = df.Stock(thickness=3, sheet=(260, 200), border=5, gap=gap)
    sizes = [(some.randint(60, 240), some.randint(60, 180)) for _ in range(some.randint(1, 3))]
    job = df.Parts.rectangles([(some.randint(10, 60), some.randint(10, 60)) for _ in range(some.randint(2, 12))], thickness=3)
    for index, (w, h) in enumerate(sizes):
        rail = some.uniform(8, 20)
        job += plate(stock, f"frame {index}", (w, h), (w - 2 * rail, h - 2 * rail), some.choice(["square", "round"]))
    layout = job.lay_out(stock, seed=seed)
    sound(layout, len(job), gap, slack=0.001)
    assert layout.check().ok
    again = job.lay_out(stock, seed=seed)
    assert [sheet.svg() for sheet in again.sheets] == [sheet.svg() for sheet in layout.sheets]
