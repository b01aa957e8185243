"""What the package costs: the time to import it, and memory."""

import pickle
import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import dryfit as df
import pytest

STOCK = df.Stock(thickness=2.5, sheet=(500, 350))
BEAM = df.Cutter.beam(kerf=0.2)
BOX = df.box(outside=(110, 85, 60), stock=STOCK)
PARTS = BOX.cut(cutter=BEAM)
LAYOUT = PARTS.lay_out(STOCK)


def test_import_takes_less_than_100_ms_and_brings_nothing_large() -> None:
    # The processor's time, the least of ten: other programs' time is not the package's.
    code = "import sys, time; began = time.process_time(); import dryfit; print(time.process_time() - began, *sorted({name.split('.')[0] for name in sys.modules}))"
    said = [subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split() for _ in range(10)]
    took = [1e3 * float(seconds) for seconds, *_ in said]
    assert min(took) < 100, f"{took} ms"
    extras = {"numpy", "ezdxf", "shapely", "matplotlib", "pandas", "trimesh", "tqdm", "ipywidgets", "IPython", "scipy", "asyncio", "multiprocessing"}
    assert not extras & set(said[0])


def resident() -> int:
    """Bytes of memory that this process holds."""
    return int(Path("/proc/self/statm").read_text().split()[1]) * resource.getpagesize()


def refused() -> None:
    for bad in (11, "x", None, float("nan")):
        try:
            df.Fit(flank=bad)  # type: ignore[arg-type]
        except df.DryfitError as error:
            assert error.parameter == "flank"


def changed() -> None:
    BOX.joint("front", "left", df.Fingers(count=3))
    assert len(BOX.panels) == 6


CALLS: dict[str, tuple[int, Callable[[], Any]]] = {
    "box": (10_000, lambda: df.box(outside=(110, 85, 60), stock=STOCK)),
    "panels": (2_000, lambda: df.box(outside=(110, 85, 60), stock=STOCK).panels["front"].loops),
    "a change": (2_000, changed),
    "cut": (2_000, lambda: BOX.cut(cutter=BEAM)),
    "views": (10_000, lambda: (PARTS["front"].loops_nm, PARTS["front"].frame)),
    "lay_out": (200, lambda: PARTS.lay_out(STOCK)),
    "files": (500, lambda: (LAYOUT.sheets[0].svg(), LAYOUT.sheets[0].gcode())),
    "reports": (1_000, lambda: (PARTS.dry_fit(), LAYOUT.check(), BOX.order())),
    "pickles": (500, lambda: pickle.loads(pickle.dumps(LAYOUT))),
    "values": (5_000, lambda: (repr(STOCK), hash(BEAM), df.Motion(feed=20), df.Tails(count=2, slope="1:8"), STOCK == BEAM)),
    "errors": (10_000, refused),
}


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="memory is told by /proc")
@pytest.mark.parametrize("name", CALLS)
def test_calls_leave_nothing_behind(name: str) -> None:
    count, call = CALLS[name]
    grown = 0
    # Caches and the allocator settle at first, and the system counts in heaps; a leak goes on.
    for _ in range(10):
        before = resident()
        for _ in range(count):
            call()
        grown = resident() - before
        if grown < count * 16:
            return
    pytest.fail(f"{grown / count:.0f} bytes stay behind at each call")


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="memory is told by /proc")
def test_objects_are_no_larger_than_what_they_hold() -> None:
    boxes = [df.box(outside=(110, 85, 60), stock=STOCK) for _ in range(200)]
    before = resident()
    panels = [box.panels for box in boxes]
    vertices = sum(len(loop) for panel in panels[0].values() for loop in panel.loops_nm)
    # A vertex of a nominal outline is kept with its roles, and once more in the shape that is shown.
    assert (resident() - before) / len(boxes) < vertices * 400
