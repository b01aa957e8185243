"""The text of a job's report, for the person who cuts and puts together."""

from collections.abc import Iterable

from dryfit import _dryfit as df
from dryfit import _minutes, _motion
from dryfit._corners import Corner
from dryfit._job import Board, Job
from dryfit._prove import Proved
from dryfit._version import __version__
from dryfit._words import line
from dryfit._words import number as mm

WAYS = {
    "+x": "to the right",
    "-x": "to the left",
    "+y": "to the back",
    "-y": "to the front",
    "+z": "upwards",
    "-z": "downwards",
    "+u": "along itself, to the right as drawn",
    "-u": "along itself, to the left as drawn",
    "+v": "along itself, upwards as drawn",
    "-v": "along itself, downwards as drawn",
    "+w": "square to its face, towards the side drawn",
    "-w": "square to its face, away from the side drawn",
}

CAUTIONS = """\
Blades and bits cut fingers, beams blind and burn. The instructions of the machine's maker and the rules of your workplace come
before anything said here.
- Cut one part of scrap first, measure it, and correct kerf and fit if it is off.
- Never leave a running beam alone; have the extraction on and something to put a fire out within reach. Know what your board gives
  off: never put board with PVC or an unknown plastic, coating or glue under a beam.
- Cutting and sanding board makes dust: draw it off, and wear what the maker of the board says.
- Hold the sheet down all over, keep hands out of the machine's reach, and take parts out when it stands still."""


def report(job: Job, proved: list[Proved], layout: df.Layout) -> str:
    """The report as plain text."""
    blocks = [
        [line(job.title), "=" * len(line(job.title))],
        ["Lengths are in mm. x goes to the right, y to the back, z up."],
        ["Board", *_indent(_board(name, board) for name, board in job.boards.items())],
        ["Cutter and fit", *_indent([_cutter(job), _fit(job.fit)])],
    ]
    blocks += [_piece(each) for each in proved]
    blocks += [_corner(each) for each in job.corners]
    shared = f", {_metres(layout.shared_length)} of them the edge of two parts" if layout.shared_length else ""
    blocks.append(["Sheets, in all " + _metres(layout.cut_length) + " of cuts" + shared, *_indent(_sheets(job, layout))])
    if job.motion:
        blocks.append(["Motion", *_indent(_motions(job, job.motion, layout))])
    blocks.append(["Minutes", *_indent(_minutes.lines(layout, job.timing, job.motion.passes if job.motion else 1))])
    blocks.append(["Before you cut", *_indent(CAUTIONS.splitlines())])
    blocks.append([f"Made by dryfit {__version__}."])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _motions(job: Job, motion: _motion.Files, layout: df.Layout) -> Iterable[str]:
    thickest = {board.stock.thickness: max([board.stock.thickness, *board.readings]) for board in job.boards.values()}
    for number, sheet in enumerate(layout.sheets, 1):
        yield from _motion.lines(motion, sheet, number, job.cutter, thickest[sheet.stock.thickness])


def _indent(lines: Iterable[str]) -> list[str]:
    return [f"  {text}" for text in lines]


def _metres(length: float) -> str:
    return f"{length / 1000:.2f} m"


def _board(name: str, board: Board) -> str:
    stock = board.stock
    width, height = stock.sheet
    text = f"{line(name)}: {mm(stock.thickness)} thick"
    if board.readings:
        each = ", ".join(mm(reading) for reading in board.readings)
        text += f" (the mean of {each}; the thickest is {mm(max(board.readings) - stock.thickness)} above it)"
    count = "" if stock.count is None else f"{stock.count} "
    grain = f", grain along {stock.grain}" if stock.grain else ""
    return f"{text}, {count}sheets of {mm(width)} x {mm(height)}, border {mm(stock.border)}, gap {mm(stock.gap)}{grain}"


def _cutter(job: Job) -> str:
    cutter, relief = job.cutter, job.relief
    led = "the files for the machine lead the axis" if job.motion else "the trail is for the cutter's software"
    trail = f", trail {mm(cutter.trail)} (the sheets show where the tip cuts; {led})" if cutter.trail else ""
    fillet = f", leaves a radius of {mm(cutter.corner_radius)} in inner corners" if cutter.corner_radius else ""
    if relief:
        fillet = f"; inner corners that a mate must fill are relieved, radius {mm(relief.radius)}, {relief.shape}"
    return f"{cutter.kind}, kerf {mm(cutter.kerf)}{trail}{fillet}"


def _fit(fit: df.Fit) -> str:
    return (
        f"gaps asked for: flank {mm(fit.flank)} (between two cut edges), cheek {mm(fit.cheek)} (between a cut edge and a board's face); "
        f"fingers stand proud by {mm(fit.tip)}"
    )


def _piece(each: Proved) -> list[str]:
    piece = each.piece
    copies = "" if piece.copies == 1 else f", {piece.copies} of them"
    title = f"{piece.name} ({piece.kind} of {len(each.parts)} panels{copies}), see {piece.name}-exploded.svg"
    lines = [_dry_fit("design", each.design), _dry_fit("cut parts", each.cut), "putting together:"]
    for number, step in enumerate(each.order, 1):
        way = "put it down" if number == 1 else f"move it {WAYS[step.direction]} ({step.direction})"
        onto = next((later.panel for later in each.order if step.panel in later.along), None)
        apart = f" into {line(onto)}, apart from the rest" if onto else ""
        along = f", with {', '.join(map(line, step.along))}" if step.along else ""
        lines.append(f"  {number:2}. {line(step.panel)}: {way}{apart}{along}")
    return [title, *_indent(lines)]


def _corner(corner: Corner) -> list[str]:
    layout = corner.layout
    (tails, ends), (rise, run) = layout.widths["tail"], layout.slope
    lap = f", lap {mm(layout.lap)}" if layout.lap else ""
    return [
        f"{corner.name} ({layout.kind} dovetail for saw and chisel), see {corner.name}-layout.svg",
        *_indent([
            f"boards {mm(layout.width)} wide; {layout.count} tails at {rise}:{run}, {mm(tails)} wide at the baseline and {mm(ends)} at their ends",
            f"baselines: {mm(layout.tail_length)} from the end of the tail board, {mm(layout.pin_length)} from that of the pin board{lap}",
            "to be set out and cut by hand: nothing of it is on a sheet, and a machine that cuts straight down cannot make the pins",
            *(f"beyond what handbooks advise: {line(warning)}" for warning in layout.warnings),
        ]),
    ]


def _dry_fit(what: str, report: df.Report) -> str:
    return (
        f"{what}: fits; overlap {mm(report.overlap_max)}, gaps {mm(report.gap_min)} to {mm(report.gap_max)}, "
        f"void {mm(report.void_volume)} mm3, loose pieces {report.loose_pieces}, thinnest neck {mm(report.thinnest_neck)}"
    )


def _sheets(job: Job, layout: df.Layout) -> Iterable[str]:
    kinds = {board.stock: name for name, board in job.boards.items()}
    for number, sheet in enumerate(layout.sheets, 1):
        width, height = sheet.stock.sheet
        kind = line(kinds[sheet.stock])
        yield (
            f"sheet-{number}.svg: {kind}, {mm(width)} x {mm(height)}, {len(sheet.placements)} parts, "
            f"{_metres(sheet.cut_length)} of cuts, {mm(sheet.used_height)} of the height used, with the border"
        )
        yield "  " + ", ".join(line(placement.part) for placement in sheet.placements)
