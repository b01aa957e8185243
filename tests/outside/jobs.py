"""What is cut in the tests of files: straight and slanted edges, arcs, holes, boards that lie mirrored, and names of all sorts."""

import dryfit as df

STOCK = df.Stock(thickness=3, sheet=(420, 300), border=8, gap=4)
# Whatever a file's format gives a meaning to, and letters that some have no place for.
NAMES = ["]]>", "<b>&amp;\"'</b>", "two\nlines\r\n\tand a tab", "100 % %%c %%d %", "(a (b) ) c", "M3 S1000 G1 X999;", "żółć ☂ 𝄞", "\\U+0041 ^J {\\H5;x}", "-->", "0\nEOF\n999", "MSG, go", '";PD0,0;', "a" * 300]


def plates():
    """Two boards: holes round and with round ends, and a shelf between."""
    piece = df.Assembly(stock=STOCK)
    piece.add("left", normal="x", at=(0, 0, 0), size=(90, 70))
    piece.add("shelf", normal="z", at=(0, 0, 30), size=(80, 90))
    piece.joint("shelf", "left", df.Tabs(width=12, spacing=20))
    piece.hole("left", at=(45, 55), diameter=8)
    piece.hole("left", at=(20, 55), size=(14, 4), ends="round")
    return piece


def tails():
    piece = df.Assembly(stock=STOCK)
    piece.add("left", normal="z", at=(0, 0, 0), size=(120, 60))
    piece.add("right", normal="z", at=(110, 0, 0), size=(120, 60))
    piece.joint("left", "right", df.Tails(count=3, slope=8))
    return piece


def box():
    return df.box(outside=(110, 85, 60), stock=STOCK, dividers=(1, 1))


def prism():
    return df.prism(sides=6, height=60, stock=STOCK, across_flats=90)


def named():
    """Boards of which each has a name that could break a file."""
    piece = df.Assembly(stock=STOCK)
    for number, name in enumerate(NAMES):
        piece.add(name, normal="z", at=(0, 0, 20 * number), size=(60, 40))
    return piece


PIECES = {"plates": plates, "tails": tails, "box": box, "prism": prism}
CUTTERS = {"blade": df.Cutter.blade(kerf=0, trail=0.25), "beam": df.Cutter.beam(kerf=0.2), "bit": df.Cutter.bit(diameter=1)}


def sheets(piece, cutter, **more):
    """The sheets of a piece; a bit's corners are relieved."""
    relief = {"relief": df.Relief(radius=0.6)} if cutter.kind == "bit" else {}
    return piece.cut(cutter=cutter, **relief).lay_out(STOCK, **more).sheets
