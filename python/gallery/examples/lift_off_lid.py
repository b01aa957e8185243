"""A chest on feet with a captive shelf, and a lid that lifts off: two battens under it keep it in its place."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(500, 350), border=8)
chest = df.box(inside=(160, 110, 80), stock=stock, top="lift-off", shelves=[38], feet=14)
assert chest.dry_fit().ok
assert chest.order()[-1].panel == "lid"
picture = chest.picture(explode=60)
