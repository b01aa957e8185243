"""The two roundings of the rules, on exact fractions."""

from fractions import Fraction
from math import floor


def round_up_half(x):
    """round(x) = floor(x + 1/2)."""
    return floor(Fraction(x) + Fraction(1, 2))


def half(x):
    """half(x) = floor(x / 2)."""
    return floor(Fraction(x) / 2)


def round_away(x):
    """Nearest integer, halves away from zero. Used only for reading lengths."""
    x = Fraction(x)
    return round_up_half(x) if x >= 0 else -round_up_half(-x)
