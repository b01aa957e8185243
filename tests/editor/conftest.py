"""The extension, installed once as users install it, and what it draws in mm."""

import io
import sys
from pathlib import Path
from subprocess import run

import dryfit as df
import numpy as np
import pytest
from svgelements import SVG, Group
from svgelements import Path as Line

ROOT = Path(__file__).parents[2]
EXTENSION = ROOT / "python" / "examples" / "editor_extension"
# Seconds. However slow or busy the machine, only what hangs takes so long.
PATIENCE = 1200


@pytest.fixture(scope="session")
def extension(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with the extension in it. Its name has a space: so have users' folders."""
    folder = tmp_path_factory.mktemp("the profile") / "extensions"
    done = run([EXTENSION / "install", folder], capture_output=True, text=True, timeout=PATIENCE, check=False)
    assert done.returncode == 0, done.stderr
    sys.path.insert(0, str(folder))
    return folder


def drawn(text: str) -> list[np.ndarray]:
    """The corners of the parts that a drawing has, in mm, y up, from their lowest corner; measured by a reader that knows nothing of the editor."""
    drawing = SVG.parse(io.StringIO(text), ppi=96)
    lines = [line for group in drawing.select(lambda element: isinstance(element, Group)) for line in group if isinstance(line, Line)]
    return [corners(np.array([(point.x, -point.y) for point in line.as_points()]) * 25.4 / 96) for line in lines]


def corners(points: np.ndarray) -> np.ndarray:
    """Each corner once, from the lowest corner of all."""
    apart = np.abs(points - np.roll(points, 1, axis=0)).max(axis=1) > 1e-6
    return points[apart] - points.min(axis=0)


def wanted(outside: tuple[float, float, float], thickness: float, kerf: float, **more: object) -> list[np.ndarray]:
    """What the package itself makes of it."""
    stock = df.Stock(thickness=thickness, sheet=(900, 900))
    parts = df.box(outside=outside, stock=stock, **more).cut(cutter=df.Cutter.beam(kerf=kerf) if kerf else df.Cutter.blade(kerf=0))
    return [part.loops[0] - part.loops[0].min(axis=0) for part in parts.values()]


def same(found: list[np.ndarray], expected: list[np.ndarray]) -> None:
    """The same corners in the same order, wherever the lines begin. 0.1 um: the reader's millimetre is off by half a millionth."""
    assert len(found) == len(expected)
    for one, other in zip(found, expected, strict=True):
        assert one.shape == other.shape
        start = np.abs(one - other[0]).max(axis=1).argmin()
        assert np.abs(np.roll(one, -start, axis=0) - other).max() < 1e-4
