"""A dovetailed corner set out for saw and chisel: lines for both boards, none of the pin board's to be cut by a machine."""

import dryfit as df

corner = df.dovetail_corner("120 mm", "12 mm", "12 mm", 5, "1:8", socket="8 mm")
assert corner.warnings == []
picture = corner.svg()
