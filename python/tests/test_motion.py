"""Motion, plans and the files for machines, from Python."""

import copy
import pickle
import re
from collections.abc import Callable

import dryfit as df
import pytest

BEAM = df.Cutter.beam(kerf=0.2)
BIT = df.Cutter.bit(diameter=3)


def sheet(cutter: df.Cutter, **box: object) -> df.Sheet:
    stock = df.Stock(thickness=3, sheet=(300, 200), border=5, gap=2 + cutter.kerf)
    return df.box(outside=(90, 80, 70), stock=stock, top="open").cut(cutter=cutter).lay_out(stock).sheets[0]


def plate(cutter: df.Cutter) -> df.Sheet:
    stock = df.Stock(thickness=3, sheet=(300, 200), border=5, gap=10)
    board = df.Assembly(stock=stock)
    board.add("plate", normal="z", at=(0, 0, 0), size=(120, 80))
    board.hole("plate", at=(60, 40), diameter=30)
    return board.cut(cutter=cutter).lay_out(stock).sheets[0]


def code(text: str) -> list[str]:
    return [line for line in text.splitlines() if not line.startswith("(")]


def test_motions_are_values() -> None:
    motion = df.Motion(feed=20, passes=2, light="0.2 mm", cutter=BEAM)
    assert motion == df.Motion(feed=20.0, passes=2, light=0.2, cutter=BEAM) != df.Motion(feed=20)
    assert pickle.loads(pickle.dumps(motion)) == copy.deepcopy(motion) == motion
    assert repr(df.Motion(feed=20, by="sheet")) == "Motion(feed=20, by='sheet')" and eval(repr(motion), vars(df)) == motion
    assert df.Motion(feed=None) == df.Motion() and motion != 5


def test_a_blade_follows_its_line_by_arcs(blade: df.Cutter) -> None:
    lines = code(sheet(blade).gcode())
    assert lines[:3] == ["M5", "G17 G21 G40 G49 G80 G90 G94", "G0 Z2"] and lines[-4:] == ["M5", "G0 Z2", "G0 X0 Y0", "M2"]
    assert any(line.startswith("G2 ") for line in lines) and any(line.startswith("G3 ") for line in lines)
    assert not any(line.startswith(("G2", "G3")) for line in code(sheet(blade).gcode(df.Motion(flat=0.01))))
    assert sheet(blade).plan().bridges == 0 and sheet(blade).plan().deviation == 0


def test_passes_go_deeper(blade: df.Cutter) -> None:
    plan = sheet(blade).plan(df.Motion(step=1, light=0.2))
    assert [depth for depth, _ in plan.passes] == [0.2, 1, 2, 3]
    text = sheet(blade).gcode(df.Motion(passes=2, light=0.2, pause=True))
    depths = [float(found) for found in re.findall(r"G1 Z(-[0-9.]+)", text)]
    assert depths == sorted(depths, reverse=True) and set(depths) == {-0.2, -1.5, -3}
    assert text.count("M0\n") == text.count("(MSG, look at board and tape, then go on)") == 2
    by_line = [float(found) for found in re.findall(r"G1 Z(-[0-9.]+)", sheet(blade).gcode(df.Motion(passes=2)))]
    assert by_line == [-1.5, -3] * 5


def test_a_beam_runs_dry_until_told() -> None:
    assert re.findall(r"M3 S(\S+)", sheet(BEAM).gcode()) == ["0"] * 5
    text = sheet(BEAM).gcode(df.Motion(power=800.5, light_power=100, dynamic=True))
    assert re.findall(r"M4 S(\S+)", text) == ["100", "800.5"] * 5 and " Z" not in text and "M3" not in text


def test_a_bit_sinks_along_its_line() -> None:
    lines = code(plate(BIT).gcode(df.Motion(speed=18000, depth=3.2)))
    assert lines[2:5] == ["G0 Z2", "M3 S18000", "G4 P2"]
    sloped = [line for line in lines if re.match(r"G[123] X.* Z-", line)]
    assert sloped and "G1 Z0 F120" in lines
    depths = [float(found) for line in lines for found in re.findall(r"Z(-[0-9.]+)", line)]
    # Half the diameter a pass takes three through 3.2 mm.
    assert min(depths) == -3.2 and len(plate(BIT).plan(df.Motion(depth=3.2)).passes) == 3
    plunged = code(plate(BIT).gcode(df.Motion(ramp=0, lead=5)))
    assert not any(re.match(r"G[123] X.* Z-", line) for line in plunged) and "G1 Z-1.5 F120" in plunged


def test_bridges() -> None:
    assert [sheet(BEAM).plan(df.Motion(bridges=count)).bridges for count in (0, 1, 3)] == [0, 5, 15]
    assert sheet(BEAM).plan().bridges == 5 and plate(BIT).plan().bridges == 2
    assert sheet(BEAM).plan(df.Motion(bed=20)).bridges == 0 and sheet(BEAM).plan(df.Motion(bed=60)).bridges == 5
    assert sheet(BEAM).plan(df.Motion(bridge_spacing=100)).bridges > 10
    tiny = df.Parts.rectangles([(1, 1)], names=["dot"]).lay_out(df.Stock(thickness=1, sheet=(50, 50))).sheets[0]
    plan = tiny.plan(df.Motion(cutter=BEAM, bridges=1))
    assert (plan.bridges, plan.bare) == (0, ["dot"])


def test_ways_in() -> None:
    def cut(lead: float) -> float:
        return plate(BEAM).plan(df.Motion(lead=lead, bridges=0)).length

    assert cut(2) - cut(0) == pytest.approx(4, abs=1e-5)
    assert plate(BEAM).plan(df.Motion(lead=2)).unled == 0
    full = df.Parts.rectangles([(40, 40)]).lay_out(df.Stock(thickness=1, sheet=(40, 40))).sheets[0]
    assert full.plan(df.Motion(cutter=df.Cutter.beam(kerf=0), bridges=0)).unled == 1


def test_the_tool_is_that_of_the_parts_or_a_given_one(blade: df.Cutter) -> None:
    stock = df.Stock(thickness=3, sheet=(400, 300), border=5, gap=3)
    box = df.box(outside=(90, 80, 70), stock=stock)
    mixed = (box.cut(cutter=blade) + box.cut(cutter=BEAM)).lay_out(stock).sheets[0]
    with pytest.raises(df.MissingKey, match="cutter: missing in the motion"):
        mixed.gcode()
    assert mixed.gcode(df.Motion(cutter=blade)) and mixed.svg() and mixed.dxf()
    assert df.Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0].gcode().count("G1 Z-3 ") == 1


def test_drawings(blade: df.Cutter) -> None:
    pytest.importorskip("ezdxf")
    drawn = plate(blade)
    assert drawn.dxf().count("\nVERTEX\n") == 4 + len(drawn.placements[0].loops_nm[1])
    for version, number in {"R2000": "AC1015", "R2010": "AC1024", "R2018": "AC1032"}.items():
        text = drawn.dxf(version=version)  # type: ignore[arg-type]
        assert number in text and "$INSUNITS" in text and "Never burn PVC" in text
    # Text is written to files of text: a carriage return in it would be doubled on some systems.
    assert not any("\r" in text for text in (drawn.dxf(), drawn.dxf(version="R2010"), drawn.svg(), drawn.gcode(), drawn.hpgl()))
    assert drawn.dxf(df.Motion()) != drawn.dxf() and drawn.svg(df.Motion()) != drawn.svg()


@pytest.mark.parametrize(
    ("make", "kind", "says"),
    [
        (lambda s: df.Motion(feed=0), df.OutOfRange, "feed: 0 given, allowed 0.001 mm/s to 10000 mm/s"),
        (lambda s: df.Motion(plunge=float("inf")), df.NotFinite, "plunge: inf given, allowed 0.001 mm/s"),
        (lambda s: df.Motion(height=float("nan")), df.NotFinite, "height: nan given, allowed 0.1 mm to 200 mm"),
        (lambda s: df.Motion(passes=0), df.OutOfRange, "passes: 0 given, allowed 1 to 1000"),
        (lambda s: df.Motion(passes=1.5), df.WrongType, "passes: 1.5 given, allowed a whole number"),
        (lambda s: df.Motion(power=-1), df.OutOfRange, "power: -1 given, allowed 0 to 1000000"),
        (lambda s: df.Motion(pause=1), df.WrongType, "pause: 1 given, allowed True or False"),
        (lambda s: df.Motion(by="part"), df.OutOfRange, "by: 'part' given, allowed \"line\", \"sheet\""),
        (lambda s: df.Motion(cutter="beam"), df.WrongType, "cutter: 'beam' given, allowed a Cutter"),
        (lambda s: df.Motion(swivel_above=91), df.OutOfRange, "swivel_above: 91 given, allowed 0 deg to 90 deg"),
        (lambda s: df.Motion(bridges=1, bridge_spacing=9), df.WrongType, "bridge_spacing: given beside bridges"),
        (lambda s: s.gcode(df.Motion(depth=2.9)), df.OutOfRange, "depth: 2.9 mm given, allowed 3 mm to 8 mm"),
        (lambda s: s.gcode(df.Motion(depth=8.1)), df.OutOfRange, "depth: 8.1 mm given, allowed 3 mm to 8 mm"),
        (lambda s: s.gcode(df.Motion(light=3)), df.OutOfRange, "light: 3 mm given, allowed 0.000001 mm to 2.999999 mm"),
        (lambda s: s.gcode(df.Motion(turn_depth=4)), df.OutOfRange, "turn_depth: 4 mm given, allowed 0.000001 mm to 3 mm"),
        (lambda s: s.hpgl(df.Motion(pause=True, passes=2)), df.NotInFormat, "pause: this kind of file has no word for it"),
        (lambda s: s.hpgl(df.Motion(light=0.5)), df.NotInFormat, "light: this kind of file has no word for it"),
        (lambda s: s.hpgl(df.Motion(turn_depth=0.5)), df.NotInFormat, "turn_depth: this kind of file has no word for it"),
        (lambda s: plate(BEAM).hpgl(df.Motion(power=9)), df.NotInFormat, "power: this kind of file has no word for it"),
        (lambda s: plate(BIT).hpgl(df.Motion(passes=2)), df.NotInFormat, "passes: this kind of file has no word for it"),
        (lambda s: s.hpgl(df.Motion(power=1)), df.NotOfThisTool, "power: the tool of this job has no such setting"),
        (lambda s: s.plan(df.Motion(passes=2, step=1)), df.StepAndCount, "step: either the number of passes"),
        (lambda s: s.plan(df.Motion(pause=True, by="line")), df.PauseInLine, "pause: the machine can wait between passes over"),
        (lambda s: s.plan(3), df.WrongType, "motion: 3 given, allowed a Motion"),
        (lambda s: s.dxf(version="R13"), df.OutOfRange, "version: 'R13' given, allowed \"R12\""),
        (lambda s: s.gcode(title=5), df.WrongType, "title: 5 given, allowed a string"),
    ],
)
def test_refusals(make: Callable[[df.Sheet], object], kind: type[df.DryfitError], says: str, blade: df.Cutter) -> None:
    with pytest.raises(kind, match=re.escape(says)):
        make(sheet(blade))
