"""One table of a job file: known keys only, and every refusal names the key's path."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from dryfit import _words
from dryfit._dryfit import DryfitError, MissingKey, OutOfRange, Stock, UnknownKey, WrongType

LENGTH = "a length in mm or a string with a unit"

Stocks = dict[str, Stock]
"""The kinds of board by name."""


class Table:
    """The values of a table that stands at a path of the file; refuses keys that are not known."""

    def __init__(self, values: object, path: str, known: Sequence[str]) -> None:
        if not isinstance(values, dict):
            raise WrongType(f"{path}: {_words.shown(values)} given, allowed a table with {_words.listed(known)}")
        for key in values:
            if key not in known:
                where, near = _words.path(path, key), _words.nearest(key, known)
                raise UnknownKey(f"{where}: unknown key, allowed {_words.listed(known)}{near}")
        self.values: dict[str, Any] = values
        self.path = path

    def __contains__(self, key: str) -> bool:
        return key in self.values

    def at(self, key: str) -> str:
        """The path of one of its keys."""
        return _words.path(self.path, key)

    def need(self, key: str, what: str) -> Any:
        """The value of a key that may not be missing."""
        if key not in self.values:
            raise MissingKey(f"{self.at(key)}: missing, allowed {what}")
        return self.values[key]

    def text(self, key: str, what: str = "a string") -> str:
        """A string that may not be missing."""
        value = self.need(key, what)
        if not isinstance(value, str):
            raise WrongType(f"{self.at(key)}: {_words.shown(value)} given, allowed {what}")
        return value

    def rows(self, key: str, what: str) -> list[tuple[str, Any]]:
        """The elements of a list with their paths; nothing if the key is missing."""
        value = self.values.get(key, [])
        if not isinstance(value, list):
            raise WrongType(f"{self.at(key)}: {_words.shown(value)} given, allowed {what}")
        return [(f"{self.at(key)}[{index}]", element) for index, element in enumerate(value)]

    def whole(self, key: str, least: int, most: int, default: int) -> int:
        """A whole number within a range."""
        value = self.values.get(key, default)
        if isinstance(value, bool) or not isinstance(value, int):
            raise WrongType(f"{self.at(key)}: {_words.shown(value)} given, allowed a whole number from {least} to {most}")
        if not least <= value <= most:
            raise OutOfRange(f"{self.at(key)}: {value} given, allowed {least} to {most}")
        return value

    def only(self, *keys: str) -> dict[str, Any]:
        """Those of the keys that are there, as they go to a function of the package."""
        return {key: self.values[key] for key in keys if key in self.values}


@contextmanager
def here(path: str) -> Iterator[None]:
    """Puts the path of a table before what the package refuses; its parameters are named like the keys."""
    try:
        yield
    except DryfitError as error:
        dot = ": " if error.place or not error.parameter else "."
        raise type(error)(f"{path}{dot}{error}") from None


def stock(table: Table, stocks: Stocks) -> Stock:
    """The kind of board that a table names. It need not where there is one thickness only: that of the board is what counts."""
    if "stock" not in table and len({stock.thickness for stock in stocks.values()}) == 1:
        return next(iter(stocks.values()))
    known = _words.listed(stocks)
    name = table.text("stock", f"one of {known}")
    if name not in stocks:
        raise UnknownKey(f"{table.at('stock')}: {_words.shown(name)} given, allowed {known}{_words.nearest(name, stocks)}")
    return stocks[name]
