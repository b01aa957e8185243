"""A desk rack: shelves tabbed through the sides, and a divider halved into both of them."""

import dryfit as df

rack = df.Assembly(stock=df.Stock(thickness=3, sheet=(500, 350), border=8))
rack.add("left", normal="x", at=(0, 0, 0), size=(120, 160))
rack.add("right", normal="x", at=(237, 0, 0), size=(120, 160))
rack.add("low", normal="z", at=(0, 0, 20), size=(240, 120))
rack.add("high", normal="z", at=(0, 0, 110), size=(240, 120))
rack.add("divider", normal="x", at=(150, 0, 0), size=(100, 150))
for shelf in ("low", "high"):
    for side in ("left", "right"):
        rack.joint(shelf, side, df.Tabs(width=20, spacing=25))
    rack.joint("divider", shelf, df.Halves(split="1/2"))
assert rack.dry_fit().ok
picture = rack.picture(explode=50)
