"""Other packages, looked for only when something needs them."""

from importlib import import_module
from typing import Any

from dryfit._dryfit import NotAvailable


def need(module: str, extra: str) -> Any:
    """The module. Raises NotAvailable with the command that installs it where it is missing."""
    try:
        return import_module(module)
    except ImportError:
        missing = module.partition(".")[0]
        raise NotAvailable(f'{missing}: not installed, and needed for this: pip install "dryfit[{extra}]"') from None
