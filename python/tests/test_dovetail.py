"""`dovetail_corner`: a layout for hand tools."""

import xml.etree.ElementTree as ET
from typing import Any, Callable

import dryfit as df
import numpy as np
import pytest


def test_noyes_on_120_mm() -> None:
    """Noyes, Handwork in Wood (1910), No. 48: 120 mm, 5 tails, sockets 8 mm, boards 12 mm, 1:8."""
    corner = df.dovetail_corner(width=120, tail_board=12, pin_board="12 mm", count=5, slope="1:8", socket=8)
    assert corner.widths == {"tail": (16, 19), "socket": (8, 5), "half_socket": (4, 2.5)}
    assert (corner.tail_length, corner.pin_length, corner.kind, corner.lap, corner.slope, corner.count) == (12, 12, "through", 0, (1, 8), 5)
    assert corner.warnings == []
    outline = corner.tail_outline
    assert outline.shape == (22, 2) and outline.dtype == np.float64 and not outline.flags.writeable
    assert outline[:5].tolist() == [[0, 12], [4, 12], [2.5, 0], [21.5, 0], [20, 12]] and outline[-1].tolist() == [120, 12]
    assert (corner.tail_outline_nm == np.round(outline * 1e6)).all()
    assert len(corner.lines) == 4 + 6 * 10
    assert {line.surface.split(",")[0] for line in corner.lines if line.kind == "cut-outer"} == {"tail board"}
    assert corner == df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=(1, 8), socket=8) and hash(corner) == hash(df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=8))


def test_boards_of_stock_and_equal_widths() -> None:
    side, front = df.Stock(thickness=9, sheet=(500, 350)), df.Stock(thickness=19, sheet=(500, 350))
    corner = df.dovetail_corner(width=100, tail_board=side, pin_board=front, count=4, slope=7, kind="lapped")
    assert corner.widths["tail"][0] == corner.widths["socket"][0] == 12.5
    assert (corner.lap, corner.tail_length, corner.pin_length) == (6.35, 12.65, 9)
    assert all(line.surface != "pin board, outer face" for line in corner.lines)
    assert [line.start for line in corner.lines if line.stroke == "lap"] == [(0, 12.65)]


def test_handbooks_warn() -> None:
    corner = df.dovetail_corner(width="10 in", tail_board=12, pin_board=12, count=2, slope="5:24", socket="8 mm")
    assert [text.split(":")[0] for text in corner.warnings] == ["slope", "tail width", "tail width"]
    assert "5:24 given, advised 1:8 to 1:6 (Fairham" in corner.warnings[0]


def test_the_sheet_is_svg() -> None:
    corner = df.dovetail_corner(width=120, tail_board=10, pin_board=12, count=5, slope=8, socket=8)
    root = ET.fromstring(corner.svg(title="<front> & side"))
    name = "{http://www.w3.org/2000/svg}"
    assert root.attrib["height"] == "136mm" and root.find(f"{name}title").text == "<front> & side"  # type: ignore[union-attr]
    assert [group.attrib["id"] for group in root.iter(f"{name}g")] == ["mark", "cut-outer"]
    assert corner._repr_svg_().startswith("<svg")


REFUSALS: list[tuple[Callable[[], Any], type[df.DryfitError], str]] = [
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=3), df.SocketCloses, "socket: 3 mm given, allowed 3.000002 mm to 23.999999 mm"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=24), df.SocketCloses, "socket: 24 mm given"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=99, slope=8), df.SocketCloses, "count: 99 given, allowed 1 to 19"),
    (lambda: df.dovetail_corner(width=20, tail_board=100, pin_board=100, count=1, slope=1), df.SocketCloses, "slope times depth: 100 mm given"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=0, slope=8), df.OutOfRange, "count: 0 given"),
    (lambda: df.dovetail_corner(width=120, tail_board=0, pin_board=12, count=5, slope=8), df.OutOfRange, "tail_board: 0 mm given"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=None, count=5, slope=8), df.WrongType, "pin_board: None given"),  # type: ignore[arg-type]
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope="eight"), df.WrongType, "slope: 'eight' given"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, kind="blind"), df.OutOfRange, "kind: 'blind' given"),  # type: ignore[arg-type]
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, lap=3), df.UnknownKey, "lap"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=6, count=5, slope=8, kind="lapped"), df.OutOfRange, "lap: 6.35 mm given, allowed 0.000001 mm to 5.999999 mm"),
    (lambda: df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, gauge=1), df.OutOfRange, "gauge: 1 mm given, allowed 0 mm to 0.79375 mm"),
    (lambda: df.dovetail_corner(width=float("nan"), tail_board=12, pin_board=12, count=5, slope=8), df.NotFinite, "width"),
]


@pytest.mark.parametrize(("act", "kind", "text"), REFUSALS)
def test_refusals(act: Callable[[], Any], kind: type[df.DryfitError], text: str) -> None:
    with pytest.raises(df.DryfitError) as caught:
        act()
    assert type(caught.value) is kind and text in str(caught.value), caught.value
