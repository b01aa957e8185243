"""The side of a box in ply, relieved in every inner corner for a round bit of 3 mm."""

import dryfit as df

box = df.box(outside=(160, 110, 70), stock=df.Stock(thickness=6, sheet=(600, 400), border=10))
bit = df.Cutter.bit(diameter=3)
assert not box.cut(cutter=bit).dry_fit().ok
parts = box.cut(cutter=bit, relief=df.Relief(radius=1.5))
assert parts.dry_fit().ok
picture = parts["front"]._repr_svg_()
