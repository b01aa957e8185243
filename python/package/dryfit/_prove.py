"""Proves a job: every piece's design, its cut parts, and its order of putting together."""

from dataclasses import dataclass

from dryfit import _dryfit as df
from dryfit import _words
from dryfit._job import Job
from dryfit._pieces import Piece


@dataclass(frozen=True)
class Proved:
    """A piece that fits: its parts (one copy), both dry fits, and the order."""

    piece: Piece
    parts: df.Parts
    design: df.Report
    cut: df.Report
    order: list[df.Step]


def prove(job: Job) -> tuple[list[Proved], list[str]]:
    """Tries every piece: those that fit, and what is wrong with the others, a line each. Input that makes no parts at all is a DryfitError."""
    proved: list[Proved] = []
    problems: list[str] = []
    for piece in job.pieces:
        tried = _piece(job, piece)
        if isinstance(tried, Proved):
            proved.append(tried)
        else:
            problems += [f"{piece.name}: {_words.line(text)}" for text in tried]
    return proved, problems


def _piece(job: Job, piece: Piece) -> Proved | list[str]:
    """The piece if it fits, else its problems."""
    problems: list[str] = []
    try:
        design = piece.assembly.dry_fit()
        problems += [f"design: {text}" for text in design.problems]
        parts = piece.assembly.cut(cutter=job.cutter, fit=job.fit, web=job.web, relief=job.relief)
    except df.DryfitError as error:
        if problems:
            # A design that does not fit may not be cut either; its own problems say more.
            return problems
        raise _located(piece, error) from None
    cut = parts.dry_fit()
    problems += [f"cut parts: {text}" for text in cut.problems]
    order: list[df.Step] = []
    try:
        order = piece.assembly.order()
    except df.Locked as error:
        problems.append(str(error))
    return problems or Proved(piece, parts, design, cut, order)


def _located(piece: Piece, error: df.DryfitError) -> df.DryfitError:
    """The same refusal with the path of the key that it is about: that of the pair's joint, else the piece's."""
    if not error.place:
        return error if error.parameter == "web" else type(error)(f"{piece.path}.{error}")
    for pair, path in piece.joints.items():
        for a, b in (sorted(pair), sorted(pair, reverse=True)):
            if error.place == f'joint of "{a}" and "{b}"':
                return type(error)(f"{path}: {error}")
    return type(error)(f"{piece.path}: {error}")
