"""What the tip of a trailing blade does while its axis is moved: a tractrix. It knows nothing of how the axis' way was found.

The tip is the rear wheel of a bicycle and the axis its front wheel (Dunbar, Bosman, Nooij, "The Track of a Bicycle Back Tire"; Madsen, Markvorsen, arXiv 1707.09532).
"""

import math

import numpy as np


def straight(theta, start, end, trail):
    """The blade's direction after a straight way, in closed form: tan of half its angle to the way falls by e^(-s/trail)."""
    way = math.atan2(end[1] - start[1], end[0] - start[0])
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    off = (theta - way + math.pi) % (2 * math.pi) - math.pi
    return way + 2 * math.atan(math.tan(off / 2) * math.exp(-length / trail))


def runge_kutta(theta, place, trail, steps):
    """The blade's direction all along a way that is given as a function of 0 to 1 and its derivative: ``θ' = (-sin θ X' + cos θ Y') / trail``."""
    _, speed = place
    turn = lambda t, angle: (-math.sin(angle) * speed(t)[0] + math.cos(angle) * speed(t)[1]) / trail  # noqa: E731
    width, thetas = 1 / steps, []
    for k in range(steps):
        t = k * width
        k1 = turn(t, theta)
        k2 = turn(t + width / 2, theta + width / 2 * k1)
        k3 = turn(t + width / 2, theta + width / 2 * k2)
        k4 = turn(t + width, theta + width * k3)
        theta += width / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        thetas.append(theta)
    return thetas


def arc(centre, start, sweep):
    """Place and speed along an arc."""
    (cx, cy), radius = centre, math.hypot(start[0] - centre[0], start[1] - centre[1])
    first = math.atan2(start[1] - cy, start[0] - cx)
    angle = lambda t: first + sweep * t  # noqa: E731
    return (
        lambda t: (cx + radius * math.cos(angle(t)), cy + radius * math.sin(angle(t))),
        lambda t: (-radius * sweep * math.sin(angle(t)), radius * sweep * math.cos(angle(t))),
    )


def track(motions, trail, theta, step=0.01):
    """Where the tip is all along motions of the axis, and which way the blade points in the end. Steps are no longer than ``step`` mm."""
    tips = []
    for motion in motions:
        (x0, y0), (x1, y1) = motion.start[:2], motion.end[:2]
        if not tips:
            tips.append((x0 - trail * math.cos(theta), y0 - trail * math.sin(theta)))
        if motion.centre is None:
            count = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / step))
            ends = np.linspace((x0, y0), (x1, y1), count + 1)
            for a, b in zip(ends[:-1], ends[1:], strict=True):
                theta = straight(theta, a, b, trail)
                tips.append((b[0] - trail * math.cos(theta), b[1] - trail * math.sin(theta)))
            continue
        place = arc(motion.centre, (x0, y0), motion.sweep())
        radius = math.hypot(x0 - motion.centre[0], y0 - motion.centre[1])
        steps = max(24, math.ceil(radius * abs(motion.sweep()) / step))
        for k, angle in enumerate(runge_kutta(theta, place, trail, steps), 1):
            x, y = place[0](k / steps)
            tips.append((x - trail * math.cos(angle), y - trail * math.sin(angle)))
            theta = angle
    return np.array(tips), theta
