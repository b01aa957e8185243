"""A pot with eight sides. A straight-down cut cannot fill its corners: the dry fit states the wedges that stay open."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(500, 350), border=8)
pot = df.prism(sides=8, across_flats=150, height=60, stock=stock)
report = pot.dry_fit()
assert report.ok
assert report.void_volume > 0
picture = pot.picture(explode=35)
