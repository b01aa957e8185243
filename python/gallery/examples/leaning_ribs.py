"""A rack for plates: ribs that lean by 15 degrees stand in a board, their tabs in slots as wide as their shadow."""

import dryfit as df

rack = df.Assembly(stock=df.Stock(thickness=4, sheet=(500, 350), border=8))
rack.add("base", normal="z", at=(0, 0, 0), size=(240, 120))
for number in (1, 2, 3):
    rack.add(f"rib-{number}", normal="x", at=(60 * number, 10, -2), size=(100, 90), turn=15, about="y")
assert rack.dry_fit().ok
picture = rack.picture(explode=40)
