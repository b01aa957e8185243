"""Runs the notebooks and keeps what they show, so that they can be read where nobody runs them.

Usage: execute.py [NOTEBOOK ...]     all of this folder if none is named
"""

import os
import pathlib
import sys
import tempfile

import nbclient
import nbformat

FOLDER = pathlib.Path(__file__).resolve().parent
WIDGET = "application/vnd.jupyter.widget-view+json"


def executed(file: pathlib.Path, folder: pathlib.Path | None = None) -> nbformat.NotebookNode:
    """The notebook with what its cells show today. It runs in ``folder``, or in one that is gone afterwards."""
    book = nbformat.read(file, as_version=4)
    # Plots go into the notebook, wherever else they may go on this machine.
    env = {name: value for name, value in os.environ.items() if name != "MPLBACKEND"}
    with tempfile.TemporaryDirectory() as gone:
        nbclient.NotebookClient(book, timeout=3000, startup_timeout=3000, kernel_name="python3", resources={"metadata": {"path": str(folder or gone)}}).execute(env=env)
    # What depends on the machine, on the hour and on chance says nothing.
    book.metadata = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}, "language_info": {"name": "python"}}
    for cell in book.cells:
        cell.metadata = {}
        for output in cell.get("outputs", ()):
            output.pop("metadata", None)
            if output.output_type in ("display_data", "execute_result"):
                output.metadata = {}
                output.data = kept(output.data)
    return book


def kept(data: dict[str, str]) -> dict[str, str]:
    """Of several ways to show a value the best that needs no running program."""
    if WIDGET in data:
        return {"text/html": data["text/html"], "text/plain": "sliders, where the notebook runs"}
    if "text/html" in data:
        return {"text/html": data["text/html"], "text/plain": data["text/plain"]}
    return data


def main() -> None:
    files = [pathlib.Path(name).resolve() for name in sys.argv[1:]] or sorted(FOLDER.glob("*.ipynb"))
    for file in files:
        nbformat.write(executed(file), file)
        print(file.name)


if __name__ == "__main__":
    main()
