"""A board longer than the sheet: two pieces that hold each other by tails, put together across the sheet."""

import dryfit as df

stock = df.Stock(thickness=3, sheet=(500, 350), border=8)
board = df.splice(length=840, width=110, stock=stock, joint=df.Tails(count=3, slope=6))
assert board.dry_fit().ok
assert {step.direction[1] for step in board.order()} == {"z"}
picture = board.picture(explode=40)
