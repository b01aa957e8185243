"""The walk-through: its commands are run, its program is the file beside it, and it says what is printed there."""

import os
import re
import subprocess

from build import HERE, ROOT
from emulate import PATIENCE
from service import Service

TEXT = (HERE / "README.md").read_text(encoding="utf-8")


# Every block: its kind, and what stands in it.
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", TEXT, flags=re.MULTILINE | re.DOTALL)


def blocks(kind):
    return [text for each, text in BLOCKS if each == kind]


def test_the_program_is_the_file():
    assert blocks("c") == [(HERE / "first.c").read_text(encoding="utf-8")]


def test_the_commands_run_and_print_what_it_says():
    commands, (printed, request) = blocks("sh"), blocks("")
    assert len(commands) == 4
    # Built where the walk-through says, whatever is set here.
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("CARGO_TARGET", "RUSTUP_"))}
    for command in commands:
        done = subprocess.run(["bash", "-euc", command], cwd=ROOT, env=environment, capture_output=True, text=True, timeout=PATIENCE)
        assert done.returncode == 0, (command, done.stdout, done.stderr)
    remarks, program = done.stdout.split("\nM5\n", 1)
    assert all(line.startswith("(") for line in remarks.splitlines())
    assert "M5\n" + program == printed


def test_the_request_is_the_same_edge():
    printed, request = blocks("")
    answer, = Service.host().ask([request.strip().encode()])
    at = answer.lines.index("M5")
    # The service's own machine cuts faster and with more power.
    assert "\n".join(answer.lines[at:]).replace("F1200", "F600").replace("S800", "S500") + "\n" == printed and answer.end == "ok"
