"""The C library from Python's own ctypes, with nothing installed but the library.

Every type, number and function is read from the installed dryfit.h: nothing of it is written down here a second time, so nothing can drift.
Names are as in C. `Library.call` makes an exception of a refusal, `Library.all` asks how many results there are and then for them, and
`Library.callback` hands a function of Python to C.
"""

import ctypes
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

PLAIN: dict[str, Any] = {
    "void": None,
    "char": ctypes.c_char,
    "double": ctypes.c_double,
    "size_t": ctypes.c_size_t,
    "int32_t": ctypes.c_int32,
    "uint32_t": ctypes.c_uint32,
    "int64_t": ctypes.c_int64,
    "uint64_t": ctypes.c_uint64,
}


class Refused(ValueError):
    """What the library says no to."""

    def __init__(self, status: int, message: str, parameter: str = "") -> None:
        super().__init__(message)
        self.status, self.parameter = status, parameter


class Library:
    """The library below a prefix, as ffi/install puts it there."""

    def __init__(self, prefix: str | Path = "/usr/local") -> None:
        self._names: dict[str, Any] = dict(PLAIN)
        self._library = ctypes.CDLL(str(Path(prefix, "lib", "libdryfit.so.0")))
        self._read(Path(prefix, "include", "dryfit.h").read_text(encoding="utf-8"))
        if self.dryfit_abi_version() != self.DRYFIT_ABI_VERSION:
            raise ImportError(f"dryfit.h is of ABI {self.DRYFIT_ABI_VERSION}, the library of {self.dryfit_abi_version()}")

    def __getattr__(self, name: str) -> Any:
        try:
            return self.__dict__["_names"][name]
        except KeyError:
            raise AttributeError(f"dryfit.h has no {name}") from None

    def call(self, function: str, *arguments: Any) -> None:
        """Calls a function whose last argument is the error, which is left to this."""
        error = self.dryfit_error()
        status = getattr(self, function)(*arguments, ctypes.byref(error))
        if status:
            raise self._refusal(status, error)

    def all(self, function: str, of: Any, *arguments: Any) -> list[Any]:
        """All results of a function that ends with (out, cap, needed, error)."""
        needed = ctypes.c_size_t()
        self.call(function, *arguments, None, 0, ctypes.byref(needed))
        out = (of * needed.value)()
        self.call(function, *arguments, out, len(out), ctypes.byref(needed))
        return list(out)

    @contextmanager
    def callback(self, kind: str, work: Callable[..., None]) -> Iterator[Any]:
        """A function of Python as one of C, for as long as the block lasts. ctypes would print an exception and go on: here it stops C's work and is raised behind it."""
        raised: list[BaseException] = []

        def guarded(_user: int | None, *arguments: Any) -> int:
            try:
                work(*arguments)
                return 0
            except BaseException as exception:
                raised.append(exception)
                return -1

        try:
            yield self._names[kind](guarded)
        except Refused as refusal:
            raise (raised[0] if raised else refusal) from None

    def _refusal(self, status: int, error: Any) -> Refused:
        needed = ctypes.c_size_t()
        self.dryfit_error_message(ctypes.byref(error), None, 0, ctypes.byref(needed))
        words = ctypes.create_string_buffer(needed.value)
        self.dryfit_error_message(ctypes.byref(error), words, len(words), ctypes.byref(needed))
        return Refused(status, words.value.decode(), error.parameter.decode())

    def _read(self, header: str) -> None:
        header = re.sub(r"/\*.*?\*/|//[^\n]*", "", header, flags=re.DOTALL)
        for name, value in re.findall(r'^#define (DRYFIT_\w+) (?:INT64_C\()?(-?\d+|".*?")\)?\s*$', header, re.MULTILINE):
            self._names[name] = value[1:-1] if value.startswith('"') else int(value)
        header = re.sub(r"^\s*#.*$|\bDRYFIT_API\b|\bconst\b|extern \"C\" \{", "", header, flags=re.MULTILINE)
        declaration = re.compile(
            r"typedef struct (?P<opaque>\w+) \w+;"
            r"|typedef struct (?P<struct>\w+) \{(?P<fields>[^}]*)\} \w+;"
            r"|typedef (?P<result>\w+) \(\*(?P<callback>\w+)\)\((?P<takes>[^)]*)\);"
            r"|typedef (?P<known>\w+) (?P<alias>\w+);"
            r"|(?P<gives>\w+ \**)(?P<function>dryfit_\w+)\((?P<given>[^)]*)\);"
        )
        for found in declaration.finditer(" ".join(header.split())):
            if name := found["opaque"]:
                self._names[name] = type(name, (ctypes.Structure,), {})
            elif name := found["struct"]:
                fields = [self._field(field) for field in found["fields"].split(";") if field.strip()]
                # Without room for other names, so that a field that there is not is refused.
                self._names[name] = type(name, (ctypes.Structure,), {"__slots__": (), "_fields_": fields})
            elif name := found["callback"]:
                # Bytes come with a length and no zero at their end, so they must not be made a text on the way.
                takes = [ctypes.c_void_p if kind is ctypes.c_char_p else kind for kind in self._parameters(found["takes"])]
                self._names[name] = ctypes.CFUNCTYPE(self._names[found["result"]], *takes)
            elif name := found["alias"]:
                self._names[name] = self._names[found["known"]]
            else:
                function = self._library[found["function"]]
                function.restype, function.argtypes = self._type(found["gives"]), self._parameters(found["given"])
                self._names[found["function"]] = function

    def _type(self, words: str) -> Any:
        kind, stars = re.fullmatch(r"\s*(?:struct )?(\w+) ?(\**)\s*", words).groups()
        if stars:
            pointed = {"void": ctypes.c_void_p, "char": ctypes.c_char_p}
            first = pointed[kind] if kind in pointed else ctypes.POINTER(self._names[kind])
            return first if stars == "*" else ctypes.POINTER(first)
        return self._names[kind]

    def _field(self, words: str) -> tuple[str, Any]:
        kind, name, sizes = re.fullmatch(r"(.*?)(\w+)((?:\[\w+\])*)", words.strip()).groups()
        made = self._type(kind)
        for size in reversed(re.findall(r"\w+", sizes)):
            made = made * (int(size) if size.isdigit() else self._names[size])
        return name, made

    def _parameters(self, words: str) -> list[Any]:
        return [] if words.strip() == "void" else [self._field(word)[1] for word in words.split(",")]
