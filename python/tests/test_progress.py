"""Long calls show a bar where somebody looks, are silent where nobody does, and stop on Ctrl-C."""

import fcntl
import os
import pty
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import dryfit as df
import numpy as np
import pytest
from conftest import PATIENCE
from dryfit import _progress

# An hour's work each, or a quarter of one on a quick machine: what ends within minutes was stopped.
LONG = {
    "boxes": "df.boxes(stock=stock, outside=np.full((400_000, 3), 90.0), kerf=0.1, dividers=(4, 4))",
    "lay out": "df.Parts.rectangles([(60 + k % 7, 40 + k % 11) for k in range(300)]).lay_out(stock, seconds=3600)",
}
HEAD = "import dryfit as df, numpy as np\nstock = df.Stock(thickness=3, sheet=(600, 400), border=8)\nprint('ready', flush=True)\n"


@contextmanager
def running(code: str, **given: Any) -> "Iterator[subprocess.Popen[bytes]]":
    """A process that is about to do this, its libraries loaded; that is gone afterwards, however the test ends."""
    with subprocess.Popen([sys.executable, "-c", HEAD + code], stdout=subprocess.PIPE, **given) as process:
        try:
            assert process.stdout is not None and process.stdout.readline() == b"ready\n"
            yield process
        finally:
            process.kill()


def read(terminal: int, *wanted: str) -> str:
    """What is written to a terminal until all that is wanted stands there, or until nobody writes any more."""
    said, until = "", time.monotonic() + PATIENCE
    os.set_blocking(terminal, False)
    while time.monotonic() < until and not (wanted and all(word in said for word in wanted)):
        try:
            said += os.read(terminal, 65536).decode(errors="replace")
        except BlockingIOError:
            time.sleep(0.05)
        except OSError:
            break
    return said


def stop(process: "subprocess.Popen[bytes]") -> None:
    """As Ctrl-C does."""
    process.send_signal(signal.SIGINT)
    process.wait(timeout=PATIENCE)


@pytest.mark.parametrize("what", LONG)
def test_a_terminal_sees_a_bar_after_a_second_and_ctrl_c_stops(what: str) -> None:
    pytest.importorskip("tqdm")
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    with running(LONG[what], stderr=theirs) as process:
        os.close(theirs)
        said = read(ours, f"{what}:", "%|")
        assert f"{what}:" in said and "%|" in said
        stop(process)
        assert "KeyboardInterrupt" in said + read(ours)
        assert process.returncode in (1, -signal.SIGINT, 130)
    os.close(ours)


@pytest.mark.parametrize("what", LONG)
def test_pipes_see_nothing(what: str) -> None:
    with running(LONG[what], stderr=subprocess.PIPE) as process:
        # A terminal would have seen a bar after one.
        time.sleep(3)
        assert process.poll() is None
        stop(process)
        assert process.stderr is not None and process.stdout is not None
        said = process.stderr.read().decode()
        assert said.startswith("Traceback") and said.rstrip().endswith("KeyboardInterrupt") and "%|" not in said
        assert process.stdout.read() == b""


def test_who_asks_for_a_bar_gets_one(capsys: pytest.CaptureFixture[str]) -> None:
    pytest.importorskip("tqdm")
    stock = df.Stock(thickness=3, sheet=(600, 400))
    df.Parts.rectangles([(60, 40)] * 200).lay_out(stock, seconds=0.3, progress=True)
    assert "lay out: 100%|" in capsys.readouterr().err
    df.Parts.rectangles([(60, 40)] * 200).lay_out(stock, seconds=0.3, progress=False)
    assert capsys.readouterr().err == ""


def test_without_tqdm_it_is_told_where_a_bar_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "tqdm.auto", None)
    monkeypatch.setattr(_progress, "watched", lambda: True)
    with pytest.raises(df.NotAvailable, match=r'pip install "dryfit\[progress\]"'):
        _progress.bar("boxes", True)
    silent = _progress.bar("boxes", False)
    silent(0.5)
    silent.close(True)


def test_functions_hear_of_it_and_may_stop_it() -> None:
    stock, sizes = df.Stock(thickness=3, sheet=(600, 400)), np.full((500_000, 3), 90.0)
    heard: list[float] = []
    at: list[float] = []

    def hear(done: float) -> bool:
        heard.append(done)
        at.append(time.thread_time())
        return len(heard) < 4

    with pytest.raises(KeyboardInterrupt):
        df.boxes(stock=stock, outside=sizes, dividers=(1, 1), progress=hear)
    assert len(heard) == 4 and heard == sorted(heard) and 0 <= heard[0] < heard[-1] < 1
    # Often, by the processor's time: whoever presses Ctrl-C does not wait.
    assert max(np.diff(at)) < 1, at
    heard.clear()
    at.clear()
    many = df.Parts.rectangles([(60 + k % 7, 40 + k % 11) for k in range(300)])
    assert len(many.lay_out(stock, seconds=3600, progress=hear).sheets) > 1
    assert len(heard) == 4 and max(np.diff(at)) < 1, at

    def fail(done: float) -> None:
        raise ArithmeticError(done)

    with pytest.raises(ArithmeticError):
        df.boxes(stock=stock, outside=sizes, dividers=(1, 1), progress=fail)


def test_a_worker_process_has_no_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    import multiprocessing.process

    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    assert _progress.watched()
    monkeypatch.setattr(multiprocessing.process, "parent_process", lambda: object())
    assert not _progress.watched()
