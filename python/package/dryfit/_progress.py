"""A bar for calls that take over a second: by tqdm, where that is installed and somebody looks."""

import importlib
import sys
import warnings
from typing import Any

from dryfit._dryfit import NotAvailable
from dryfit._refused import refused

STEPS = 1000
LOOKS = "{desc}: {percentage:3.0f}%|{bar}| {elapsed}<{remaining}"


class Bar:
    """A share of the whole, 0 to 1, as a bar; without a bar it does nothing."""

    def __init__(self, bar: Any) -> None:
        self._bar = bar

    def __call__(self, done: float) -> None:
        if self._bar is not None:
            # A search may find that less is done than it thought.
            self._bar.update(max(0, round(done * STEPS) - self._bar.n))

    def close(self, whole: bool) -> None:
        """Leaves the bar as it is, or full where all has been done."""
        if self._bar is not None:
            if whole:
                self(1.0)
            self._bar.close()


def watched() -> bool:
    """Whether somebody looks: at a terminal or a notebook, and not at one of many processes that one call has started."""
    workers = sys.modules.get("multiprocessing.process")
    if workers is not None and workers.parent_process() is not None:
        return False
    shell = sys.modules.get("IPython")
    kernel = getattr(shell.get_ipython(), "kernel", None) if shell is not None else None
    return kernel is not None or (sys.stderr is not None and sys.stderr.isatty())


def bar(what: str, asked: bool) -> Bar:
    """A bar that shows itself where somebody looks, or wherever it is asked for; that raises NotAvailable where tqdm is not installed."""
    if not asked and not watched():
        return Bar(None)
    try:
        with warnings.catch_warnings():
            # Of notebooks without widgets, where a bar of letters does.
            warnings.simplefilter("ignore")
            # It has no types of its own.
            tqdm = importlib.import_module("tqdm.auto").tqdm
            return Bar(tqdm(total=STEPS, desc=what, bar_format=LOOKS, file=sys.stderr))
    except ImportError:
        if asked:
            raise refused(NotAvailable, "progress", 'True given, allowed None or False where tqdm is not installed: pip install "dryfit[progress]"') from None
        return Bar(None)
