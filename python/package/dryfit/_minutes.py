"""The pace of a job file: how long its layout takes.

``[pace]`` has either the machine's numbers or ``known`` jobs, each with its minutes and what the report of that job said of it.
"""

import re
from dataclasses import dataclass
from typing import Any

from dryfit import _dryfit as df
from dryfit._table import Table, here

MACHINE = ("feed", "acceleration", "travel_speed", "deviation", "lift", "swivel")
TALLY = ("cut", "parts", "starts", "corners", "travel", "sheets")
KNOWN = ("minutes", *TALLY)


@dataclass(frozen=True)
class Timing:
    """A pace, and how often each line is cut."""

    pace: df.Pace
    passes: int


def read(values: Any, usual: int) -> Timing:
    """The ``[pace]`` table of a job that cuts each line ``usual`` times unless told otherwise. Every refusal is a DryfitError that names the key."""
    table = Table(values, "pace", ("passes", "known", *MACHINE))
    passes = table.whole("passes", 1, 1000, usual)
    if "known" not in table:
        for key in ("feed", "acceleration"):
            table.need(key, "a number, or known jobs in its place")
        with here("pace"):
            return Timing(df.Pace(**table.only(*MACHINE)), passes)
    table = Table(values, "pace", ("passes", "known"))
    jobs = [_known(row, path) for path, row in table.rows("known", "a list of tables with minutes and what the report of a job says")]
    try:
        return Timing(df.Pace.from_known(jobs), passes)
    except df.DryfitError as error:
        # A known job is a pair in Python, and a table here.
        raise type(error)("pace." + re.sub(r"(known\[\d+\])\[1\]", r"\1.minutes", str(error))) from None


def _known(row: Any, path: str) -> tuple[df.Tally, Any]:
    table = Table(row, path, KNOWN)
    minutes = table.need("minutes", "a number of minutes")
    for key in ("cut", "parts"):
        table.need(key, "a number, as the report of that job says it")
    with here(path):
        return df.Tally(**table.only(*TALLY)), minutes


def lines(layout: df.Layout, timing: Timing | None, usual: int) -> list[str]:
    """What the report says of the time of a job that cuts each line ``usual`` times unless told otherwise."""
    passes = timing.passes if timing else usual
    tally = layout.tally(passes=passes)
    counts = f"parts = {tally.parts}, starts = {tally.starts}, corners = {tally.corners}"
    said = f"cut = {tally.cut:.0f}, {counts}, travel = {tally.travel:.0f}, sheets = {tally.sheets}"
    note = f"for the pace of later jobs: known = [{{ minutes = ..., {said} }}]"
    if not timing:
        return ["no [pace] was given; write down how long it takes", note]
    estimate = layout.estimate(timing.pace, passes=passes)
    spread = "" if estimate.spread is None else f", give or take {estimate.spread:.1f}"
    guess = f"; a guess, since its {', '.join(estimate.outside)} lie outside the known jobs" if estimate.outside else ""
    often = "" if passes == 1 else f" in {passes} passes"
    return [f"about {estimate.minutes:.1f} minutes{often}{spread}{guess}", note]
