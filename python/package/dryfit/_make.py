"""Makes the files of a job, all in memory."""

from functools import reduce
from operator import add

from dryfit import _dryfit as df
from dryfit._job import Job
from dryfit._prove import Proved
from dryfit._report import report


def files(job: Job, proved: list[Proved]) -> dict[str, str]:
    """Names and texts of the files: the sheets, a picture of each piece, the report."""
    parts: list[df.Parts] = []
    for each in proved:
        piece = each.piece
        for label in piece.labels():
            parts.append(piece.assembly.cut(cutter=job.cutter, fit=job.fit, web=job.web, label=label))
    try:
        layout = reduce(add, parts).lay_out([board.stock for board in job.boards.values()])
    except df.DryfitError as error:
        raise type(error)(f"stock: {error}") from None
    count = len(layout.sheets)
    made = {f"sheet-{n}.svg": sheet.svg(title=f"{job.title}, sheet {n} of {count}") for n, sheet in enumerate(layout.sheets, 1)}
    for each in proved:
        made[f"{each.piece.name}-exploded.svg"] = each.piece.assembly.picture()
    made["report.txt"] = report(job, proved, layout)
    return made
