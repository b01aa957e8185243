"""The vectors, read in place, against the Python package: every case of every file that it has a door for."""

import dryfit as df
import pytest
import vectors
from lengths import nm

PATTERN = (df.FingersDoNotFit, df.TabsDoNotFit, df.SplitOutsideRun, df.RunTooShort)
ERRORS = {"same place": df.SamePlace, "blind": df.Blind, "meets nothing": df.MeetsNothing, "pattern": PATTERN}


def read(text):
    """A text through a door that takes lengths of either sign: where a board begins."""
    asm = df.Assembly(stock=df.Stock(thickness="0.01 mm", sheet=(100, 100)))
    asm.add("board", normal="x", at=(text, 0, 0), size=("0.001 mm", "0.001 mm"))
    return nm(asm.panels["board"].frame[0, 3])


def read_large(text):
    """A text through a door that takes lengths up to the very limit: a sheet's side."""
    return nm(df.Stock(thickness=1, sheet=(text, 1)).sheet[0])


def test_lengths():
    refused = 0
    for case in vectors.cases("lengths"):
        text = case["text"]
        if "error" in case:
            refused += 1
            for door in (read, read_large):
                with pytest.raises(df.DryfitError) as caught:
                    door(text)
                assert caught.value.code in (101, 102), text
        elif case["nm"] >= 10_000_000:
            assert read_large(text) == case["nm"], text
        else:
            assert read(text) == case["nm"], text
    assert refused


def test_boxes():
    for case in vectors.cases("boxes"):
        panels = vectors.box(case).panels
        assert list(panels) == [board["name"] for board in case["boards"]], case["name"]
        for board in case["boards"]:
            panel = panels[board["name"]]
            assert vectors.loops(panel) == board["loops"], (case["name"], panel.name)
            assert panel.area == pytest.approx(int(board["area"]) / 1e12, rel=1e-15)


def test_assemblies():
    refused = 0
    for case in vectors.cases("assemblies"):
        if "error" in case:
            refused += 1
            with pytest.raises(ERRORS[case["error"]]):
                vectors.assembly(case).panels
            continue
        panels = vectors.assembly(case).panels
        assert list(panels) == [panel["name"] for panel in case["panels"]], case["name"]
        for wanted in case["panels"]:
            panel = panels[wanted["name"]]
            assert vectors.loops(panel) == [ring["clean"] for ring in wanted["loops"]], (case["name"], panel.name)
            assert panel.area == pytest.approx(int(wanted["area"]) / 1e12, rel=1e-15)
    assert refused


def test_splices():
    refused = recipes = 0
    for case in vectors.cases("splices"):
        asm = vectors.assembly(case)
        if "error" in case:
            refused += 1
            with pytest.raises(df.FingersDoNotFit) as caught:
                asm.panels
            assert caught.value.parameter == ("slope times depth" if case["error"] == "flanks meet" else "pin_width"), case["name"]
            continue
        parts = asm.cut(cutter=df.Cutter.beam(kerf=vectors.text(case["kerf"])), fit=df.Fit(flank=vectors.text(case["flank"])))
        assert list(parts) == [panel["name"] for panel in case["panels"]], case["name"]
        made = [asm]
        if "recipe" in case:
            recipes += 1
            made.append(vectors.by_recipe(case["recipe"]))
        for wanted in case["panels"]:
            name = wanted["name"]
            assert all(vectors.loops(asm.panels[name]) == [wanted["loop"]] for asm in made), (case["name"], name)
            assert vectors.loops(parts[name]) == [wanted["path"]], (case["name"], name)
            assert [ring.tolist() for ring in parts[name].finished_loops_nm] == [wanted["finished"]], (case["name"], name)
    assert refused and recipes >= 8


def test_cuts():
    sources = {"boxes": vectors.named("boxes"), "assemblies": vectors.named("assemblies")}
    make = {"boxes": vectors.box, "assemblies": vectors.assembly}
    for case in vectors.cases("cuts"):
        piece = make[case["file"]](sources[case["file"]][case["name"]])
        fit = df.Fit(**{key: vectors.text(case[key]) for key in ("flank", "cheek", "tip")})
        parts = piece.cut(cutter=df.Cutter.beam(kerf=vectors.text(case["kerf"])), fit=fit)
        assert list(parts) == [board["name"] for board in case["boards"]], case["name"]
        for board in case["boards"]:
            assert vectors.loops(parts[board["name"]]) == board["loops"], (case["file"], case["name"], board["name"])


def test_dovetails():
    refused = 0
    for case in vectors.cases("dovetails"):
        asked = {key: vectors.text(case[key]) for key in ("width", "tail_board", "pin_board")}
        asked.update(count=case["count"], slope=tuple(case["slope"]), gauge=vectors.text(case["gauge"]))
        if case["socket"] is not None:
            asked.update(socket=vectors.text(case["socket"]))
        if case["lap"] is not None:
            asked.update(kind="lapped", lap=vectors.text(case["lap"]))
        if "error" in case:
            refused += 1
            with pytest.raises(df.DryfitError):
                df.dovetail_corner(**asked)
            continue
        corner = df.dovetail_corner(**asked)
        assert (nm(corner.tail_length), nm(corner.pin_length)) == (case["tail_length"], case["pin_length"])
        lines = {}
        for line in corner.lines:
            lines.setdefault((line.surface, line.stroke), []).append([x for x, _ in line.points_nm])
        ends = [list(pair) for pair in zip(case["base"], case["end"])]
        sockets = [list(pair) for pair in zip(case["base"], case["outer"])]
        assert lines["tail board, outer face", "flank"] == lines["tail board, inner face", "flank"] == ends
        assert lines["pin board, end grain", "flank"] == sockets
        assert lines["pin board, inner face", "flank"] == [[x, x] for x in case["base"]]
        assert lines.get(("pin board, outer face", "flank"), []) == ([[x, x] for x in case["outer"]] if case["lap"] is None else [])
        assert len(corner.warnings) == len(case["warnings"])
    assert refused
