"""Runs an image in the emulator, or the host's: bytes in, bytes out."""

import subprocess
import tempfile

# Seconds. However slow or busy the machine, only what hangs takes so long.
PATIENCE = 1200


def emulated(board, image, requests):
    """What the board answers. It ends by itself, at the request `bye`."""
    return answers([*board.emulator, "-kernel", image], requests)


def answers(command, requests):
    # Into a file, which is never full: the emulated 16550 gives up bytes that a pipe does not take in time.
    with tempfile.TemporaryFile() as heard:
        done = subprocess.run([str(part) for part in command], input=requests, stdout=heard, stderr=subprocess.PIPE, timeout=PATIENCE)
        heard.seek(0)
        said = heard.read()
    assert done.returncode == 0, (done.returncode, said[-400:], done.stderr[-2000:])
    return said
