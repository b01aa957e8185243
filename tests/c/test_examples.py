"""The examples run under the sanitizers and under valgrind, and what they draw is what the library cuts."""

import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import dryfit
import pytest
from building import HERE, ROOT, STRICTER, run

EXAMPLES = ROOT / "ffi" / "examples"
PIXEL = 25.4 / 96


def points(data: str) -> list[tuple[float, float]]:
    """The corners of path data of straight lines; it is closed, and ends once."""
    assert re.fullmatch(r"M[^MZ]*Z", data)
    x = y = 0.0
    found = []
    for letter, numbers in re.findall(r"([MLHV])([^MLHVZ]*)", data):
        values = [float(number) for number in numbers.split()]
        assert len(values) == (1 if letter in "HV" else 2)
        x, y = (values[0], y) if letter == "H" else (x, values[0]) if letter == "V" else values
        found.append((x, y))
    return found


def front(outside: tuple[float, float, float], thickness: float, kerf: float) -> list[tuple[float, float]]:
    """The front of the same box by another door of the library, in mm and with y up."""
    stock = dryfit.Stock(thickness=thickness, sheet=(2000, 2000))
    parts = dryfit.box(outside=outside, stock=stock).cut(cutter=dryfit.Cutter.beam(kerf=kerf), fit=dryfit.Fit())
    return [tuple(point) for point in parts["front"].loops[0]]


def same_corners(drawn: list[tuple[float, float]], wanted: list[tuple[float, float]], unit: float = 1.0) -> bool:
    """Both are loops: each begins where it likes. The path has six decimals of its unit, the request nine, both sides whole nanometres."""
    drawn = drawn[:-1] if drawn[0] == drawn[-1] else drawn
    close = all(abs(a - b) < 0.6e-6 * unit + 1.1e-6 for one, other in zip(sorted(drawn), sorted(wanted), strict=True) for a, b in zip(one, other, strict=True))
    return close and len(drawn) == len(set(drawn))


def test_panel(watch) -> None:
    svg = ElementTree.fromstring(watch(EXAMPLES / "panel.c"))
    assert (svg.get("width"), svg.get("height")) == ("120mm", "70mm")
    [path] = [element for element in svg.iter() if element.tag.endswith("}path")]
    wanted = [(x + 5, 70 - 5 - y) for x, y in front((110, 85, 60), 3, 0.2)]
    assert same_corners(points(path.get("d")), wanted)


@pytest.fixture
def plugin(watch, tmp_path: Path) -> Path:
    built = tmp_path / "plugin.so"
    watch.build(EXAMPLES / "plugin" / "plugin.c", to=built, more=["-shared", "-fPIC", "-fvisibility=hidden", "-Wl,--gc-sections,--exclude-libs,ALL"])
    return built


def test_plugin_shows_nothing_of_the_library(plugin: Path) -> None:
    lines = run("nm", "-D", "--defined-only", plugin).splitlines()
    assert [line.split()[-1] for line in lines if "asan" not in line] == ["panel_plugin"]


@pytest.mark.parametrize(("unit", "millimetres"), [("px", PIXEL), ("pt", 25.4 / 72), ("mm", 1.0), ("in", 25.4)])
def test_plugin_draws_in_the_unit_of_the_document(watch, plugin: Path, unit: str, millimetres: float) -> None:
    outside = (110.0, 60.0, 85.0)
    words = [f"{size / millimetres:.9f}" for size in (110.0, 85.0, 60.0, 3.0, 0.2)]
    svg = ElementTree.fromstring(watch(EXAMPLES / "plugin" / "host.c", arguments=(plugin, *words, unit)))
    [path] = list(svg)
    drawn = [(x * millimetres, 85.0 - y * millimetres) for x, y in points(path.get("d"))]
    assert same_corners(drawn, front(outside, 3, 0.2), millimetres)


def test_host_says_what_the_plugin_refuses(watch, plugin: Path) -> None:
    with pytest.raises(AssertionError, match=r"Front of a box: width: not finite|Front of a box: width.*NaN") as refused:
        watch(EXAMPLES / "plugin" / "host.c", arguments=(plugin, "nan", 85, 60, 3, 0.2, "mm"))
    assert "status 1\n" in str(refused.value)


def test_plugin_survives_its_editor(watch, plugin: Path) -> None:
    watch(HERE / "abuse.c", arguments=(plugin,), more=["-lm"])
