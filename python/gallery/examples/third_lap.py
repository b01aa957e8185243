"""A trivet of three boards that cross at one line: each keeps a third of it."""

import dryfit as df

trivet = df.Assembly(stock=df.Stock(thickness=3, sheet=(500, 350), border=8))
for name, turn in (("low", 0), ("middle", 60), ("high", 120)):
    trivet.add(name, normal="y", at=(0, 88.5, 0), size=(180, 45), turn=turn)
trivet.lap(["low", "middle", "high"])
assert trivet.dry_fit().ok
picture = trivet.picture(explode=30)
