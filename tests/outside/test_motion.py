"""Minutes by a machine against small steps along the route: at every place the greatest speed that its limits allow, forwards and backwards."""

import dryfit as df
import numpy as np
import pytest

STEPS = 400


def sweep(widths, speeds, acceleration):
    """Seconds for stretches in a row, the speeds between them being the greatest allowed."""
    for order in (range(1, len(speeds)), range(len(speeds) - 2, -1, -1)):
        forward = order.step > 0
        for k in order:
            before, width = (speeds[k - 1], widths[k - 1]) if forward else (speeds[k + 1], widths[k])
            speeds[k] = min(speeds[k], np.sqrt(before * before + 2 * acceleration * width))
    return float(np.sum(2 * widths / (speeds[:-1] + speeds[1:])))


def seconds(points, feed, acceleration, deviation):
    """One line with straight edges, corners rounded off by the circle that touches both edges."""
    ways = np.diff(points, axis=0)
    lengths = np.hypot(*ways.T)
    cosines = np.sum(ways[:-1] * ways[1:], axis=1) / (lengths[:-1] * lengths[1:])
    between = np.pi - np.arccos(np.clip(cosines, -1, 1))
    sines = np.sin(between / 2)
    with np.errstate(divide="ignore"):
        limits = np.sqrt(acceleration * deviation * sines / (1 - sines))
    widths = np.repeat(lengths / STEPS, STEPS)
    speeds = np.full(len(widths) + 1, float(feed))
    corners = slice(STEPS, len(widths), STEPS)
    speeds[corners] = np.minimum(feed, limits)
    speeds[0] = speeds[-1] = 0
    return sweep(widths, speeds, acceleration)


def travelled(distance, speed, acceleration):
    """One straight way, by small steps too."""
    widths = np.full(STEPS * 5, distance / STEPS / 5)
    speeds = np.full(len(widths) + 1, float(speed))
    speeds[0] = speeds[-1] = 0
    return sweep(widths, speeds, acceleration)


@pytest.mark.parametrize(("feed", "acceleration", "deviation", "lift", "passes"), [(20, 500, 0.01, 0.4, 1), (150, 800, 0, 0, 1), (60, 3000, 0.1, 0.1, 3)])
def test_whole_jobs(feed, acceleration, deviation, lift, passes):
    stock = df.Stock(thickness=3, sheet=(400, 300), border=8, gap=2)
    layout = df.box(outside=(120, 90, 60), stock=stock, dividers=(1, 1)).cut(cutter=df.Cutter.blade(kerf=0)).lay_out(stock)
    pace = df.Pace(feed=feed, acceleration=acceleration, travel_speed=3 * feed, deviation=deviation, lift=lift)
    total = 0.0
    for sheet in layout.sheets:
        at = np.zeros(2)
        for cut in sheet.route().cuts:
            distance = float(np.hypot(*(cut.points[0] - at)))
            total += travelled(distance, 3 * feed, acceleration) if distance else 0
            total += passes * (lift + seconds(cut.points, feed, acceleration, deviation))
            at = cut.points[-1]
    assert layout.minutes(pace, passes=passes) == pytest.approx(total / 60, rel=1e-3)
