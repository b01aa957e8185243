"""Makes the files of a job, all in memory."""

from dryfit import _dryfit as df
from dryfit import _motion, _words
from dryfit._job import Job
from dryfit._prove import Proved
from dryfit._report import report


def files(job: Job, proved: list[Proved]) -> dict[str, str]:
    """Names and texts of the files: the sheets, a picture of each piece, the layouts for hand tools, the report."""
    parts: list[df.Parts] = []
    for each in proved:
        piece = each.piece
        for label in piece.labels():
            parts.append(piece.assembly.cut(cutter=job.cutter, fit=job.fit, web=job.web, relief=job.relief, label=label))
    layout = _laid_out(job, _joined(parts))
    count = len(layout.sheets)
    made: dict[str, str] = {}
    for number, sheet in enumerate(layout.sheets, 1):
        name, title = f"sheet-{number}", f"{job.title}, sheet {number} of {count}"
        made[f"{name}.svg"] = sheet.svg(title=title)
        if job.motion:
            made |= _motion.files(job.motion, sheet, name, title)
    for each in proved:
        made[f"{each.piece.name}-exploded.svg"] = each.piece.assembly.picture()
    for corner in job.corners:
        made[f"{corner.name}-layout.svg"] = corner.layout.svg(title=f"{job.title}, {corner.name}")
    made["report.txt"] = report(job, proved, layout)
    return made


def _laid_out(job: Job, parts: df.Parts) -> df.Layout:
    """The parts on the sheets of the job; every refusal names the key that it is about."""
    try:
        layout = parts.lay_out([board.stock for board in job.boards.values()], **job.layout)
    except df.LargerThanSheet as error:
        part = next(part for name, part in parts.items() if error.place.startswith(f'part "{name}" of '))
        raise df.LargerThanSheet(f"{_sheets_of(job, part)}.sheet: {error}") from None
    except df.DryfitError as error:
        raise type(error)(f"layout.{error}") from None
    if layout.unplaced:
        kinds = _sheets_of(job, parts[layout.unplaced[0]])
        names = ", ".join(map(_words.shown, layout.unplaced[:8])) + (", ..." if len(layout.unplaced) > 8 else "")
        raise df.NoSheetLeft(f"{kinds}.count: too few sheets given for {len(layout.unplaced)} of {len(parts)} parts ({names}), allowed more or no count")
    return layout


def _sheets_of(job: Job, part: df.Part) -> str:
    """The path of the last kind of board that has the part's thickness."""
    names = [name for name, board in job.boards.items() if board.stock.thickness == part.thickness]
    return _words.path("stock", names[-1])


def _joined(parts: list[df.Parts]) -> df.Parts:
    """One job of many, joined in pairs, which costs less than one after the other."""
    while len(parts) > 1:
        left_over = parts[-1:] if len(parts) % 2 else []
        parts = [one + other for one, other in zip(parts[::2], parts[1::2], strict=False)] + left_over
    return parts[0]
