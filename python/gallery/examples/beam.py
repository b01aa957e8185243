"""A beam comes to each line from the waste, at corners straight on and on edges round, and leaves bridges that hold the parts."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(100, 64), border=4, gap=3)
frame = df.Assembly(stock=stock)
frame.add("frame", normal="z", at=(0, 0, 0), size=(60, 50))
frame.hole("frame", at=(40, 25), size=(26, 30))
frame.hole("frame", at=(14, 25), diameter=14)
parts = frame.cut(cutter=df.Cutter.beam(kerf=0.2)) + df.Parts.rectangles([(22, 18), (22, 24)], names=["tile", "label"])
sheet = parts.lay_out(stock, turns=False).sheets[0]
picture = sheet.svg(df.Motion(cutter=df.Cutter.beam(kerf=0.2), bridges=2, bridge_width=1, lead=3), title="Bridges and ways in")
