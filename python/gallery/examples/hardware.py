"""A crate that is screwed together: cross slots for captive nuts, clearance holes, hand holes and a pattern of holes to let air in."""

import dryfit as df

crate = df.box(outside=(240, 170, 110), stock=df.Stock(thickness=6, sheet=(600, 400), border=10), top="open")
for wall in ("left", "right"):
    for edge in ("front", "back"):
        crate.bolt(edge, wall, thread="M4", length=25, at=45)
    crate.hole(wall, at=(85, 80), size=(70, 24))
crate.hole("front", at=(48, 40), diameter=8, count=(13, 3), spacing=(12, 14))
assert crate.dry_fit().ok
picture = crate.picture(explode=60)
