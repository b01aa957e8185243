"""Exact joinery arithmetic for flat-pack boxes in sheet board, and the proof that they fit.

Lengths are millimetres as int or float, or strings with a unit: "11 in", "3/32 in", "0.1 mm", "2 cm". Inside they are whole nanometres.

>>> import dryfit as df
>>> stock = df.Stock(thickness=[2.46, 2.53, 2.49, 2.55], sheet=(500, 350), border=8)
>>> box = df.box(outside=(110, 85, 60), stock=stock)
>>> list(box.panels)
['front', 'back', 'left', 'right', 'base', 'top']

Every refusal is a ``DryfitError`` (a ``ValueError``) with the number of its kind in ``code``.
"""

from dryfit import _dryfit
from dryfit._dryfit import (
    Assembly,
    BadSyntax,
    Blind,
    BorderTooWide,
    box,
    CrossesNeighbour,
    Cutter,
    DoNotMeet,
    DryfitError,
    Fingers,
    FingersDoNotFit,
    Fit,
    Halves,
    LargerThanSheet,
    Layout,
    Locked,
    MeetsNothing,
    MissingKey,
    NameEmpty,
    NameTaken,
    NoBoards,
    NoSuchBoard,
    NotALength,
    NotAvailable,
    NotFinite,
    NotReadable,
    NotText,
    NotWritable,
    OutOfRange,
    Panel,
    Part,
    Parts,
    Placement,
    Report,
    RunTooShort,
    SamePlace,
    Sheet,
    SinkFull,
    SlotCloses,
    SplitOutsideRun,
    Step,
    Stock,
    Tabs,
    TabsDoNotFit,
    ThickerThanBox,
    TooLarge,
    UnknownKey,
    WebTooThin,
    WrongThickness,
    WrongType,
)
from dryfit._version import __version__

if _dryfit.__version__ != __version__:
    raise ImportError(
        f"the compiled part of dryfit has version {_dryfit.__version__}, its Python files have {__version__}: "
        "files of two versions are mixed; install dryfit again"
    )

__all__ = [
    "Assembly",
    "box",
    "Cutter",
    "Fingers",
    "Fit",
    "Halves",
    "Layout",
    "Sheet",
    "Panel",
    "Part",
    "Parts",
    "Placement",
    "Report",
    "Step",
    "Stock",
    "Tabs",
    "DryfitError",
    "NotALength",
    "OutOfRange",
    "NotFinite",
    "FingersDoNotFit",
    "TabsDoNotFit",
    "SplitOutsideRun",
    "RunTooShort",
    "NameTaken",
    "NoSuchBoard",
    "SamePlace",
    "Blind",
    "DoNotMeet",
    "MeetsNothing",
    "ThickerThanBox",
    "NoBoards",
    "NameEmpty",
    "SlotCloses",
    "CrossesNeighbour",
    "WebTooThin",
    "Locked",
    "LargerThanSheet",
    "BorderTooWide",
    "WrongThickness",
    "SinkFull",
    "UnknownKey",
    "WrongType",
    "MissingKey",
    "NotReadable",
    "TooLarge",
    "NotText",
    "BadSyntax",
    "NotWritable",
    "NotAvailable",
    "__version__",
]
