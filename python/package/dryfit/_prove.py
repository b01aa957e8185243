"""Proves a job: every piece's design, its cut parts, and its order of putting together."""

from dataclasses import dataclass

from dryfit import _dryfit as df
from dryfit import _words
from dryfit._job import Job, Piece


@dataclass(frozen=True)
class Proved:
    """A piece that was tried: its parts (one copy), both dry fits, and the order if there is one."""

    piece: Piece
    parts: df.Parts
    design: df.Report
    cut: df.Report
    order: list[df.Step]
    problems: list[str]


def prove(job: Job) -> list[Proved]:
    """Tries every piece. A piece that does not fit has problems; input that makes no parts at all is a DryfitError."""
    return [_piece(job, piece) for piece in job.pieces]


def problems(proved: list[Proved]) -> list[str]:
    """What is wrong with the job, a line each."""
    return [f"{each.piece.name}: {_words.line(text)}" for each in proved for text in each.problems]


def _piece(job: Job, piece: Piece) -> Proved:
    try:
        design = piece.assembly.dry_fit()
        parts = piece.assembly.cut(cutter=job.cutter, fit=job.fit, web=job.web)
    except df.DryfitError as error:
        raise _located(piece, error) from None
    cut = parts.dry_fit()
    found = [f"design: {text}" for text in design.problems] + [f"cut parts: {text}" for text in cut.problems]
    order: list[df.Step] = []
    try:
        order = piece.assembly.order()
    except df.Locked as error:
        found.append(f"order: {error}")
    return Proved(piece, parts, design, cut, order, found)


def _located(piece: Piece, error: df.DryfitError) -> df.DryfitError:
    """The same refusal with the path of the key that it is about: that of the pair's joint, else the piece's."""
    if not error.place:
        return error if error.parameter == "web" else type(error)(f"{piece.path}.{error}")
    for pair, path in piece.joints.items():
        for a, b in (sorted(pair), sorted(pair, reverse=True)):
            if error.place == f'joint of "{a}" and "{b}"':
                return type(error)(f"{path}: {error}")
    return type(error)(f"{piece.path}: {error}")
