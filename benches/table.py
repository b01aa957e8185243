"""One Markdown table from criterion's estimates and the peers' times.

Usage: table.py CRITERION_FOLDER PEERS_JSON C_JSON [RECORD_FOLDER]

Core times are criterion's medians; the peers' and the Python package's are the best of all rounds, which favours the peers.
"""

import datetime
import json
import os
import platform
import subprocess
import sys
from pathlib import Path

STEPS = [
    ("box/flat", "closed box without heap, sizes to vertices"),
    ("box/assembly", "slabs"),
    ("box/panels", "panels of the slabs"),
    ("box/made", "closed box by the assembly: slabs and panels"),
    ("box/dry-fit", "its dry fit, nominal"),
    ("box/cut", "its cut parts, with allowances and kerf"),
    ("box/dry-fit-parts", "the parts' dry fit"),
    ("box/order", "its order of assembly"),
    ("job", "whole job of a drawer with 3 dividers: panels, cut, two dry fits, order, layout, sheet files"),
]
GROWTH = [("flat", "box without heap"), ("made", "panels of the slabs"), ("cut", "cut"), ("dry-fit", "dry fit"), ("order", "order")]
FINGERS = (10, 100, 1000, 10_000)
BOARDS = (25, 101, 401)
TAILS = (10, 100, 1000)
LINES = (100, 1000, 10_000)
TILES = (100, 1024, 10_000)
KNOWN = (2, 10, 100)
PRISM = [
    ("made", "closed box by the assembly: slabs and panels"),
    ("dry-fit", "its dry fit, nominal"),
    ("cut", "its cut parts, with allowances and kerf"),
    ("dry-fit-parts", "the parts' dry fit"),
    ("order", "its order of assembly"),
]
PRISM_VERTICES = 1512
SPLICE = [("profile", "one profile"), ("made", "panels of the slabs"), ("cut", "cut, with a kerf"), ("dry-fit", "dry fit"), ("order", "order")]

FILES = [
    ("gcode", "G-code"),
    ("std-fmt-gcode", "G-code's numbers by std::fmt"),
    ("svg", "SVG"),
    ("std-fmt-svg", "SVG's numbers by std::fmt"),
    ("hpgl", "HP-GL"),
    ("dxf", "DXF"),
]
SCENES = {"zigzag": "long numbers", "comb": "short numbers", "rounds": "quarters of circles"}
PARTS = (10, 100, 1000, 10_000)
SHARED = [("six", "six panels of a cube"), ("24, four equal boxes", "24 panels of four equal boxes"), ("24, four unequal boxes", "24 panels of four unequal boxes")]


def show(seconds: float) -> str:
    """Three digits and a unit."""
    for unit, factor in (("s", 1), ("ms", 1e3), ("us", 1e6)):
        if seconds * factor >= 1:
            return f"{seconds * factor:.3g} {unit}"
    return f"{seconds * 1e9:.3g} ns"


def table(head: list[str], rows: list[list[str]]) -> list[str]:
    lines = ["| " + " | ".join(head) + " |", "|" + " --- |" + " ---: |" * (len(head) - 1)]
    return [*lines, *("| " + " | ".join(row) + " |" for row in rows), ""]


def packing(core: dict[str, float], measured: dict[str, dict], rectpack: dict[str, dict]) -> list[str]:
    """Strips with known optima beside both peers, six panels, growth."""
    lines = ["Strips with known optima (Hopper and Turton), quarter turns allowed. A peer's height is the best of all its rules and orders:", ""]
    rows, over, ours = [], [0.0, 0.0, 0.0], measured["strips"]
    for name, strip in ours.items():
        peer = rectpack[name]
        heights = [strip["height"], peer["height"], strip["crate height"]]
        over = [sum_ + (height / peer["optimum"] - 1) * 100 / len(ours) for sum_, height in zip(over, heights)]
        equal = next((seconds for height, seconds in strip["stopped"] if height <= peer["height"]), strip["seconds"])
        rows.append([
            f"{name}, {peer['n']} parts, optimum {peer['optimum']}",
            f"{heights[0]} in {show(strip['seconds'])}",
            f"{heights[1]} in {show(peer['all'])} ({show(peer['seconds'])})",
            f"{heights[2]} in {show(strip['crate all'])} ({show(strip['crate seconds'])})",
            show(equal),
            f"{peer['all'] / equal:,.0f}x ({peer['seconds'] / equal:.1f}x)",
        ])
    rows.append(["mean over the optimum", *(f"{mean:.2f} %" for mean in over), "", ""])
    head = ["strip", "dryfit", "rectpack, all rules (the best alone)", "binpack2d, all rules (the best alone)", "dryfit, as low as rectpack", "ratio, all rules (the best alone)"]
    lines += table(head, rows)
    lines += ["Layouts of real outlines:", "", f"- six panels of a closed box on a sheet: {show(core['packing/six'])}"]
    lines += [f"- 24 small parts and a frame that holds some of them: {show(core['packing/frame'])}"]
    lines += [f"- with shared cuts, {text}: {show(core[f'seams/{key}'])}" for key, text in SHARED]
    lines += ["", "Parts of any size to the tenth of a millimetre on sheets:", ""]
    runs = [measured["parts"][str(n)] for n in PARTS]
    rows = [
        ["layout", *(show(seconds) for _, _, seconds in runs)],
        ["a part", *(show(seconds / n) for n, (_, _, seconds) in zip(PARTS, runs))],
        ["sheets (the area alone)", *(f"{sheets} ({area:.1f})" for sheets, area, _ in runs)],
    ]
    return lines + table(["", *(f"{n:,} parts" for n in PARTS)], rows)


def c_calls(core: dict[str, float], measured: dict) -> list[str]:
    """Calls of the C library as it is installed: beside Rust in one process, then from C beside GEOS."""
    lines = ["One edge through C, from sizes to vertices in the caller's buffer, beside the same in Rust:", ""]
    counts = (1, *FINGERS)
    rust, called = ([core[f"c-calls/{side}/{n}"] for n in counts] for side in ("rust", "c"))
    rows = [["Rust", *map(show, rust)], ["C", *map(show, called)], ["C above Rust", *(f"{(c - r) * 1e9:+.0f} ns ({c / r:.2f}x)" for r, c in zip(rust, called))]]
    lines += table(["", *(f"{n:,} fingers" for n in counts)], rows)
    lines += [f"The library as it is installed, called from C, beside GEOS {measured['geos'].split('-')[0]} through C, which cuts the notches out of the board. A call that does nothing: {show(measured['call'])}.", ""]
    edges = measured["edges"].values()
    rows = [
        ["into a buffer", *(show(edge["buffer"]) for edge in edges)],
        ["move by move", *(show(edge["callback"]) for edge in edges)],
        ["GEOS", *(show(edge["geos"]) for edge in edges)],
        ["GEOS / into a buffer", *(f"{edge['geos'] / edge['buffer']:,.0f}x" for edge in edges)],
    ]
    return lines + table(["", *(f"{n:,} fingers" for n in FINGERS)], rows)


def sizes(criterion: Path, key: str) -> list[int]:
    """The bytes of a kind of file, scene by scene."""
    files = [criterion / "files" / key / scene / "new" / "benchmark.json" for scene in SCENES]
    return [json.loads(file.read_text())["throughput"]["Bytes"] if file.exists() else 0 for file in files]


def machine() -> str:
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    rust = subprocess.run(["rustc", "--version"], capture_output=True, text=True, check=True).stdout.split()[1]
    release = ".".join(rust.split(".")[:2])
    processor = platform.machine().replace("_", "-")
    return f"{os.cpu_count()} cores, {processor}, {memory:.0f} GiB, {platform.system()}, Rust {release}, Python {platform.python_version()}"


def main() -> None:
    criterion, peers_file = Path(sys.argv[1]), Path(sys.argv[2])
    peers = json.loads(peers_file.read_text())
    core = {
        file.parent.parent.relative_to(criterion).as_posix(): json.loads(file.read_text())["median"]["point_estimate"] * 1e-9
        for file in criterion.glob("**/new/estimates.json")
    }
    vertices = peers["vertices"]
    shapely = min(peers["shapely"].values())
    manifold = min(peers["manifold3d"].values())
    overlay = min(core["i_overlay/difference"], core["i_overlay/union"])
    today = datetime.date.today().isoformat()
    lines = [f"# What it costs, {today}", "", f"{machine()}. One thread. `./benches/run` prints this.", ""]
    lines += ["Core: criterion's median. Peers and the Python package: the best of all rounds.", ""]

    lines += [f"A closed box of {vertices} vertices in six panels:", ""]
    lines += table(["step", "time", "a vertex"], [[text, show(core[key]), show(core[key] / vertices)] for key, text in STEPS])

    ratios = []

    def beside(what: str, ours: float, peer: str, theirs: float) -> None:
        ratios.append([what, show(ours), peer, show(theirs), f"{theirs / ours:,.0f}x"])

    ways = {f"shapely {name.replace('_', ' ')}": time for name, time in peers["shapely"].items()}
    for key, what in (("box/flat", "make, without heap"), ("box/made", "make, by the assembly")):
        for name, time in ways.items():
            beside(what, core[key], name, time)
        beside(what, core[key], "i_overlay", overlay)
    beside("prove", core["box/dry-fit"], "manifold3d", manifold)
    package = peers["dryfit"]
    if package:
        beside("make, Python package", package["panels"], "shapely, fastest", shapely)
        beside("make and read out, Python package", package["panels and loops"], "shapely, fastest", shapely)
        beside("prove, Python package", package["proof"], "manifold3d", manifold)
    lines += ["Beside its peers, in the same run:", ""]
    lines += table(["task", "dryfit", "peer", "peer's time", "ratio"], ratios)

    lines += ["Growth with the number of fingers along each of a box's twelve runs, and a vertex of one profile:", ""]
    rows = [["profile, a vertex", *(show(core[f"profile/{n}"] / (2 * n)) for n in FINGERS), ""]]
    for key, text in GROWTH:
        times = [core[f"growth/{key}/{n}"] for n in FINGERS]
        rows.append([text, *map(show, times), f"{times[-1] / times[-2]:.1f}x"])
    lines += table(["", *(f"{n:,}" for n in FINGERS), "last ten times"], rows)

    lines += ["Growth with the number of boards (an open tray with a grid of dividers):", ""]
    rows = [[text, *(show(core[f"boards/{key}/{n}"]) for n in BOARDS)] for key, text in (("panels", "panels"), ("dry-fit", "dry fit"), ("order", "order"))]
    lines += table(["", *(f"{n} boards" for n in BOARDS)], rows)

    lines += ["A splice by tails, and beside it the same two boards by as many plain fingers in the plane:", ""]
    rows = []
    for key, text in SPLICE:
        times = [(core[f"splice/{key}/{n}"], core[f"splice/{key}-plain/{n}"]) for n in TAILS]
        rows.append([text, *(f"{show(ours)} ({ours / plain:.1f}x)" for ours, plain in times)])
    lines += table(["time (times that of plain fingers)", *(f"{n:,} tails" for n in TAILS)], rows)

    lines += [f"A closed box with twelve sides, {PRISM_VERTICES} vertices in fourteen panels, and a vertex of it beside one of the closed box:", ""]
    rows = []
    for key, text in PRISM:
        ours, plain = core[f"prism12/{key}"] / PRISM_VERTICES, core[f"box/{key}"] / vertices
        rows.append([text, show(ours * PRISM_VERTICES), show(ours), f"{ours / plain:.1f}x"])
    lines += table(["step", "time", "a vertex", "times the box's"], rows)

    lines += ["The order of cuts and the minutes of parts with four corners and a hole each:", ""]
    rows = []
    for key, text, each in (("lines", "order, a line", 1), ("motion", "minutes by a machine, a vertex", 4)):
        rows.append([text, *(f"{show(core[f'route/{key}/{n}'])} ({show(core[f'route/{key}/{n}'] / (each * n))})" for n in LINES)])
    rows.append([f"a pace from {' / '.join(map(str, KNOWN))} known jobs", *(show(core[f"route/known/{n}"]) for n in KNOWN)])
    lines += table(["in all (and of one)", *(f"{n:,} lines" for n in LINES)], rows)

    lines += ["Layouts proved, and their offcuts. Six panels of a closed box with all their fingers, then parts in rows:", ""]
    for key, text in (("six", "apart"), ("six-shared", "with shared cuts")):
        lines += [f"- six panels {text}: proof {show(core[f'proved/{key}'])}, offcuts {show(core[f'proved/{key}-offcuts'])}"]
    rows = []
    for key, text in (("apart", "proof, 1 mm apart"), ("touching", "proof, every edge shared"), ("offcuts", "offcuts")):
        rows.append([text, *(show(core[f"proved/{key}/{n}"]) for n in TILES)])
    lines += ["", *table(["", *(f"{n:,} parts" for n in TILES)], rows)]

    lines += ["A file of 100,000 vertices, in memory that is there, and the same numbers by the language's own formatting (`std::fmt`) in the same run:", ""]
    rows = []
    for key, text in FILES:
        times = [core.get(f"files/{key}/{scene}") for scene in SCENES]
        rows.append([text, *(f"{bytes_ / 1e6 / time:,.0f} MB/s ({show(time / 100_000)} a vertex)" if time else "" for time, bytes_ in zip(times, sizes(criterion, key)))])
    lines += table(["", *SCENES.values()], rows)

    lines += ["The way of a trailing blade's axis, a vertex of the line, and the same by angles and the standard library's sines in the same run:", ""]
    blades = (("follow", "dryfit"), ("std-angles", "by angles"))
    rows = [[text, *(show(core[f"knife/{key}/{scene}"] / 10_000) for scene in SCENES)] for key, text in blades]
    lines += table(["", "slanted edges", "square edges", "quarters of circles"], rows)

    lines += c_calls(core, json.loads(Path(sys.argv[3]).read_text()))
    lines += packing(core, json.loads((criterion / "strips.json").read_text()), peers["rectpack"])

    text = "\n".join(lines)
    print(text)
    if len(sys.argv) > 4:
        folder = Path(sys.argv[4])
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{today}.md").write_text(text)


if __name__ == "__main__":
    main()
