"""Runs an image in the emulator, or the host's: bytes in, bytes out."""

import subprocess


def emulated(board, image, requests, seconds=240):
    """What the board answers. It ends by itself, at the request `bye`."""
    return answers([*board.emulator, "-kernel", image], requests, seconds)


def answers(command, requests, seconds=60):
    done = subprocess.run([str(part) for part in command], input=requests, capture_output=True, timeout=seconds)
    assert done.returncode == 0, (done.returncode, done.stdout[-400:], done.stderr[-2000:])
    return done.stdout
