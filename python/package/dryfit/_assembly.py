"""Assemblies of a job file: any boards, their joints, laps and butterfly keys."""

from typing import Any

from dryfit import _dryfit as df
from dryfit import _joints, _words
from dryfit._table import LENGTH, Stocks, Table, here, stock

KEYS = ("boards", "joints", "laps", "keys")
BOARD = ("name", "normal", "at", "size", "turn", "about", "stock")
KEY = ("between", "length", "width", "at", "slope")

Joints = dict[frozenset[str], str]
"""The path in the file of what joins two boards."""


def make(table: Table, stocks: Stocks) -> tuple[df.Assembly, Joints]:
    """The assembly that a table asks for."""
    table.need("boards", "a list of boards")
    rows = [Table(row, path, BOARD) for path, row in table.rows("boards", "a list of boards")]
    own = [stock(row, stocks) if "stock" in row else None for row in rows]
    # Where every board has a stock of its own, that of the assembly is never used.
    common = own[0] if own and "stock" not in table and None not in own else None
    assembly = df.Assembly(stock=common or stock(table, stocks))
    for row, board in zip(rows, own, strict=True):
        title = row.text("name")
        for key, what in (("normal", '"x", "y" or "z"'), ("at", "the lowest corner (x, y, z)"), ("size", "two sizes")):
            row.need(key, what)
        with here(row.path):
            assembly.add(title, stock=board, **row.only("normal", "at", "size", "turn", "about"))
    for path, names in table.rows("laps", "a list of lists of names"):
        with here(path):
            assembly.lap(names)
    joints: Joints = {}
    for path, row in table.rows("joints", "a list of joints"):
        a, b, spec = _joints.read(row, path)
        pair = frozenset((a, b))
        if pair in joints:
            raise df.NameTaken(f"{path}.between: {_words.shown([a, b])} given, taken by {joints[pair]}; allowed one joint for two boards")
        with here(path):
            assembly.joint(a, b, spec)
        joints[pair] = path
    for path, row in table.rows("keys", "a list of butterfly keys"):
        joints.update(_key(assembly, row, path))
    return assembly, joints


def _key(assembly: df.Assembly, row: Any, path: str) -> Joints:
    """A butterfly key: ``{ name = "key", between = ["left", "right"], length = 40, width = 20, at = 50, slope = 6 }``."""
    table = Table(row, path, ("name", *KEY))
    name, between = table.text("name"), _joints.two(table)
    for key in ("length", "width", "at"):
        table.need(key, LENGTH)
    table.need("slope", _joints.SLOPE)
    with here(path):
        assembly.key(name, **table.only(*KEY))
    return {frozenset((name, board)): path for board in between}
