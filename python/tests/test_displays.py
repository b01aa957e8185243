"""What shows itself in a notebook: whole, harmless, and readable on dark pages and light."""

import re
import subprocess
import sys
from html import unescape
from html.parser import HTMLParser
from typing import Any, Protocol
from xml.etree import ElementTree

import dryfit as df
import pytest

SVG = "{http://www.w3.org/2000/svg}"
NAMES = ["front", "back", "left", "right", "base", "top"]


class Shown(Protocol):
    def _repr_html_(self) -> str: ...


@pytest.fixture
def box(stock: df.Stock) -> df.Assembly:
    return df.box(outside=(110, 85, 60), stock=stock)


@pytest.fixture
def parts(box: df.Assembly) -> df.Parts:
    return box.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(cheek=0.1))


def everything(box: df.Assembly, parts: df.Parts, stock: df.Stock) -> dict[str, Shown]:
    layout = parts.lay_out(stock)
    pace = df.Pace.from_known([(df.Tally(cut=2500, parts=6), 40), (df.Tally(cut=4000, parts=6), 61)])
    return {
        "assembly": box,
        "panel": box.panels["front"],
        "part": parts["front"],
        "parts": parts,
        "layout": layout,
        "sheet": layout.sheets[0],
        "placement": layout.sheets[0].placements[0],
        "report": parts.dry_fit(),
        "layout report": layout.check(),
        "estimate": layout.estimate(pace),
        "boxes": df.boxes(stock=stock, outside=[(110, 85, 60), (110, 85, 4)]),
        "gaps": df.gaps(thickness=2.5, kerf=[0.1, 0.2]),
        "route": layout.sheets[0].route(),
        "plan": layout.sheets[0].plan(df.Motion(passes=2)),
        "offcut": layout.sheets[0].offcuts[0],
        "tally": layout.tally(),
        "corner": df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8),
    }


class Page(HTMLParser):
    """Tags that open and close, the attributes of each, and the text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.feed(text)
        self.close()
        assert not self.open, self.open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open.append(tag)
        self.tags.append((tag, dict(attrs)))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data + " "


def rows(page: str) -> list[list[str]]:
    """The cells of every table."""
    return [[re.sub("<[^>]*>", "", cell) for cell in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row)] for row in re.findall(r"<tr.*?</tr>", page)]


def test_pages_are_whole_and_take_their_colours_from_the_page(box: df.Assembly, parts: df.Parts, stock: df.Stock) -> None:
    for name, value in everything(box, parts, stock).items():
        html = value._repr_html_()
        page = Page(html)
        assert {tag for tag, _ in page.tags} <= {*"div p b table tr th td figure figcaption svg title desc g path text".split()}, name
        for tag, attributes in page.tags:
            assert not [key for key in attributes if key.startswith("on") or key in ("href", "src", "id", "class")], (name, tag)
            style = attributes.get("style") or ""
            # Outside pictures no colour of its own but the rules of tables, a grey that shows on both; the dovetail's lines are on paper.
            colours = re.findall(r"#[0-9a-f]+|rgb|var\(", style)
            assert set(colours) <= ({"#8888"} if name != "corner" else {"#fff"}), (name, style)
            assert tag not in ("th", "td") or "color:" not in style
            assert "background:#" not in style or name == "corner"
        assert "<!--" not in html and "http" not in html.replace("http://www.w3.org/2000/svg", ""), name


def grey(colour: str) -> float:
    """How light a colour is, 0 to 1 (Rec. 709)."""
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_pictures_stand_on_boards_of_their_own(box: df.Assembly, parts: df.Parts, stock: df.Stock) -> None:
    sheet = parts.lay_out(stock).sheets[0]
    pictures = {"panel": box.panels["front"]._repr_svg_(), "part": parts["front"]._repr_svg_(), "sheet": sheet._repr_svg_()}
    pictures |= {"placement": sheet.placements[0]._repr_svg_(), "cut": parts["front"].picture(kerf=0.3, side=12), "assembly": box._repr_svg_() or ""}
    for name, svg in pictures.items():
        root = ElementTree.fromstring(svg)
        first = next(path for path in root.iter(f"{SVG}path"))
        assert name == "assembly" or grey(first.get("fill", "#000000")) > 0.6, name
        for text in root.iter(f"{SVG}text"):
            assert grey(text.get("fill", "#FFFFFF")) < 0.35, name
    # The file to cut by has no board in it.
    assert sheet._repr_svg_() != sheet.svg() and 'fill="#' not in re.sub(r"<text.*?</text>", "", sheet.svg())


def test_the_boards_stand_in_the_order_of_putting_together(box: df.Assembly) -> None:
    table = rows(box._repr_html_())
    order = box.order()
    assert table[0] == ["", "board", "width, mm", "height, mm", "thickness, mm", "moves"]
    assert [row[1] for row in table[1:]] == [step.panel for step in order]
    assert table[1][2:] == ["110", "85", "2.5", "is put down"] and [row[5] for row in table[2:]] == [step.direction for step in order[1:]]
    assert f">{order[0].panel}</text>" in box._repr_html_()


def test_a_lid_takes_its_battens_along(stock: df.Stock) -> None:
    moves = [row[-1] for row in rows(df.box(outside=(110, 85, 60), stock=stock, top="lift-off")._repr_html_())]
    assert "-z, with batten-left, batten-right" in moves


def test_an_assembly_in_the_making_says_what_is_missing(stock: df.Stock) -> None:
    rack = df.Assembly(stock=stock)
    assert rack._repr_svg_() is None
    assert "No panels yet." in Page(rack._repr_html_()).text and "empty" in rack._repr_html_()
    rack.add("left", normal="x", at=(0, 0, 0), size=(100, 100))
    rack.add("far", normal="x", at=(50, 0, 0), size=(100, 100))
    assert rack._repr_svg_() is None and "left" in Page(rack._repr_html_()).text


def test_boards_that_lock_each_other_are_shown_and_told(locked: df.Assembly) -> None:
    with pytest.raises(df.Locked):
        locked.order()
    page = Page(locked._repr_html_())
    assert "cannot be put together" in page.text and (locked._repr_svg_() or "").startswith("<svg")
    assert [row[1] for row in rows(locked._repr_html_())[1:]] == ["tall", "wide"]


def test_parts_are_in_one_scale_with_a_table(parts: df.Parts) -> None:
    html = parts._repr_html_()
    widths = [int(width) for width in re.findall(r"min\(100%,(\d+)px\)", html)]
    # A margin of 1 mm on either side; the largest is 360 pixels.
    sizes = [112, 112, 87, 87, 112, 112]
    assert len(widths) == 6 and all(abs(width - 360 * size / 112) < 1 for width, size in zip(widths, sizes, strict=True))
    table = rows(html)
    assert [row[0] for row in table] == ["part", *NAMES]
    assert table[1][1:4] == ["110", "60", "2.5"] and float(table[1][4]) == round(parts["front"].area / 100, 2)
    assert rows(df.Parts.rectangles([(60, 40)])._repr_html_())[1] == ["1", "60", "40", "any", "24"]


def test_of_many_parts_some_are_shown_and_the_rest_counted() -> None:
    many = df.Parts.rectangles([(60, 40)] * 200)
    html = many._repr_html_()
    assert html.count("<svg") == 60 and "and 140 more" in html
    empty = df.Parts.rectangles([])
    assert len(rows(empty._repr_html_())) == 1


def test_sheets_say_what_is_cut_and_what_is_left(parts: df.Parts, stock: df.Stock) -> None:
    layout = (parts + parts + parts + parts + parts).lay_out(stock)
    text = Page(layout._repr_html_()).text
    assert layout._repr_html_().count("<svg") == len(layout.sheets) == 2
    assert "Sheet 1 of 2: 500 × 350 × 2.5 mm" in text and f"In all {layout.cut_length / 1000:.3f}".rstrip("0") in text
    few = df.Parts.rectangles([(400, 300)] * 2, names=["here", "<there>"]).lay_out(df.Stock(thickness=2, sheet=(500, 350), count=1))
    assert "No sheet was left for &lt;there&gt;" in re.sub("</?b>", "", few._repr_html_())
    shared = df.Parts.rectangles([(100, 50)] * 2).lay_out(stock, share_cuts=True)
    assert "shared" in Page(shared._repr_html_()).text and "#E69F00" in shared.sheets[0]._repr_svg_()


def test_reports_say_the_verdict_and_every_problem(parts: df.Parts, stock: df.Stock) -> None:
    good = Page(parts.dry_fit()._repr_html_()).text
    assert "✓ It fits." in good and "✗" not in good
    assert ["largest gap, mm", "0.1"] in rows(parts.dry_fit()._repr_html_())
    bad = df.box(outside=(110, 85, 60), stock=stock).cut(cutter=df.Cutter.bit(diameter=2)).dry_fit()
    text = bad._repr_html_()
    assert "✗ It does not fit." in text and bad.problems
    assert [unescape(row[1]) for row in rows(text)[1 : 1 + len(bad.problems)]] == bad.problems
    layout = df.Parts.rectangles([(60, 40)]).lay_out(stock)
    assert ["least gap of two parts, mm", "no two parts on one sheet"] in rows(layout.check()._repr_html_())


def test_sweeps_say_between_what_they_lie(stock: df.Stock) -> None:
    sizes = [(110, 85, 60), (90, 85, 60), (110, 85, 4)]
    made = df.boxes(stock=stock, outside=sizes)
    html = made._repr_html_()
    assert "Boxes of shape (3,), 1 refused" in re.sub("</?b>", "", html)
    table = {row[0]: row[1:] for row in rows(html)}
    assert [float(cell) for cell in table["cut length, mm"]] == pytest.approx([made.cut_length[1], made.cut_length[0]], abs=1e-6)
    assert table["parts"] == ["6", "6"] and "code" not in table
    gaps = df.gaps(thickness=2.5, kerf=0.2, real_kerf=[[0.15, 0.25]])
    assert ["flank, mm", "-0.05", "0.05"] in rows(gaps._repr_html_()) and "(1, 2)" in gaps._repr_html_()
    assert ["area, mm²", "", ""] in rows(df.boxes(stock=stock, outside=[(110, 85, 4)])._repr_html_())


def test_a_route_has_its_cuts_in_order(parts: df.Parts, stock: df.Stock) -> None:
    route = parts.lay_out(stock).sheets[0].route()
    html = route._repr_html_()
    table = rows(html)
    assert table[0] == ["", "kind", "part", "length, mm", "from x, mm", "from y, mm"] and len(table) == 1 + len(route.cuts)
    for number, (row, cut) in enumerate(zip(table[1:], route.cuts, strict=True), 1):
        assert row[:3] == [str(number), cut.kind, cut.part] and [float(cell) for cell in row[3:]] == pytest.approx([cut.length, *cut.points[0]], abs=1e-3)
    metres = sum(cut.length for cut in route.cuts) / 1000, route.travel / 1000
    told = re.search(r"6 cuts, ([\d.]+) m in all; ([\d.]+) m on the way", Page(html).text)
    assert told and [float(told[1]), float(told[2])] == pytest.approx(metres, abs=6e-4)
    many = df.Parts.rectangles([(20, 10)] * 90).lay_out(stock).sheets[0].route()
    assert len(rows(many._repr_html_())) == 61 and "and 30 more" in many._repr_html_()


def test_a_plan_says_every_pass_and_what_is_bare(stock: df.Stock) -> None:
    sheet = df.Parts.rectangles([(60, 40), (1.5, 1.5)], names=["card", "<crumb>"]).lay_out(stock).sheets[0]
    plan = sheet.plan(df.Motion(cutter=df.Cutter.bit(diameter=1), step=1))
    table = [[unescape(cell) for cell in row] for row in rows(plan._repr_html_())]
    assert table[0] == ["pass", "depth, mm", "power"]
    assert [float(row[1]) for row in table[1 : 1 + len(plan.passes)]] == pytest.approx([depth for depth, _ in plan.passes], abs=1e-6) and len(plan.passes) == 3
    told = {row[0]: row[1] for row in table[1 + len(plan.passes) :]}
    assert plan.bare == ["<crumb>"] and told["no place for a bridge on"] == "<crumb>" and told["bridges"] == str(plan.bridges) and plan.bridges > 0
    assert float(told["way with the tool down, mm"]) == pytest.approx(plan.length, abs=1e-3)
    strong = df.Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0].plan(df.Motion(cutter=df.Cutter.beam(kerf=0.1), power=800))
    assert strong.bare == []
    assert rows(strong._repr_html_())[1] == ["1", "0", "800"] and "no place" not in strong._repr_html_()


def test_an_offcut_and_a_tally_say_their_numbers(parts: df.Parts, stock: df.Stock) -> None:
    layout = df.Parts.rectangles([(200, 330)]).lay_out(stock, turns=False)
    offcut = layout.sheets[0].offcuts[0]
    assert "Offcut: 291 × 350 × 2.5 mm from 209, 0 mm of its sheet" in Page(offcut._repr_html_()).text
    assert offcut._repr_html_().count("<svg") == 1 and 'width="293mm" height="352mm"' in offcut._repr_html_()
    tally = parts.lay_out(stock).tally()
    assert {row[0]: float(row[1]) for row in rows(tally._repr_html_())} == pytest.approx(
        {
            "cuts, mm": tally.cut,
            "parts": 6,
            "starts": tally.starts,
            "corners": tally.corners,
            "way with the tool up, mm": tally.travel,
            "sheets": 1,
        },
        abs=1e-6,
    )


def test_of_many_sheets_some_are_shown(stock: df.Stock) -> None:
    html = df.Parts.rectangles([(400, 300)] * 25).lay_out(stock)._repr_html_()
    assert html.count("<svg") == 20 and "and 5 more" in html and "on 25 sheets" in html


def test_names_break_no_page(stock: df.Stock) -> None:
    nasty = "</title><script>alert(1)</script>&\""
    rack = df.Assembly(stock=stock)
    rack.add(nasty, normal="x", at=(0, 0, 0), size=(100, 100))
    rack.add("shelf", normal="z", at=(0, 0, 50), size=(100, 100))
    parts = rack.cut(cutter=df.Cutter.blade(kerf=0))
    values: list[Any] = [rack, rack.panels[nasty], parts, parts[nasty], parts.lay_out(stock), parts.lay_out(stock).sheets[0].placements[0]]
    for value in values:
        assert "<script" not in value._repr_html_()
        assert "alert(1)" in Page(value._repr_html_()).text


def test_a_cut_that_is_wider_shows(parts: df.Parts) -> None:
    part = parts["front"]
    for kerf in (0, 0.2, 0.5):
        picture = part.picture(kerf=kerf)
        assert f'stroke-width="{kerf}"' in picture
    outline = re.findall(r' d="(M[^"]*)"', part.picture(kerf=0.2))
    # Board, path, what was meant.
    assert len(outline) == 3 and outline[1].count("V") == outline[2].count("V") > 10
    with pytest.raises(df.OutOfRange, match="kerf: 21 mm given"):
        part.picture(kerf=21)
    with pytest.raises(df.NotALength, match="kerf"):
        part.picture(kerf="wide")
    with pytest.raises(df.OutOfRange, match="side"):
        part.picture(kerf=0.1, side=0)


def test_the_area_of_what_lies_on_a_sheet(parts: df.Parts, stock: df.Stock) -> None:
    plain = df.Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0].placements[0]
    assert plain.area == 2400
    for placement in parts.lay_out(stock).sheets[0].placements:
        # The path goes half a kerf around the part.
        assert 0 < placement.area - parts[placement.part].area < 0.2 * 500


def test_importing_the_package_loads_none_of_it() -> None:
    code = "import sys, dryfit; print([name for name in ('dryfit._html', 'ipywidgets', 'matplotlib', 'IPython') if name in sys.modules])"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
