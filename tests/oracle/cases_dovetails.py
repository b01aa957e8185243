"""Test input for corner dovetails."""

import random

import dovetails

MM = 1_000_000
INCH = 25_400_000


def corner(width, tail_board, pin_board, count, slope, socket=None, lap=None, gauge=0):
    return {
        "width": width, "tail_board": tail_board, "pin_board": pin_board, "count": count, "slope": list(slope),
        "socket": socket, "lap": lap, "gauge": gauge,
    }


def chosen():
    """Noyes No. 48 as in the published cases, the edges of what is allowed, odd nanometres."""
    plain = (120 * MM, 12 * MM, 12 * MM)
    out = [
        corner(6 * INCH, INCH // 2, INCH // 2, 4, (5, 24), INCH * 3 // 4),
        corner(*plain, 5, (1, 8), 8 * MM), corner(*plain, 5, (1, 6), 12 * MM), corner(*plain, 5, (1, 6)), corner(*plain, 3, (1, 8), 8 * MM),
        corner(*plain, 3, (1, 8), 8 * MM - 1), corner(*plain, 5, (1, 8), 8 * MM, gauge=INCH // 32),
        corner(100 * MM, 9 * MM, INCH * 7 // 8, 3, (1, 8), lap=INCH // 4), corner(*plain, 5, (1, 8), lap=4 * MM, gauge=INCH // 32),
        corner(*plain, 1, (1, 7)), corner(*plain, 2, (1, 1)), corner(*plain, 40, (1, 8), 3 * MM), corner(*plain, 39, (1, 8), 3 * MM + 3),
        corner(*plain, 20, (1, 8)), corner(*plain, 19, (1, 8)), corner(*plain, 5, (1, 8), lap=12 * MM), corner(*plain, 5, (1, 8), lap=12 * MM - 1),
        corner(*plain, 5, (1, 8), gauge=INCH // 32 + 1), corner(*plain, 0, (1, 8)), corner(*plain, 5, (0, 8)),
        corner(2 * (INCH * 7 // 4 + 20 * MM), 12 * MM, 12 * MM, 2, (1, 8), 20 * MM),
        corner(2 * (INCH * 7 // 4 + 20 * MM) + 2, 12 * MM, 12 * MM, 2, (1, 8), 20 * MM),
    ]
    # The narrowest and the widest socket, for even and odd leans and widths.
    for width in (119_999_999, 120_000_000):
        for board in (12_000_000, 12_000_004, 12_000_005, 12_000_012):
            lean = dovetails.round_up_half(dovetails.Fraction(board, 8))
            for socket in (2 * lean + 1, 2 * lean + 2, 2 * lean + 3, width // 7 - 2, width // 7 - 1, width // 7):
                out.append(corner(width, 12 * MM, board, 7, (1, 8), socket))
    return out


def drawn(rng, how_many):
    out = []
    for _ in range(how_many):
        width, count = rng.randrange(30 * MM, 600 * MM), rng.randrange(1, 10)
        pin_board = rng.randrange(4 * MM, 25 * MM)
        slope = rng.choice([(1, 8), (1, 6), (5, 24), (1, rng.randrange(3, 15)), (rng.randrange(1, 90), rng.randrange(200, 900))])
        socket = rng.choice([None, max(1, width // count * rng.randrange(5, 95) // 100)])
        lap = rng.choice([None, None, rng.randrange(MM, pin_board)])
        gauge = rng.choice([0, 0, rng.randrange(INCH // 32)])
        out.append(corner(width, rng.randrange(4 * MM, 25 * MM), pin_board, count, slope, socket, lap, gauge))
    return out


def dovetail_cases():
    cases = []
    for case in chosen() + drawn(random.Random(1910), 200):
        try:
            cases.append({**case, **dovetails.make(case)})
        except dovetails.DovetailError:
            cases.append({**case, "error": True})
    return cases
