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
from typing import Any

import dryfit as df
import numpy as np
import pytest
from dryfit import _progress

# Far more than a second's work each.
LONG = {
    "boxes": "df.boxes(stock=stock, outside=np.full((100_000, 3), 90.0), kerf=0.1, dividers=(1, 1))",
    "lay out": "df.Parts.rectangles([(60 + k % 7, 40 + k % 11) for k in range(300)]).lay_out(stock, seconds=60)",
}
HEAD = "import dryfit as df, numpy as np\nstock = df.Stock(thickness=3, sheet=(600, 400), border=8)\n"


def run(code: str, **given: Any) -> "subprocess.Popen[bytes]":
    return subprocess.Popen([sys.executable, "-c", HEAD + code], stdout=subprocess.PIPE, **given)


def read(terminal: int, until: float) -> str:
    """What was written to a terminal."""
    said = b""
    os.set_blocking(terminal, False)
    while time.monotonic() < until:
        try:
            said += os.read(terminal, 65536)
        except BlockingIOError:
            time.sleep(0.05)
        except OSError:
            break
    return said.decode()


def stop(process: "subprocess.Popen[bytes]") -> float:
    """How long it goes on after Ctrl-C."""
    began = time.monotonic()
    process.send_signal(signal.SIGINT)
    process.wait(timeout=20)
    return time.monotonic() - began


@pytest.mark.parametrize("what", LONG)
def test_a_terminal_sees_a_bar_after_a_second_and_ctrl_c_stops(what: str) -> None:
    pytest.importorskip("tqdm")
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    with run(LONG[what], stderr=theirs) as process:
        os.close(theirs)
        # The interpreter and its libraries take their time to start, on a busy machine too.
        said = ""
        until = time.monotonic() + 20
        while f"{what}:" not in said and time.monotonic() < until:
            said += read(ours, time.monotonic() + 0.2)
        assert f"{what}:" in said and "%|" in said
        assert stop(process) < 5
        assert "KeyboardInterrupt" in said + read(ours, time.monotonic() + 2)
        assert process.returncode in (1, -signal.SIGINT, 130)
    os.close(ours)


@pytest.mark.parametrize("what", LONG)
def test_pipes_see_nothing(what: str) -> None:
    with run(LONG[what], stderr=subprocess.PIPE) as process:
        time.sleep(3)
        assert process.poll() is None
        assert stop(process) < 5
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

    def hear(done: float) -> bool:
        heard.append(done)
        return len(heard) < 4

    with pytest.raises(KeyboardInterrupt):
        df.boxes(stock=stock, outside=sizes, dividers=(1, 1), progress=hear)
    assert len(heard) == 4 and heard == sorted(heard) and 0 <= heard[0] < heard[-1] < 1

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
