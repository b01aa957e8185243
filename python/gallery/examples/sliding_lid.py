"""A pencil box: the lid slides in over the front, between runners below and kickers above it."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(500, 350), border=8)
pencils = df.box(inside=(64, 190, 34), stock=stock, top="sliding")
assert pencils.dry_fit().ok
picture = pencils.picture(explode=45)
