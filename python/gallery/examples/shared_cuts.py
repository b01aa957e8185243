"""The six panels of a closed cube, interlocked so that seven seams are cut once: they fit one sheet, where two would be needed side by side."""

import dryfit as df

stock = df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)
cube = df.box(outside=(90, 90, 90), stock=stock).cut(cutter=df.Cutter.blade(kerf=0))
assert len(cube.lay_out(stock).sheets) == 2
layout = cube.lay_out(stock, share_cuts=True)
assert len(layout.sheets) == 1 and layout.check().ok
picture = layout.sheets[0].svg(title="Six panels, seven shared seams")
