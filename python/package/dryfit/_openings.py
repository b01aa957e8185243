"""Holes and bolts of a piece in a job file."""

from dryfit import _dryfit as df
from dryfit._table import LENGTH, Table, here

KEYS = ("holes", "bolts")
HOLE = ("at", "diameter", "size", "ends", "count", "spacing")
BOLT = ("thread", "length", "at", "clearance", "gap")


def add(table: Table, assembly: df.Assembly) -> None:
    """Makes the openings: ``{ board = "front", at = [40, 30], diameter = 20 }``, ``{ edge = "front", face = "left", thread = "M4", ... }``."""
    for path, row in table.rows("holes", "a list of holes"):
        hole = Table(row, path, ("board", *HOLE))
        board = hole.text("board", "the name of a board")
        hole.need("at", "its middle (x, y) on the board")
        with here(path):
            assembly.hole(board, **hole.only(*HOLE))
    for path, row in table.rows("bolts", "a list of bolts"):
        bolt = Table(row, path, ("edge", "face", *BOLT))
        edge, face = (bolt.text(key, "the name of a board") for key in ("edge", "face"))
        bolt.need("thread", "a size of screw such as M4")
        for key in ("length", "at"):
            bolt.need(key, LENGTH)
        with here(path):
            assembly.bolt(edge, face, **bolt.only(*BOLT))
