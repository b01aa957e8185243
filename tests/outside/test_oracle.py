"""The vector files are what the oracle writes."""

import subprocess
import sys
from pathlib import Path

WRITE = Path(__file__).parent.parent / "oracle" / "write.py"


def test_vectors_are_not_stale():
    done = subprocess.run([sys.executable, WRITE, "--check"], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
