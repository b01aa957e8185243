"""Refusals of this package's own Python."""

from dryfit._dryfit import DryfitError


def refused(kind: type[DryfitError], parameter: str, said: str) -> DryfitError:
    """An error that says of a parameter what was given and what is allowed, and has its name as those of the core have."""
    error = kind(f"{parameter}: {said}")
    error.parameter = parameter
    return error
