"""Offcuts, shared cuts and minutes by way of the job file."""

import re
from pathlib import Path

import dryfit as df
import pytest
from conftest import Shell

CUBE = """
[stock.rest]
thickness = 2
sheet = ["11 in", 160]
border = 6.5
count = 1
[stock.board]
thickness = 2
sheet = ["11 in", "11 in"]
border = 6.5
[cutter]
kind = "blade"
[layout]
share_cuts = {share}
[[box]]
name = "cube"
outside = [90, 90, 90]
"""


def laid(shell: Shell, folder: Path, text: str) -> tuple[str, list[str]]:
    """The report and the sheets of a job."""
    (folder / "job.toml").write_text(text)
    ran = shell("job", "job.toml", "--out", "out")
    assert ran.returncode == 0, ran
    sheets = sorted((folder / "out").glob("sheet-*.svg"))
    return (folder / "out" / "report.txt").read_text(), [sheet.read_text() for sheet in sheets]


def test_shared_cuts(shell: Shell, tmp_path: Path) -> None:
    """A cube's six panels interlock in two rows of three: 266 mm x 178 mm, on one board of 11 in with a border of 6.5 mm."""
    text = CUBE.format(share="true").replace('sheet = ["11 in", 160]', "sheet = [100, 80]")
    report, sheets = laid(shell, tmp_path, text)
    assert len(sheets) == 1 and '<g id="cut-shared"' in sheets[0]
    assert "6 parts" in report and re.search(r"of cuts, 0\.\d\d m of them the edge of two parts", report)
    plain, sheets = laid(shell, tmp_path, text.replace("true", "false"))
    assert len(sheets) == 2 and '<g id="cut-shared"' not in "".join(sheets) and "edge of two parts" not in plain


def test_offcuts_come_first(shell: Shell, tmp_path: Path) -> None:
    report, sheets = laid(shell, tmp_path, CUBE.format(share="false"))
    assert [sheet.count("<text") for sheet in sheets] == [2, 4]
    assert "sheet-1.svg: rest, 279.4 x 160, 2 parts" in report and "sheet-2.svg: board, 279.4 x 279.4, 4 parts" in report
    assert "rest: 2 thick, 1 sheets of 279.4 x 160" in report


def test_minutes_by_a_machine_and_by_known_jobs(shell: Shell, tmp_path: Path) -> None:
    text = CUBE.format(share="false")
    report, _ = laid(shell, tmp_path, text)
    assert "no [pace] was given" in report
    machine, _ = laid(shell, tmp_path, text + "[pace]\nfeed = 20\nacceleration = 500\nlift = 0.4\npasses = 3\n")
    stocks = [df.Stock(thickness=2, sheet=("11 in", 160), border=6.5, count=1), df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)]
    layout = df.box(outside=(90, 90, 90), stock=stocks[0]).cut(cutter=df.Cutter.blade()).lay_out(stocks)
    minutes = layout.minutes(df.Pace(feed=20, acceleration=500, lift=0.4), passes=3)
    assert f"about {minutes:.1f} minutes in 3 passes" in machine
    # What the report says of a job can be pasted as a known one.
    noted = re.search(r"known = \[\{ minutes = \.\.\., (.*) \}\]", report)
    assert noted
    cut = float(re.search(r"cut = (\d+)", noted[1])[1])  # type: ignore[index]
    other = noted[1].replace(f"cut = {cut:.0f}", f"cut = {cut * 2:.0f}")
    known, _ = laid(shell, tmp_path, f"{text}[pace]\nknown = [{{ minutes = 95, {noted[1]} }}, {{ minutes = 130, {other} }}]\n")
    assert "about 95.0 minutes" in known and "a guess" not in known
    half = other.replace(f"cut = {cut * 2:.0f}", f"cut = {cut * 1.5:.0f}")
    known, _ = laid(shell, tmp_path, f"{text}[pace]\nknown = [{{ minutes = 112, {half} }}, {{ minutes = 130, {other} }}]\n")
    assert "a guess, since its cut length" in known or "a guess, since its cut" in known


JOB = "minutes = 95, cut = 2000, parts = 6"
BAD = [
    ("feed = 0\nacceleration = 500", "pace.feed: 0"),
    ("feed = 20", "pace.acceleration: missing, allowed a number, or known jobs"),
    ("feed = 20\nacceleration = nan", "pace.acceleration: nan given"),
    ("feed = 20\nacceleration = 500\npasses = 0", "pace.passes: 0 given, allowed 1 to 1000"),
    ("known = []", "pace.known: "),
    (f"known = [{{ {JOB} }}]", "pace.known: "),
    (f"known = [{{ {JOB} }}, {{ {JOB} }}]", "pace.known"),
    (f"known = [{{ {JOB} }}, {{ {JOB.replace('95', '0')} }}]", "pace.known[1].minutes: 0 given"),
    (f"known = [{{ {JOB} }}, {{ {JOB.replace('95', 'nan')} }}]", "pace.known[1].minutes: nan given"),
    (f"known = [{{ {JOB} }}, {{ {JOB.replace('2000', '-1')} }}]", "pace.known[1].cut: -1 given"),
    (f"known = [{{ {JOB} }}, {{ minutes = 3, parts = 6 }}]", "pace.known[1].cut: missing"),
    (f"feed = 20\nknown = [{{ {JOB} }}]", 'pace.feed: unknown key, allowed "passes", "known"'),
]


@pytest.mark.parametrize(("pace", "says"), BAD)
def test_bad_paces(shell: Shell, tmp_path: Path, pace: str, says: str) -> None:
    (tmp_path / "job.toml").write_text(CUBE.format(share="false") + f"[pace]\n{pace}\n")
    ran = shell("job", "job.toml", "--out", "out")
    assert ran.returncode == 2 and says in ran.stderr and ran.stderr.count("\n") == 1, ran
    assert not (tmp_path / "out").exists()
