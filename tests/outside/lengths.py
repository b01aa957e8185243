"""Exact ways into and out of the package: whole nanometres as text with a unit."""


def text(nm):
    """A length of whole nanometres as text."""
    sign, nm = ("-", -nm) if nm < 0 else ("", nm)
    return f"{sign}{nm // 1_000_000}.{nm % 1_000_000:06d} mm"


def texts(values):
    return tuple(text(value) for value in values)


def nm(mm):
    """A double of millimetres as the nanometres it stands for: 10 m have 34 bits, a double has 53."""
    return round(mm * 1_000_000)
