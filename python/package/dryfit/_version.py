"""The version of the Python files; the compiled part must have the same."""

__version__ = "0.1.0"
