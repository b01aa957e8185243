"""Newer releases of DXF, which say the unit. A well-kept library writes them: ezdxf, an extra of this package."""

import io

from dryfit._dryfit import NotAvailable


def newer(text: str, version: str) -> str:
    """The drawing of a file of release 12 as one of a later release, in mm. Raises NotAvailable where ezdxf is not installed."""
    try:
        from ezdxf.filemanagement import read
        from ezdxf.units import MM
    except ImportError:
        raise NotAvailable(f'version: "{version}" given, allowed "R12" where ezdxf is not installed: pip install dryfit[dxf]') from None
    # Line ends as a file read as text has them: the library keeps a carriage return as a part of each word, and knows no word then.
    drawing = read(io.StringIO(text, newline=None))
    drawing.dxfversion = version
    drawing.units = MM
    drawing.header["$MEASUREMENT"] = 1
    out = io.StringIO()
    # Comments are no part of the drawing; the cautions stay in front of it.
    lines = text.split("\r\n")
    comments = [f"999\n{line}\n" for code, line in zip(lines[::2], lines[1::2], strict=False) if code == "999"]
    drawing.write(out)
    return "".join(comments) + out.getvalue()
