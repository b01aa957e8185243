"""The axis of a trailing blade, led so that the tip cuts tails with sharp corners. The trail is larger than any blade's, to be seen."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(100, 64), border=4, gap=8)
board = df.Assembly(stock=stock)
board.add("left", normal="z", at=(0, 0, 0), size=(40, 46))
board.add("right", normal="z", at=(34, 0, 0), size=(40, 46))
board.joint("left", "right", df.Tails(count=2, slope=6))
parts = board.cut(cutter=df.Cutter.blade(kerf=0, trail=1.5))
sheet = parts.lay_out(stock, turns=False).sheets[0]
picture = sheet.svg(df.Motion(overcut=3), title="The way of the axis")
