"""Two boards side by side, held by keys let into both: two tails back to back."""

import dryfit as df

shelf = df.Assembly(stock=df.Stock(thickness=6, sheet=(500, 350), border=8))
shelf.add("left", normal="z", at=(0, 0, 0), size=(110, 160))
shelf.add("right", normal="z", at=(110, 0, 0), size=(110, 160))
for name, at in (("key-1", 40), ("key-2", 120)):
    shelf.key(name, between=("left", "right"), length=56, width=26, at=at, slope=5)
assert shelf.dry_fit().ok
picture = shelf.picture(explode=30)
