"""The motion of a job file: how its sheets are cut, and which files for machines are written.

``[motion]`` has the settings of ``Motion`` under the same names, but for the cutter, which the job has already, and ``files``.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from dryfit import _dryfit as df
from dryfit import _words
from dryfit._table import Table, here

FILES = ("gcode", "hpgl", "dxf", "svg")
SETTINGS = (
    *("feed", "plunge", "height", "passes", "step", "depth", "light", "by", "pause", "power", "light_power", "dynamic", "speed", "ramp"),
    *("swivel_above", "overcut", "turn_depth", "bridges", "bridge_spacing", "bridge_width", "bed", "lead", "flat", "start", "outer", "inner"),
)


@dataclass(frozen=True)
class Files:
    """How the sheets are cut, and the kinds of files that say so."""

    motion: df.Motion
    kinds: list[str]
    passes: int
    """How often each line is cut, on the kind of board that takes most."""


def read(values: Any, cutter: df.Cutter, stocks: Iterable[df.Stock]) -> Files:
    """The ``[motion]`` table of a job with this cutter and these kinds of board. Every refusal is a DryfitError that names the key."""
    table = Table(values, "motion", ("files", *SETTINGS))
    kinds = table.need("files", f"a list of {_words.listed(FILES)}")
    if not isinstance(kinds, list) or not kinds or not all(kind in FILES for kind in kinds):
        raise df.OutOfRange(f"motion.files: {_words.shown(kinds)} given, allowed a list of {_words.listed(FILES)}")
    with here("motion"):
        motion = df.Motion(cutter=cutter, **table.only(*SETTINGS))
        # Tried on a small sheet of every kind: what is refused here is a setting, not a part.
        trials = [df.Parts.rectangles([(1, 1)]).lay_out(df.Stock(thickness=stock.thickness, sheet=(9, 9))) for stock in stocks]
        passes = max(len(trial.sheets[0].plan(motion).passes) for trial in trials)
    return Files(motion, list(dict.fromkeys(kinds)), passes)


def files(made: Files, sheet: df.Sheet, name: str, title: str) -> dict[str, str]:
    """The files of one sheet, by their names."""
    write = {
        "gcode": lambda: sheet.gcode(made.motion, title=title),
        "hpgl": lambda: sheet.hpgl(made.motion),
        # Line ends as the format's own programs write them.
        "dxf": lambda: sheet.dxf(title=title).replace("\n", "\r\n"),
        "svg": lambda: sheet.svg(made.motion, title=title),
    }
    with here("motion"):
        return {f"{name}-motion.svg" if kind == "svg" else f"{name}.{kind}": write[kind]() for kind in made.kinds}


def lines(made: Files, sheet: df.Sheet, number: int, cutter: df.Cutter, thickest: float) -> list[str]:
    """What the report says of one sheet, whose thickest board measures so much."""
    plan = sheet.plan(made.motion)
    said = [_passes(plan, cutter), f"{plan.length / 1000:.2f} m with the tool down"]
    if plan.bridges:
        said.append(f"{plan.bridges} {'bridge' if plan.bridges == 1 else 'bridges'}")
    elif cutter.kind == "bit":
        said.append("no bridges: parts come loose under a turning bit; hold every one of them by other means")
    if plan.bare:
        said.append("no place for a bridge on " + ", ".join(map(_words.shown, plan.bare)))
    if plan.unled:
        said.append(f"{plan.unled} cuts begin on the line itself, since there is no room for a way in")
    if plan.deviation:
        said.append(f"the tip strays from the line by {plan.deviation:.4f} at most")
    short = thickest - plan.passes[-1][0]
    if cutter.kind != "beam" and short > 0:
        said.append(f"the thickest reading is {_words.number(short)} more than the last pass is deep; depth = {_words.number(thickest)} goes through")
    return [f"sheet {number}: " + "; ".join(said)]


def _passes(plan: df.Plan, cutter: df.Cutter) -> str:
    """How many passes there are, and how deep or strong each is."""
    many = len(plan.passes)
    beam = cutter.kind == "beam"
    each = [_words.number(power if beam else depth) for depth, power in plan.passes]
    listed = ", ".join(each[:-1]) + " and " + each[-1] if many > 1 else each[0]
    if beam and not any(power for _, power in plan.passes):
        listed = "0: a dry run"
    passes = f"{many} {'pass' if many == 1 else 'passes'}, "
    return passes + (f"power {listed}" if beam else f"{listed} deep")
