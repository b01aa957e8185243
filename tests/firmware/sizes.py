"""What the library costs on each board: measured, kept in sizes.md, compared. `python3 tests/firmware/sizes.py` writes the table anew."""

import functools
import re
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import asked
import build
import every
import links
import dialogue
from boards import BOARDS
from header import functions
from service import Service

TABLE = Path(__file__).parent / "sizes.md"
CHIPS = [board.chip for board in BOARDS]
GCODE = ("dryfit_gcode_begin", "dryfit_gcode_cut", "dryfit_gcode_end")
# What a firmware calls, by what it is for.
GROUPS = {
    "length from text": ("dryfit_length_parse",),
    "pattern": ("dryfit_pattern",),
    "vertices of an edge": ("dryfit_edge_vertices",),
    "fingers to G-code": ("dryfit_fingers_begin", "dryfit_fingers_next", *GCODE),
    "edge to G-code": ("dryfit_edge_moves", *GCODE),
    "box to G-code": ("dryfit_panel_moves", *GCODE),
    "edge for a blade to G-code": ("dryfit_edge_drag", *GCODE),
    "box for a blade to G-code": ("dryfit_panel_drag", *GCODE),
    "edge to HP-GL": ("dryfit_edge_moves", "dryfit_hpgl_begin", "dryfit_hpgl_cut", "dryfit_hpgl_end"),
    "edge to SVG": ("dryfit_edge_moves", "dryfit_svg_begin", "dryfit_svg_line", "dryfit_svg_cut", "dryfit_svg_end"),
    "edge to DXF": ("dryfit_edge_moves", "dryfit_dxf_begin", "dryfit_dxf_line", "dryfit_dxf_cut", "dryfit_dxf_end"),
    "edge to path data": ("dryfit_edge_moves", "dryfit_path_begin", "dryfit_path_cut", "dryfit_path_end"),
    "errors in words": ("dryfit_error_message", "dryfit_status_name", "dryfit_status_text"),
    "everything": tuple(functions()),
}
# The words of the service whose calls are those of a group.
WORDS = {
    "length": "length from text",
    "pattern": "pattern",
    "vertices": "vertices of an edge",
    "fingers": "fingers to G-code",
    "edge": "edge to G-code",
    "panel": "vertices of a panel",
    "box": "box to G-code",
    "drag": "edge for a blade to G-code",
    "dragbox": "box for a blade to G-code",
    "hpgl": "edge to HP-GL",
    "svg": "edge to SVG",
    "dxf": "edge to DXF",
    "path": "edge to path data",
}
SERVICE = "the whole service of these tests, with its own code"
# Two edges that differ by their fingers alone; each further finger has two vertices.
FEW, MANY = 21, 61


@functools.cache
def linked(board):
    """An image for each group: what is asked for, and what it needs."""
    archive, main = build.library(board), build.HERE / "boards" / "nothing.c"
    return {
        name: build.image(board, re.sub(r"\W+", "-", name), [main], archive, [f"-Wl,-u,{function}" for function in group]) for name, group in GROUPS.items()
    }


def flash(board):
    """Bytes of flash by group; the library has no data of its own in RAM."""
    found = {}
    for name, image in linked(board).items():
        found[name], ram = links.library(image)
        assert ram == 0, (board, name, ram)
    found[SERVICE], _ = links.whole(board, Service.on(board).image)
    return found


def stack(answers):
    """Bytes of stack by group, the deepest of all that was asked."""
    found = {}
    for one, answer in answers:
        name = WORDS.get(one.line.split(b" ")[0].decode("latin-1"))
        # What was refused never came to the library.
        if name and answer.end.startswith(("ok", "error")):
            found[name] = max(found.get(name, 0), answer.stack)
    return found


def instructions(board):
    """Instructions a vertex more, without what it takes to send the text."""
    spec = {"kind": "fingers", "first": "A", "least": 3_000_000}
    edges = [asked.edge(spec | {"count": count}, 600_000_000, 3_000_000, 3_000_000, "A", kerf=180_000) for count in (FEW, MANY)]
    words = [word for word in WORDS if word in ("vertices", "fingers", "edge", "drag", "hpgl", "svg", "dxf", "path")]
    answers = iter(Service.on(board).ask([asked.line(word, *(every.KNIFE if word.startswith("drag") else ()), *edge) for word in words for edge in edges]))
    found = {}
    for word in words:
        few, many = next(answers), next(answers)
        assert few.end == many.end == "ok"
        found[WORDS[word]] = round((many.ticks - few.ticks) * 1000 / board.ticks / (2 * (MANY - FEW)))
    return found


def table(board, answers):
    """Everything that is kept of a board."""
    return {"Flash, bytes": flash(board), "Stack, bytes": stack(answers), "Instructions a vertex": instructions(board)}


def written(tables, compiler):
    """The table as it is kept, from one a board."""
    text = [HEAD.format(compiler=compiler)]
    for title, rows in tables[0].items():
        text += [f"## {title}", "", NOTES[title], "", f"| | {' | '.join(CHIPS)} |", "|---|" + "---:|" * len(CHIPS)]
        text += [f"| {name} | {' | '.join(str(table[title][name]) for table in tables)} |" for name in rows]
        text.append("")
    return "\n".join(text)


def kept(board):
    """What was kept of a board."""
    found = {}
    for line in TABLE.read_text(encoding="utf-8").splitlines():
        if line.startswith("## "):
            rows = found.setdefault(line[3:], {})
        elif line.startswith("| ") and not line.startswith("| |"):
            name, *numbers = [cell.strip() for cell in line.strip("|").split(" | ")]
            rows[name] = int(numbers[CHIPS.index(board.chip)])
    return found


HEAD = """# What the library costs on a small chip

Measured on the emulated boards and written by `python3 tests/firmware/sizes.py`. A test fails where a number has grown by more than 2 % and by more than 32 (of instructions: by more than 2 % and 4).
Built by {compiler}, profile `chip`. The library has no static data in RAM: an image's are its own.
"""
NOTES = {
    "Flash, bytes": "What the linker takes from `libdryfit.a` where the functions of a row are called and nothing else, the compiler's own helpers (`memcpy`, divisions of 64 bits) among it.",
    "Stack, bytes": "The deepest that a request of the kind went, from the caller's frame on, the write callback and the UART's driver included; over all vectors and all broken requests.",
    "Instructions a vertex": f"Of an edge with kerf, {MANY} fingers against {FEW}; what sends the text is not counted. The emulator has no model of time: these are instructions, not cycles.",
}


def main():
    requests = dialogue.requests(every.lines())
    services = [Service.on(board) for board in BOARDS]
    with ThreadPoolExecutor() as pool:
        heard = list(pool.map(lambda service: service.raw(requests), services))
    tables = [table(board, zip(every.every(), dialogue.answers(output), strict=True)) for board, output in zip(BOARDS, heard)]
    TABLE.write_text(written(tables, build.compiler()), encoding="utf-8")
    print(TABLE.read_text(encoding="utf-8"))


if __name__ == "__main__":
    main()
