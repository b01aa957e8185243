"""What the written G-code makes a machine do, by the reader of RS-274/NGC: nothing that does harm, and the passes that were asked for."""

import io
import itertools
import re
import xml.etree.ElementTree as ElementTree

import dryfit as df
import ezdxf
import ezdxf.recover
import hpgl
import jobs
import pytest
import resvg_py
import rs274

HEIGHT, FEED, PLUNGE = 4, 15, 3
COMMON = {"feed": FEED, "plunge": PLUNGE, "height": HEIGHT}
SETTINGS = {
    "blade": [{}, {"passes": 3, "light": 0.3, "turn_depth": 0.5}, {"depth": 3.5, "flat": 0.01, "swivel_above": 60, "overcut": 2}],
    "beam": [{"power": 800}, {"power": 700.25, "dynamic": True, "light_power": 50, "passes": 2, "lead": 3}, {"power": 800, "bridges": 0, "flat": 0.01}],
    "bit": [{}, {"ramp": 0, "lead": 2, "depth": 3.2, "speed": 18_000}, {"step": 1, "light": 0.2, "lead": 1, "bridges": 4, "bridge_width": 1}],
}
CASES = [(piece, tool, number) for piece in jobs.PIECES for tool in SETTINGS for number in range(3)]


def checked(text, tool, more):
    """The program of a file, once nothing in it does harm."""
    program = rs274.read(text, (123.0, 45.0, 0.0))
    first, last = program.motions[0], program.motions[-1]
    assert program.ended and text.splitlines()[-1] == "M2"
    assert (last.kind, last.spindle, last.end[:2]) == (0, 0, (0.0, 0.0))
    depth, power = more.get("depth", 3), more.get("power", 0)
    width, height = jobs.STOCK.sheet
    for motion in program.motions[1:]:
        assert 0 <= motion.end[0] <= width and 0 <= motion.end[1] <= height
    for motion in program.motions:
        moves, (z0, z1) = motion.start[:2] != motion.end[:2], (motion.start[2], motion.end[2])
        if tool == "beam":
            assert z0 == z1 == 0, "a beam does not move along z"
            assert (motion.kind == 0) == (motion.spindle == 0), "on along cuts and off between them"
            if motion.kind:
                assert motion.spindle == (-1 if more.get("dynamic") else 1) and motion.speed in (power, more.get("light_power"))
                assert motion.feed == 60 * FEED
            continue
        assert -depth <= z1 <= HEIGHT
        if motion.kind == 0:
            assert z1 >= z0 and not (moves and z0 != HEIGHT), "up only, or along while it is up"
            continue
        assert not moves or max(z0, z1) <= 0, "along with the tool down"
        assert motion.feed == 60 * (PLUNGE if z0 != z1 else FEED)
        assert motion.spindle == (1 if tool == "bit" else 0)
        if tool == "bit":
            assert motion.speed == more.get("speed", 10_000)
    if tool != "beam":
        assert first.kind == 0 and first.start[:2] == first.end[:2] and first.end[2] == HEIGHT, "up before all else"
    return program


@pytest.mark.parametrize(("piece", "tool", "number"), CASES, ids=["-".join(map(str, case)) for case in CASES])
def test_nothing_that_does_harm(piece, tool, number):
    more = SETTINGS[tool][number]
    for sheet in jobs.sheets(jobs.PIECES[piece](), jobs.CUTTERS[tool]):
        motion = df.Motion(**COMMON, **more)
        program = checked(sheet.gcode(motion), tool, more)
        # What the plan says; the file's fourth decimal may count at either end.
        length = sum(abs(m.sweep()) * distance(m.start, m.centre) if m.centre else distance(m.start, m.end) for m in program.motions if m.kind)
        assert length == pytest.approx(sheet.plan(motion).length, abs=2e-4 * len(program.motions))


def distance(a, b):
    return ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5


def strokes(program):
    """What each stroke does: how deep it goes, or how strong it is."""
    groups = itertools.groupby(program.motions, key=lambda motion: motion.kind != 0)
    return [(min(m.end[2] for m in group), group[-1].speed) for down, motions in groups if down and (group := list(motions))]


ASKED = [
    ("blade", {"passes": 2, "light": 0.25}, [(-0.25, 0), (-1.5, 0), (-3, 0)]),
    ("blade", {"step": 0.8, "depth": 3.1}, [(-0.775, 0), (-1.55, 0), (-2.325, 0), (-3.1, 0)]),
    ("beam", {"passes": 2, "power": 900, "light_power": 90}, [(0, 90), (0, 900), (0, 900)]),
    ("bit", {"step": 1.6, "speed": 12_000}, [(-1.5, 12_000), (-3, 12_000)]),
]


@pytest.mark.parametrize(("tool", "more", "passes"), ASKED)
def test_passes(tool, more, passes):
    """Line by line and sheet by sheet, with and without a pause: as many, as deep, as strong and in the order that was asked."""
    [sheet] = jobs.sheets(jobs.plates(), jobs.CUTTERS[tool])
    lines = len(strokes(checked(sheet.gcode(df.Motion(**COMMON, **more)), tool, more))) // len(passes)
    assert lines >= 6
    for order, pause in (("line", False), ("sheet", False), (None, True)):
        text = sheet.gcode(df.Motion(**COMMON, **more, by=order, pause=pause))
        program = checked(text, tool, more)
        assert strokes(program) == (passes * lines if order == "line" else [one for one in passes for _ in range(lines)])
        assert len(program.stops) == len(program.messages) == (len(passes) - 1 if pause else 0)
        for stop in program.stops:
            assert tool == "beam" or program.motions[stop - 1].end[2] == HEIGHT, "up while someone looks"
        # What was switched last before each stop.
        for before in text.split("M0\n")[:-1]:
            assert re.findall(r"^M[345]", before, re.MULTILINE)[-1] == "M5"


@pytest.mark.parametrize("tool", SETTINGS)
def test_cautions_stand_in_front(tool):
    [sheet] = jobs.sheets(jobs.plates(), jobs.CUTTERS[tool])
    motion = df.Motion(**COMMON)
    head = sheet.gcode(motion).split("M5")[0], sheet.hpgl(df.Motion(passes=1)).split("SP2")[0], sheet.dxf(motion).split("SECTION")[0], sheet.dxf(version="R2010").split("SECTION")[0]
    for text in head:
        words = " ".join(re.findall(r"\w+", text.lower()))
        for word in ("eye protection", "fumes", "pvc", "unattended", "fire", "maker", "local rules", "held down"):
            assert word in words


@pytest.fixture(scope="module")
def named():
    """A sheet of plates with names that could break a file, and the same with plain ones."""
    sizes = [(30 + 2 * k, 20 + k) for k in range(len(jobs.NAMES))]
    plain = [f"plate {k}" for k in range(len(sizes))]
    return [df.Parts.rectangles(sizes, names=names).lay_out(jobs.STOCK).sheets[0] for names in (jobs.NAMES, plain)]


# What is too long to be read on its plate is not written at all.
SHORT = [name for name in jobs.NAMES if len(name) < 100]


def shown(name, *, dxf=False):
    """A name as a file of one line can show it."""
    name = re.sub(r"[\x00-\x1f]", " ", name)
    return re.sub(r"[^\u0000-\uffff]", "?", name.replace("\\", "/"))[:200] if dxf else name


def test_no_name_breaks_a_file(named):
    hostile, plain = named
    assert len(hostile.placements) == len(jobs.NAMES)
    text = hostile.svg()
    root = ElementTree.fromstring(text)
    labels = ["".join(label.itertext()) for label in root.iter("{http://www.w3.org/2000/svg}text")]
    assert sorted(labels) == sorted(map(shown, SHORT))
    assert resvg_py.svg_to_bytes(svg_string=text, dpi=96, skip_system_fonts=True)
    for version in ("R12", "R2000", "R2018"):
        document, audit = ezdxf.recover.read(io.BytesIO(hostile.dxf(version=version).encode("utf-8")))
        assert not audit.errors and not audit.fixes
        assert sorted(text.plain_text() for text in document.modelspace().query("TEXT")) == sorted(shown(name, dxf=True) for name in SHORT)
        assert len(document.modelspace().query("POLYLINE")) == len(jobs.NAMES)
    assert hostile.gcode() == plain.gcode() and hostile.hpgl() == plain.hpgl()
    assert len(hpgl.read(hostile.hpgl())) == len(jobs.NAMES)


@pytest.mark.parametrize("title", jobs.NAMES)
def test_no_title_breaks_a_file(named, title):
    sheet = named[1]
    wanted, found = (rs274.read(sheet.gcode(title=text)) for text in ("plain", title))
    assert found.motions == wanted.motions and not found.messages and len(found.comments) == len(wanted.comments)
    assert ElementTree.fromstring(sheet.svg(title=title))[0].text == shown(title)
    for version in ("R12", "R2010"):
        text = sheet.dxf(title=title, version=version)
        document, audit = ezdxf.recover.read(io.BytesIO(text.encode("utf-8")))
        assert not audit.errors and not audit.fixes and len(document.modelspace().query("POLYLINE")) == len(jobs.NAMES)
        assert ezdxf.read(io.StringIO(text, newline=None)).dxfversion
