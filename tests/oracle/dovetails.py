"""The corner dovetail set out by hand, as Noyes has it: half a socket at either edge, sockets of greatest width g at the baseline.

A case is a dict, as it stands in the vector file: width, tail_board, pin_board, count, slope [rise, run], socket (null: as wide as a tail),
lap (null: through) and gauge.
"""

from fractions import Fraction

from rounding import round_up_half

QUARTER_INCH = 6_350_000


class DovetailError(ValueError):
    pass


def make(case):
    """Lengths, stations along x, and warnings; or DovetailError."""
    width, count, gauge, lap = case["width"], case["count"], case["gauge"], case["lap"]
    slope = Fraction(*case["slope"])
    if count < 1 or slope == 0 or not 0 <= gauge <= 793_750:
        raise DovetailError("count, slope or gauge")
    if lap is not None and not 0 < lap < case["pin_board"]:
        raise DovetailError("the lap leaves no tail")
    tail_length = case["pin_board"] + gauge if lap is None else case["pin_board"] - lap
    socket_depth = case["pin_board"] - (lap or 0)
    socket = case["socket"]
    if socket is None:
        socket = round_up_half(Fraction(width, 2 * count))

    def lean(length):
        return round_up_half(length * slope)

    if socket < 2 * lean(tail_length) + 2:
        raise DovetailError("tails meet at their ends")
    if socket > width // count - 1:
        raise DovetailError("no tail is left")

    pitch = Fraction(width, count)
    base = []
    for k in range(count):
        base.append(round_up_half(k * pitch + Fraction(socket, 2)))
        base.append(round_up_half((k + 1) * pitch - Fraction(socket, 2)))

    def further_out(length):
        return [x - lean(length) if i % 2 == 0 else x + lean(length) for i, x in enumerate(base)]

    narrow = socket - 2 * lean(tail_length)
    advised = []
    if slope > Fraction(1, 6):
        advised.append("steep")
    if slope < Fraction(1, 8):
        advised.append("flat")
    tail = pitch - socket
    if tail > 4 * socket:
        advised.append("four sockets")
    if tail > Fraction(7, 4) * 25_400_000:
        advised.append("wide")
    if narrow < Fraction(25_400_000, 16):
        advised.append("narrow pin")
    return {
        "tail_length": tail_length,
        "pin_length": case["tail_board"] + gauge,
        "socket_depth": socket_depth,
        "base": base,
        "end": further_out(tail_length),
        "outer": further_out(socket_depth),
        "warnings": advised,
    }
