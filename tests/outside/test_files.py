"""Every file of a sheet, read back by others: are the outlines in it those of the parts, and is a millimetre one?"""

import io
import itertools
import math
import re
import shutil
import struct
import subprocess
import xml.etree.ElementTree as ElementTree

import dryfit as df
import ezdxf
import ezdxf.recover
import gcodeparser
import hpgl
import jobs
import numpy as np
import outlines
import pytest
import resvg_py
import rs274
import shapely
import svgelements
from conftest import PATIENCE
from ezdxf.math import bulge_center

# Half a micrometre, whatever the direction.
FINE = 0.0005 / math.sqrt(2)
RELEASES = {"R12": "AC1009", "R2000": "AC1015", "R2010": "AC1024", "R2018": "AC1032"}
KINDS = {"border": 0, "mark": 1, "cut-inner": 2, "cut-shared": 3, "cut-outer": 4, "trim": 5}
SVG = "{http://www.w3.org/2000/svg}"
# The tool's own way is the outline: no bridges and no ways in.
BARE = {"beam": df.Motion(bridges=0, lead=0, power=700), "bit": df.Motion(bridges=0, lead=0, ramp=0, depth=3, step=3)}


@pytest.fixture(scope="module", params=[(piece, cutter) for piece in jobs.PIECES for cutter in BARE], ids="-".join)
def cut(request):
    """Sheets of a piece, and the motion in which the tool's axis goes along the outlines."""
    piece, cutter = request.param
    return jobs.sheets(jobs.PIECES[piece](), jobs.CUTTERS[cutter]), BARE[cutter]


def cuts(text):
    """The motions of a file of G-code along lines."""
    return [motion for motion in rs274.read(text).motions if motion.kind != 0 and motion.start[:2] != motion.end[:2]]


def test_gcode(cut):
    """By the reader of RS-274/NGC; and its numbers by a parser from elsewhere, which knows words alone."""
    for sheet in cut[0]:
        text = sheet.gcode(cut[1], title="plain")
        motions = cuts(text)
        assert outlines.same([outlines.edge(m.start, m.end, m.centre, m.clockwise) for m in motions], outlines.of(sheet.placements), FINE)
        # It takes words in comments for words of the file.
        plain = "\n".join(line for line in text.splitlines() if not line.startswith("("))
        lines = [line for line in gcodeparser.parse_gcode_lines(plain) if line.type is gcodeparser.Commands.MOVE]
        program = rs274.read(text).motions
        at, walked = [0.0, 0.0, 0.0], []
        for line in lines:
            at = [float(line.get_param(letter, default=before)) for letter, before in zip("XYZ", at, strict=True)]
            walked.append((line.command[1], *at, float(line.get_param("I", default=0)), float(line.get_param("J", default=0))))
        centre = lambda m: (m.centre[0] - m.start[0], m.centre[1] - m.start[1]) if m.centre else (0, 0)  # noqa: E731
        assert np.allclose(walked, [(m.kind, *m.end, *centre(m)) for m in program], rtol=0, atol=1e-9)


def dxf_edges(document):
    """The edges of all polylines."""
    for line in document.modelspace().query("POLYLINE"):
        points = [(tuple(vertex.dxf.location.vec2), vertex.dxf.get("bulge", 0)) for vertex in line.vertices]
        for (a, bulge), (b, _) in itertools.pairwise([*points, points[0]] if line.is_closed else points):
            yield outlines.edge(a, b, tuple(bulge_center(a, b, bulge)) if bulge else None, bulge < 0)


@pytest.mark.parametrize("version", RELEASES)
def test_dxf(cut, version):
    """By ezdxf: strict, and by the reader that repairs, whose auditor finds nothing to repair."""
    for sheet in cut[0]:
        for text in (sheet.dxf(version=version), sheet.dxf(cut[1], version=version)):
            document = ezdxf.read(io.StringIO(text, newline=None))
            assert document.dxfversion == RELEASES[version]
            repaired, auditor = ezdxf.recover.read(io.BytesIO(text.encode(document.encoding)))
            for audit in (auditor, document.audit(), repaired.audit()):
                assert not audit.errors and not audit.fixes, (audit.errors, audit.fixes)
            assert outlines.same(list(dxf_edges(document)), outlines.of(sheet.placements), FINE)
            assert {line.dxf.layer for line in document.modelspace().query("POLYLINE")} <= KINDS.keys()
            assert sorted(label.plain_text() for label in document.modelspace().query("TEXT")) == sorted(p.part for p in sheet.placements)
            if version != "R12":
                assert document.header["$INSUNITS"] == 4 and document.header["$MEASUREMENT"] == 1


def svg_edges(text, height):
    """The edges of all lines that are cut, as a reader of path data sees them."""
    for group in ElementTree.fromstring(text).iter(f"{SVG}g"):
        for path in group.iter(f"{SVG}path") if group.get("id") != "border" else ():
            for part in svgelements.Path(path.get("d")):
                if isinstance(part, svgelements.Move) or part.start == part.end:
                    continue
                start, end = ((point.x, height - point.y) for point in (part.start, part.end))
                centre = (part.center.x, height - part.center.y) if isinstance(part, svgelements.Arc) else None
                # Down is up on paper.
                yield outlines.edge(start, end, centre, centre is None or part.sweep > 0)


def test_svg(cut):
    for sheet in cut[0]:
        for text in (sheet.svg(), sheet.svg(cut[1])):
            assert outlines.same(list(svg_edges(text, jobs.STOCK.sheet[1])), outlines.of(sheet.placements), FINE)


def bounds(sheet):
    """The rectangle round all paths, and the sheet's own, in mm."""
    points = np.vstack([loop for placement in sheet.placements for loop in placement.loops])
    return (*points.min(axis=0), *points.max(axis=0)), jobs.STOCK.sheet


def test_a_millimetre_of_svg_is_one(cut):
    """By svgelements, whose own millimetre is 5.4e-7 of one too long, and by resvg at 127 dots an inch."""
    for sheet in cut[0]:
        (x0, y0, x1, y1), (width, height) = bounds(sheet)
        text = sheet.svg(cut[1])
        drawing = svgelements.SVG.parse(io.StringIO(text), ppi=25.4)
        assert (drawing.width, drawing.height) == pytest.approx((width, height), abs=1e-3)
        boxes = [path.bbox() for path in drawing.elements() if isinstance(path, svgelements.Path) and path.values.get("stroke-dasharray") != "4 2"]
        found = [min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)]
        assert found == pytest.approx([x0, height - y1, x1, height - y0], abs=2e-3)
        picture = bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=127, skip_system_fonts=True))
        # The head of a PNG.
        assert struct.unpack(">II", picture[16:24]) == (5 * width, 5 * height)


def test_a_millimetre_of_svg_is_one_in_a_browser(tmp_path, browser):
    """Headless Chromium, where there is one: 96 of its pixels are an inch."""
    [sheet, *_] = jobs.sheets(jobs.plates(), jobs.CUTTERS["beam"])
    (x0, y0, x1, y1), (width, height) = bounds(sheet)
    measure = """<pre id="found"></pre><script>
        const all = [document.querySelector("svg"), ...document.querySelectorAll("svg g:not(#border) path")].map(e => e.getBoundingClientRect());
        const [sheet] = all, of = (f, side) => f(...all.slice(1).map(r => r[side]));
        document.getElementById("found").textContent = JSON.stringify([sheet.width, sheet.height, of(Math.min, "left") - sheet.left,
            of(Math.min, "top") - sheet.top, of(Math.max, "right") - sheet.left, of(Math.max, "bottom") - sheet.top]);
    </script>"""
    page = tmp_path / "page.html"
    page.write_text(f"<!DOCTYPE html><meta charset='utf-8'>{sheet.svg()}{measure}")
    dom = browser(page)
    pixels = [float(number) for number in re.search(r'id="found">\[(.*?)\]', dom)[1].split(",")]
    # The browser works with floats of 24 bits.
    assert [25.4 / 96 * pixel for pixel in pixels] == pytest.approx([width, height, x0, height - y1, x1, height - y0], abs=1e-2)


@pytest.fixture
def browser(tmp_path):
    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if found is None:
        pytest.skip("no Chromium here; resvg and svgelements measure the same files")
    options = ["--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={tmp_path / 'profile'}", "--dump-dom"]
    return lambda page: subprocess.run([found, *options, page.as_uri()], capture_output=True, text=True, timeout=PATIENCE, check=True).stdout


# HP-GL has no word for power.
WORDLESS = {"beam": df.Motion(bridges=0, lead=0), "bit": BARE["bit"]}


def test_hpgl(cut):
    """Every corner within half a unit of 0.025 mm along both axes; arcs' chords half a unit more; a pen for each kind of line."""
    sheets, bare = cut
    motion = next(WORDLESS[tool] for tool, motion in BARE.items() if motion == bare)
    for sheet in sheets:
        strokes = hpgl.read(sheet.hpgl(motion))
        lines = shapely.MultiLineString([stroke.points for stroke in strokes])
        loops = [np.vstack([loop, loop[:1]]) for placement in sheet.placements for loop in placement.loops]
        wanted = shapely.MultiLineString(loops)
        reach = hpgl.UNIT / 2 * (1 + math.sqrt(2)) + 1e-3
        assert shapely.hausdorff_distance(lines, wanted, densify=0.2) <= reach
        corners = np.array([corner / 1e6 for placement in sheet.placements for loop in placement.loops_nm for corner in loop])
        drawn = np.array([point for stroke in strokes for point in stroke.points])
        off = np.abs(corners[:, None] - drawn[None]).max(axis=2).min(axis=1)
        assert off.max() <= hpgl.UNIT / 2 + 1e-9
        inner = sum(len(placement.loops) - 1 for placement in sheet.placements)
        pens = [stroke.pen for stroke in strokes]
        assert (pens.count(KINDS["cut-inner"]), pens.count(KINDS["cut-outer"]), len(pens)) == (inner, len(loops) - inner, len(loops))
        # Nothing but whole numbers, and instructions that are not too long for a machine's memory.
        assert all(len(rest.split(",")) <= 100 for name, rest in hpgl.instructions(sheet.hpgl(motion)) if name == "PD")
