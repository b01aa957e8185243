"""A frame out of two stiles and two rails, which stop inside the stiles."""

import dryfit as df

stock = df.Stock(thickness=4, sheet=(500, 350), border=8)
frame = df.ring(outside=(320, 240), width=44, stock=stock, joint=df.Tails(count=1, slope=6))
assert frame.dry_fit().ok
picture = frame.picture(explode=50)
