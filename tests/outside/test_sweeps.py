"""The example's sweep, serially, in processes and on a Dask cluster of this machine: the same bytes from each."""

import os
import pickle
import subprocess
import sys
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from functools import partial
from pathlib import Path

import dask
import dryfit as df
import numpy as np
import pytest
from conftest import PATIENCE
from dask.distributed import Client, LocalCluster

EXAMPLES = Path(__file__).resolve().parents[2] / "python" / "examples"
# Workers find it too: they are told this path.
sys.path.insert(0, str(EXAMPLES))
import sweep  # noqa: E402


@pytest.fixture(scope="module")
def rows():
    return sweep.sizes(24)


@pytest.fixture(scope="module")
def serially(rows):
    return sweep.here(rows)


def columns(made):
    return {name: (values.dtype.str, values.shape, values.tobytes()) for name, values in made.columns().items()}


def test_the_sweep_says_something(rows, serially):
    assert serially.shape == (576,) and (serially.code == 0).all()
    assert len(np.unique(serially.cut_length)) > 200 and set(serially.sheets) <= {1, 2, 3}
    # It is not the same from either end of a chunk, so an exchanged chunk would show.
    assert sweep.here(rows[::-1]) != serially


@pytest.mark.parametrize("count", [1, 5, 16])
def test_in_processes(rows, serially, count):
    made = sweep.in_processes(rows, count=count, workers=2)
    assert made == serially and columns(made) == columns(serially) and pickle.dumps(made) == pickle.dumps(serially)


# On a busy machine a worker may be long in coming and in answering; on a small one it has little memory.
PATIENT = {f"distributed.{name}": f"{PATIENCE}s" for name in ("admin.tick.limit", "comm.timeouts.connect", "comm.timeouts.tcp", "scheduler.worker-ttl")}


def test_on_a_dask_cluster(rows, serially):
    with (
        dask.config.set(PATIENT),
        LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, memory_limit=0) as cluster,
        Client(cluster, timeout=PATIENCE) as client,
    ):
        made = sweep.on_dask(rows, client, count=5)
        # By other processes than this one.
        workers = set(client.run(os.getpid).values())
        assert len(workers) == 2 and os.getpid() not in workers
    assert made == serially and columns(made) == columns(serially) and pickle.dumps(made) == pickle.dumps(serially)


class Named:
    """A function of one argument, which is handed on by its name; a lambda would not pickle."""

    def __init__(self, function, name):
        self.function, self.name = function, name

    def __call__(self, value):
        return self.function(**{self.name: value})


def test_the_functions_themselves_travel():
    boxes = partial(df.boxes, stock=df.Stock(thickness=3, sheet=(500, 350)), kerf=0.1, lay_out=False)
    gaps = partial(df.gaps, kerf=0.2, real_kerf=0.23)
    chunks = np.array_split(np.linspace(40, 120, 60).reshape(-1, 3), 4)
    boards = np.array_split(np.linspace(2.5, 3.5, 50), 4)
    with ProcessPoolExecutor(2) as processes, ThreadPoolExecutor(2) as threads:
        for pool in (processes, threads):
            made = pool.map(Named(boxes, "outside"), chunks)
            assert df.Boxes.join(made) == boxes(outside=np.concatenate(chunks))
            assert df.Gaps.join(pool.map(Named(gaps, "thickness"), boards)) == gaps(thickness=np.concatenate(boards))


@pytest.mark.parametrize("where", [[], ["processes"]])
def test_the_example_runs_as_a_script(where):
    ran = subprocess.run([sys.executable, EXAMPLES / "sweep.py", *where], capture_output=True, text=True, timeout=PATIENCE)
    assert ran.returncode == 0 and ran.stderr == ""
    assert ran.stdout.startswith("3600 boxes, 0 of them impossible\nleast board: ")


def test_the_example_is_typed():
    ran = subprocess.run([sys.executable, "-m", "mypy", "--strict", EXAMPLES / "sweep.py"], capture_output=True, text=True)
    assert ran.returncode == 0, ran.stdout
