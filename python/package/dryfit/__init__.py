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
from dryfit._dryfit import *  # noqa: F403
from dryfit._version import __version__

if _dryfit.__version__ != __version__:
    raise ImportError(
        f"the compiled part of dryfit has version {_dryfit.__version__}, its Python files have {__version__}: "
        "files of two versions are mixed; install dryfit again"
    )

__all__ = [name for name in _dryfit.__all__ if not name.startswith("_")]
__all__ += ["__version__"]
