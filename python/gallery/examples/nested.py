"""Small parts in the openings of large ones: two picture frames and their labels on one sheet."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(420, 300), border=6, gap=2)


def frame(name: str, size: tuple[int, int], opening: tuple[int, int]) -> df.Parts:
    """A board with a rectangular opening in its middle."""
    one = df.Assembly(stock=stock)
    one.add(name, normal="z", at=(0, 0, 0), size=size)
    one.hole(name, at=(size[0] / 2, size[1] / 2), size=opening, ends="square")
    return one.cut(cutter=df.Cutter.blade(kerf=0))


labels = df.Parts.rectangles([(60, 40)] * 6 + [(90, 25)] * 3, thickness=3)
layout = (frame("large", (300, 220), (230, 150)) + frame("small", (200, 140), (140, 90)) + labels).lay_out(stock)
assert len(layout.sheets) == 1 and layout.check().ok
picture = layout.sheets[0].svg(title="Frames in frames")
