"""Strips with known optima (tests/data/packing) by rectpack: all its algorithms and orders, with quarter turns.

For each strip the lowest height that any of them reaches, which does, how long that one takes, and how long all take together. An algorithm gets a strip
twice as high as the optimum; where that is filled no higher than by the best before, ever lower strips, as long as all items fit.
"""

import sys
import time
from collections.abc import Iterable
from pathlib import Path

import rectpack
from rectpack import guillotine, maxrects, skyline

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "outside"))
import strips

GUILLOTINE = [name for name in dir(guillotine) if name.startswith("Guillotine") and name[10:13] in ("Bss", "Bls", "Baf") and len(name) > 14]
ALGORITHMS = [
    *(getattr(maxrects, name) for name in ("MaxRectsBl", "MaxRectsBssf", "MaxRectsBaf", "MaxRectsBlsf")),
    *(getattr(skyline, name) for name in ("SkylineBl", "SkylineBlWm", "SkylineMwf", "SkylineMwfl", "SkylineMwfWm", "SkylineMwflWm")),
    *(getattr(guillotine, name) for name in GUILLOTINE),
]
SORTS = ("SORT_AREA", "SORT_PERI", "SORT_DIFF", "SORT_SSIDE", "SORT_LSIDE", "SORT_RATIO")


def height_of(strip: strips.Strip, algorithm: type, sort: str, most: int) -> int | None:
    """How high one algorithm fills the strip, which is `most` high; nothing where an item is left out."""
    packer = rectpack.newPacker(bin_algo=rectpack.PackingBin.BFF, pack_algo=algorithm, sort_algo=getattr(rectpack, sort), rotation=True)
    for size in strip.sizes:
        packer.add_rect(*size)
    packer.add_bin(strip.width, most)
    packer.pack()
    lying = packer.rect_list()
    return max(y + h for _, _, y, _, h, _ in lying) if len(lying) == len(strip.sizes) else None


def ways() -> Iterable[tuple[type, str]]:
    return ((algorithm, sort) for algorithm in ALGORITHMS for sort in SORTS)


def best_of(strip: strips.Strip) -> dict[str, object]:
    best, name, seconds = 3 * strip.optimum, "", 0.0
    began = time.perf_counter()
    for algorithm, sort in ways():
        most = 2 * strip.optimum
        while True:
            start = time.perf_counter()
            height = height_of(strip, algorithm, sort, most)
            took = time.perf_counter() - start
            if height is None or height > best:
                break
            if height < best:
                best, name, seconds = height, f"{algorithm.__name__} {sort}", took
            most = height - 1
            if most < strip.optimum:
                break
    return {"n": len(strip.sizes), "optimum": strip.optimum, "height": best, "by": name, "seconds": seconds, "all": time.perf_counter() - began}


def best_of_all() -> dict[str, dict[str, object]]:
    return {strip.name: best_of(strip) for strip in strips.strips("hopper_turton_c")}
