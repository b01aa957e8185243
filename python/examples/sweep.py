"""Which box of 2 litres takes the least board? The same sweep on one core, on all cores, and on a cluster.

A sweep is a plain function of plain arguments, and so are its results: whatever runs such functions elsewhere runs sweeps. Chunks that are joined again are
the bytes that one call would have made, wherever each was done.

    python sweep.py                 # here
    python sweep.py processes       # in as many processes as there are cores
    python sweep.py dask            # on a Dask cluster of this machine (pip install "dask[distributed]")
    python sweep.py dask ADDRESS    # on one that is running already
"""

import sys
from concurrent.futures import ProcessPoolExecutor
from typing import Any

import dryfit as df
import numpy as np
import numpy.typing as npt

Sizes = npt.NDArray[np.float64]

STOCK = df.Stock(thickness=4, sheet=(600, 400), border=8)
FIT = df.Fit(flank=0.05, cheek=0.1)
VOLUME = 2_000_000.0
"""Cubic mm of the inside."""


def sizes(steps: int) -> Sizes:
    """Insides of one volume, along x and y in so many steps: an array (steps * steps, 3)."""
    x, y = (side.ravel() for side in np.meshgrid(np.linspace(60, 250, steps), np.linspace(60, 250, steps)))
    return np.column_stack([x, y, VOLUME / (x * y)])


def sweep(inside: Sizes) -> df.Boxes:
    """What these boxes come to; cut with a kerf of 0.2 mm that turns out to be 0.23."""
    return df.boxes(stock=STOCK, inside=inside, kerf=0.2, real_kerf=0.23, fit=FIT, progress=False)


def chunks(inside: Sizes, count: int) -> list[Sizes]:
    """The same rows in so many arrays."""
    return np.array_split(inside, count)


def here(inside: Sizes) -> df.Boxes:
    """In one call."""
    return sweep(inside)


def in_processes(inside: Sizes, count: int = 8, workers: int | None = None) -> df.Boxes:
    """In chunks, in several processes."""
    with ProcessPoolExecutor(workers) as pool:
        return df.Boxes.join(pool.map(sweep, chunks(inside, count)))


def on_dask(inside: Sizes, client: Any, count: int = 8) -> df.Boxes:
    """In chunks, on a cluster: ``client`` is a dask.distributed.Client."""
    return df.Boxes.join(client.gather(client.map(sweep, chunks(inside, count))))


def run(where: list[str], inside: Sizes) -> df.Boxes:
    """As the command line says."""
    match where:
        case []:
            return here(inside)
        case ["processes"]:
            return in_processes(inside)
        case ["dask", *address]:
            from dask.distributed import Client

            with Client(*address) as client:  # type: ignore[no-untyped-call]
                return on_dask(inside, client)
        case _:
            sys.exit(__doc__)


def main() -> None:
    inside = sizes(60)
    made = run(sys.argv[1:], inside)
    possible = made.code == 0
    best = int(np.nanargmin(np.where(possible, made.area, np.nan)))
    print(f"{len(inside)} boxes, {np.count_nonzero(~possible)} of them impossible")
    print(f"least board: {' x '.join(f'{side:.1f}' for side in inside[best])} mm inside, {made.area[best] / 100:.0f} square cm")
    print(f"gaps with the cut as it is: {made.gap_min[best]:.3f} to {made.gap_max[best]:.3f} mm")


if __name__ == "__main__":
    main()
