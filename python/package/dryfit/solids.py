"""Boards as solids, for a look from all sides and for programs that want STL, 3MF or glTF.

Needs trimesh and manifold3d: ``pip install "dryfit[solids]"``. Lengths are mm; boards stand in the coordinates of their assembly.

>>> import dryfit as df
>>> from dryfit import solids
>>> stock = df.Stock(thickness=2.5, sheet=(500, 350))
>>> case = df.box(outside=(110, 85, 60), stock=stock)
>>> front = solids.mesh(case.panels["front"])
>>> front.is_watertight, round(float(front.volume) / case.panels["front"].area, 9)
(True, 2.5)
"""

from collections.abc import Iterable
from os import PathLike, fspath
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt

from dryfit import _words
from dryfit._dryfit import Assembly, MissingKey, NameTaken, NoSuchBoard, OutOfRange, Panel, Part, Parts, WrongType
from dryfit._extras import need as _need
from dryfit._refused import refused

if TYPE_CHECKING:
    import trimesh

__all__ = ["mesh", "save", "scene"]

# Okabe and Ito (2008), without black and yellow: boards beside each other can be told apart by everyone.
_COLOURS = ((86, 180, 233), (230, 159, 0), (0, 158, 115), (204, 121, 167), (0, 114, 178), (213, 94, 0))
# glTF counts in metres, and its y points up (Khronos, glTF 2.0, 3.4).
_TO_GLTF = np.array([[1, 0, 0, 0], [0, 0, 1, 0], [0, -1, 0, 0], [0, 0, 0, 1000]]) / 1000
_SUFFIXES = (".stl", ".3mf", ".glb", ".gltf")


def mesh(board: Panel | Part, /) -> "trimesh.Trimesh":
    """One board as a closed surface in mm, where it stands in its assembly; its ``metadata`` has the name.

    ``board`` is a panel, which is nominal, or a part: what comes off the cutter (``finished_loops``). The volume in cubic mm is the area times the thickness,
    for the area of the loops: in place of an arc stand points on it. A plain part, which stands nowhere, lies at the origin.

    Raises ``WrongType``; ``MissingKey`` for a plain part of any board, which has no thickness; ``NotAvailable`` where a package is missing.

    >>> import dryfit as df
    >>> plate = df.Parts.rectangles([(60, 40)], thickness=3)["1"]
    >>> mesh(plate).bounds.tolist()
    [[0.0, 0.0, 0.0], [60.0, 40.0, 3.0]]
    """
    loops, frame, thickness = _board(board)
    tm = _need("trimesh", "solids")
    flat, faces = np.vstack(loops), _faces(loops)
    raised = [np.column_stack([flat, np.full(len(flat), w)]) for w in (0.0, thickness)]
    # As it is made: merged vertices would join outlines that touch in one point.
    made: trimesh.Trimesh = tm.Trimesh(vertices=np.vstack(raised), faces=faces, process=False, metadata={"name": board.name})
    made.apply_transform(frame)
    made.units = "mm"
    return made


def scene(assembly: Assembly, /, *, explode: Any = 0, parts: Parts | None = None) -> "trimesh.Scene":
    """All boards of an ``assembly``, a node each with the board's name; in mm, z up.

    ``explode`` is the gap between boards that are pulled apart in the order of assembly, in mm or a string with a unit, as in ``Assembly.picture``; 0 leaves
    them put together. With ``parts``, what ``assembly.cut`` gave, with a label or without, the boards are what comes off the cutter and not the nominal panels.
    Parts of other boards in the same job are left out; copies of one part are one board.

    ``scene.show()`` looks at it (in a notebook too), ``save`` writes it.

    Raises ``Locked`` where boards hold each other and cannot be pulled apart; ``NoSuchBoard`` where ``parts`` has none for a board, ``NameTaken`` where it has
    several that differ, as the parts of two assemblies in one job do;
    ``OutOfRange``, ``NotALength``; ``NotAvailable`` where a package is missing.

    >>> import dryfit as df
    >>> case = df.box(outside=(110, 85, 60), stock=df.Stock(thickness=2.5, sheet=(500, 350)))
    >>> sorted(scene(case).geometry)
    ['back', 'base', 'front', 'left', 'right', 'top']
    >>> [float(size) for size in scene(case, explode=40).extents]
    [195.0, 85.0, 145.0]
    """
    if not isinstance(assembly, Assembly):
        raise refused(WrongType, "assembly", f"{_words.shown(assembly)} given, allowed an Assembly")
    if parts is not None and not isinstance(parts, Parts):
        raise refused(WrongType, "parts", f"{_words.shown(parts)} given, allowed Parts")
    offsets = assembly._offsets(explode)
    tm = _need("trimesh", "solids")
    made: trimesh.Scene = tm.Scene()
    for number, ((name, panel), offset) in enumerate(zip(assembly.panels.items(), offsets, strict=True)):
        board: Any = mesh(panel if parts is None else _part(parts, name))
        board.visual.face_colors = (*_COLOURS[number % len(_COLOURS)], 255)
        moved = tm.transformations.translation_matrix(offset)
        made.add_geometry(board, geom_name=name, node_name=name, transform=moved)
    made.units = "mm"
    return made


def save(what: "trimesh.Scene | trimesh.Trimesh", path: str | PathLike[str], /) -> None:
    """Writes a scene or a mesh.

    ``what`` is the one or the other; the ending of ``path`` says how: ``.stl``, ``.3mf``, ``.glb``, or ``.gltf`` with all in one file. STL has no word for the unit and no nodes: its numbers are mm, its boards one after the other. 3MF says mm. glTF has metres and y up, as its
    specification demands.

    Raises ``WrongType``; ``OutOfRange`` for another ending; ``NotAvailable`` where a package is missing; ``OSError`` where the file cannot be written.

    >>> import dryfit as df, tempfile
    >>> case = df.box(outside=(110, 85, 60), stock=df.Stock(thickness=2.5, sheet=(500, 350)))
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     save(scene(case, explode=40), folder + "/case.3mf")
    """
    tm = _need("trimesh", "solids")
    if not isinstance(what, (tm.Scene, tm.Trimesh)):
        raise refused(WrongType, "what", f"{_words.shown(what)} given, allowed a scene or a mesh")
    suffix = Path(fspath(path)).suffix.lower()
    if suffix not in _SUFFIXES:
        raise refused(OutOfRange, "path", f"{_words.shown(fspath(path))} given, allowed a name that ends in {_words.listed(_SUFFIXES)}")
    for module in ("networkx", "lxml") if suffix == ".3mf" else ():
        _need(module, "solids")
    everything = what if isinstance(what, tm.Scene) else tm.Scene({str(what.metadata.get("name", "board")): what})
    Path(path).write_bytes(_bytes(tm, everything, suffix))


def _bytes(tm: Any, everything: Any, suffix: str) -> bytes:
    """The file of a scene."""
    if suffix == ".stl":
        return bytes(everything.to_mesh().export(file_type="stl"))
    if suffix == ".3mf":
        return bytes(everything.export(file_type="3mf"))
    turned = everything.copy()
    turned.apply_transform(_TO_GLTF)
    turned.units = "m"
    if suffix == ".glb":
        return bytes(turned.export(file_type="glb"))
    files = tm.exchange.gltf.export_gltf(turned, embed_buffers=True)
    return bytes(files["model.gltf"])


def _board(board: object) -> tuple[list[npt.NDArray[np.float64]], npt.NDArray[np.float64], float]:
    """Outline, place and thickness of a board."""
    if isinstance(board, Panel):
        return board.loops, board.frame, board.thickness
    if not isinstance(board, Part):
        raise refused(WrongType, "board", f"{_words.shown(board)} given, allowed a Panel or a Part")
    if board.thickness is None:
        raise refused(MissingKey, "thickness", f"missing in the part {_words.shown(board.name)}, allowed a part that was made for a board of one thickness")
    return board.finished_loops, _frame(board), board.thickness


def _part(parts: Parts, board: str) -> Part:
    """The part of a board; of several that are alike the first."""
    found = [part for part in parts.values() if part.board == board]
    if not found:
        raise refused(NoSuchBoard, "parts", f"none of the board {_words.shown(board)} given, allowed what this assembly's cut gave: {_words.listed(parts)}")
    if any(not _alike(found[0], other) for other in found[1:]):
        several = _words.listed(part.name for part in found)
        raise refused(NameTaken, "parts", f"several of the board {_words.shown(board)} given, {several}, allowed the parts of one assembly")
    return found[0]


def _alike(one: Part, other: Part) -> bool:
    """Whether two parts are the same but for their names."""
    loops = (one.finished_loops, other.finished_loops)
    same = len(loops[0]) == len(loops[1]) and all(map(np.array_equal, *loops))
    return same and one.thickness == other.thickness and np.array_equal(_frame(one), _frame(other))


def _frame(part: Part) -> npt.NDArray[np.float64]:
    """Where a part stands; a plain one at the origin."""
    return np.eye(4) if part.frame is None else part.frame


def _faces(loops: Iterable[npt.NDArray[np.float64]]) -> npt.NDArray[np.int64]:
    """The triangles of a prism whose vertices are those of the loops, below and then above. Seen from outside, all run counter-clockwise."""
    rings = list(loops)
    face = np.asarray(_need("manifold3d", "solids").triangulate(rings), dtype=np.int64)
    starts = np.cumsum([0, *map(len, rings)])
    here = np.arange(starts[-1])
    after = np.concatenate([np.roll(here[a:b], -1) for a, b in zip(starts, starts[1:])])
    up = len(here)
    walls = np.vstack([np.column_stack([here, after, after + up]), np.column_stack([here, after + up, here + up])])
    return np.vstack([face[:, ::-1], face + up, walls])
