"""A dovetailed corner set out for saw and chisel: lines for both boards, none of the pin board's to be cut by a machine."""

import dryfit as df

corner = df.dovetail_corner(width="120 mm", tail_board="12 mm", pin_board="12 mm", count=5, slope="1:8", socket="8 mm")
assert corner.warnings == []
picture = corner.svg()
