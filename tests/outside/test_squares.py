"""Paces against scipy's least squares with no negative cost (Lawson and Hanson), and their errors against numpy."""

import dryfit as df
import numpy as np
import pytest
from scipy.optimize import nnls
from scipy.stats import t as student

COSTS = ("cut", "parts", "starts", "corners", "travel", "sheets")


def rows(known):
    """Metres and counts, as costs are given."""
    return np.array([[t.cut / 1000, t.parts, t.starts, t.corners, t.travel / 1000, t.sheets] for t, _ in known])


@pytest.mark.parametrize("seed", range(60))
def test_costs_are_those_of_scipy(seed):
    random = np.random.default_rng(seed)
    jobs = int(random.integers(2, 25))
    truth = random.uniform(0, 10, 6) * (random.random(6) < 0.6)
    known = []
    for _ in range(jobs):
        parts = int(random.integers(1, 40))
        tally = df.Tally(
            cut=float(random.uniform(200, 900) * parts),
            parts=parts,
            starts=int(parts * random.integers(1, 5)),
            corners=int(parts * random.integers(4, 60)),
            travel=float(random.uniform(10, 200) * parts),
            sheets=int(random.integers(1, 5)),
        )
        amounts = [tally.cut / 1000, tally.parts, tally.starts, tally.corners / 100, tally.travel / 1000, tally.sheets]
        known.append((tally, float(np.dot(truth, amounts) * random.uniform(0.97, 1.03) + 0.1)))
    pace = df.Pace.from_known(known)
    table, minutes = rows(known), np.array([minutes for _, minutes in known])
    costs = np.array([pace.costs[name] for name in COSTS])
    taken = np.flatnonzero(costs)
    assert 1 <= len(taken) <= (jobs - 1 if jobs > 2 else jobs)
    scale = table.max(axis=0)
    found, rest = nnls((table / scale)[:, taken], minutes)
    assert np.allclose(found / scale[taken], costs[taken], rtol=1e-7)
    residuals = minutes - table @ costs
    assert np.allclose(residuals, pace.residuals, atol=1e-8)
    assert np.linalg.norm(residuals) == pytest.approx(rest, abs=1e-7)
    # No further cost would really have told more, by the test that regressions use.
    free = jobs - len(taken)
    left = max(1, free - 1)
    for more in set(range(6)) - set(taken):
        columns = sorted([*taken, more])
        found, better = nnls((table / scale)[:, columns], minutes)
        count = np.count_nonzero(found)
        if count <= (jobs - 1 if jobs > 2 else jobs) and rest > 1e-6:
            sure = 2 if more == 1 else student.ppf(0.975, left) * 1.01
            assert better**2 * (1 + sure**2 / left) >= rest**2 * (1 - 1e-6)
    if free > 0:
        assert pace.spread == pytest.approx(rest / np.sqrt(free), rel=1e-6, abs=1e-7)
    else:
        assert pace.spread is None


def test_a_real_layout_against_scipy_and_numpy():
    stock = df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)

    def cube(side):
        return df.box(outside=(side, side, side), stock=stock).cut(cutter=df.Cutter.blade(kerf=0)).lay_out(stock)

    known = [(cube(side), 60 + 0.35 * side + (-1) ** side * 0.4) for side in (70, 81, 90, 103, 110, 125)]
    pace = df.Pace.from_known(known)
    table, minutes = rows(pace.known), np.array([minutes for _, minutes in known])
    taken = [index for index, name in enumerate(COSTS) if pace.costs[name] > 0]
    assert taken == [0, 1]
    a = table[:, taken]
    costs, rest = nnls(a, minutes)
    assert np.allclose(costs, [pace.costs[COSTS[index]] for index in taken])
    estimate = cube(97).estimate(pace)
    row = rows([(cube(97).tally(), 0)])[0, taken]
    s = rest / np.sqrt(len(known) - len(taken))
    assert estimate.minutes == pytest.approx(row @ costs)
    assert estimate.spread == pytest.approx(s * np.sqrt(1 + row @ np.linalg.inv(a.T @ a) @ row))
