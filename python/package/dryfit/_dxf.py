"""Newer releases of DXF, which say the unit. A well-kept library writes them: ezdxf, an extra of this package."""

import io
from typing import TYPE_CHECKING

from dryfit._dryfit import NotAvailable
from dryfit._refused import refused

if TYPE_CHECKING:
    from ezdxf.document import Drawing


def newer(text: str, version: str) -> str:
    """The drawing of a file of release 12 as one of a later release, in mm. Raises NotAvailable where ezdxf is not installed."""
    try:
        made = drawing(text, version)
    except ImportError:
        raise refused(NotAvailable, "version", f'"{version}" given, allowed "R12" where ezdxf is not installed: pip install dryfit[dxf]') from None
    out = io.StringIO()
    # Comments are no part of the drawing; the cautions stay in front of it.
    lines = text.split("\n")
    comments = [f"999\n{line}\n" for code, line in zip(lines[::2], lines[1::2], strict=False) if code == "999"]
    made.write(out)
    return "".join(comments) + out.getvalue()


def drawing(text: str, version: str) -> "Drawing":
    """The same as ezdxf has it in memory."""
    from ezdxf.filemanagement import read

    return in_mm(read(io.StringIO(text)), version)


def in_mm(made: "Drawing", version: str) -> "Drawing":
    """A drawing of this release that says its unit."""
    from ezdxf.units import MM

    made.dxfversion = version
    made.units = MM
    made.header["$MEASUREMENT"] = 1
    return made
