"""The front of a box of 110 x 85 x 60 mm in board of 3 mm, as an SVG file on standard output: what panel.c beside this folder writes.

    python3 panel.py PREFIX > front.svg      # where ffi/install put the library
"""

import ctypes
import sys

from dryfit_c import Library, Refused


def main(prefix: str) -> int:
    c = Library(prefix)
    mm = c.DRYFIT_MM
    box = c.dryfit_flat_box(outside=(110 * mm, 85 * mm, 60 * mm), thickness=3 * mm, kerf=mm // 5)
    box.at.x = box.at.y = 5 * mm
    # The library's own: it lies in our memory, and holds the callback until the file is ended.
    file = c.dryfit_file()
    here = ctypes.byref(file)
    # A function of the library as a callback of the library.
    cut = ctypes.cast(c.dryfit_svg_cut, c.dryfit_each_move)

    def write(address: int, size: int) -> None:
        sys.stdout.write(ctypes.string_at(address, size).decode())

    try:
        with c.callback("dryfit_write", write) as written:
            c.call("dryfit_svg_begin", here, 120 * mm, 70 * mm, b"Front", 5, None, 0, written, None)
            c.call("dryfit_svg_line", here, c.DRYFIT_LINE_CUT_OUTER, 1)
            c.call("dryfit_panel_moves", ctypes.byref(box), c.DRYFIT_FACE_FRONT, cut, here)
            c.call("dryfit_svg_end", here)
    except (OSError, Refused) as error:
        print(error, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
