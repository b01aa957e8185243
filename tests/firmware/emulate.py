"""Runs an image in the emulator, or the host's: bytes in, bytes out."""

import subprocess

# Seconds. However slow or busy the machine, only what hangs takes so long.
PATIENCE = 1200


def emulated(board, image, requests):
    """What the board answers. It ends by itself, at the request `bye`."""
    return answers([*board.emulator, "-kernel", image], requests)


def answers(command, requests):
    done = subprocess.run([str(part) for part in command], input=requests, capture_output=True, timeout=PATIENCE)
    assert done.returncode == 0, (done.returncode, done.stdout[-400:], done.stderr[-2000:])
    return done.stdout
