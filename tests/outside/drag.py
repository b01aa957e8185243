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


def track(motions, trail, theta, step=0.05):
    """Where the tip is all along motions of the axis, and which way the blade points in the end. Steps are no longer than ``step`` mm."""
    tips = [np.array([motions[0].start[:2]]) - trail * np.array([[math.cos(theta), math.sin(theta)]])]
    for motion in motions:
        (x0, y0), (x1, y1) = motion.start[:2], motion.end[:2]
        if motion.centre is None:
            length = math.hypot(x1 - x0, y1 - y0)
            # All of one straight way is in closed form.
            part = np.linspace(0, 1, max(8, math.ceil(length / step)) + 1)[1:, None]
            way = math.atan2(y1 - y0, x1 - x0)
            off = (theta - way + math.pi) % (2 * math.pi) - math.pi
            thetas = way + 2 * np.arctan(math.tan(off / 2) * np.exp(-part * length / trail))
            axis = np.array([x0, y0]) + part * np.array([x1 - x0, y1 - y0])
        else:
            place = arc(motion.centre, (x0, y0), motion.sweep())
            length = math.hypot(x0 - motion.centre[0], y0 - motion.centre[1]) * abs(motion.sweep())
            steps = max(10, math.ceil(length / step))
            thetas = np.array(runge_kutta(theta, place, trail, steps))[:, None]
            axis = np.array([place[0](k / steps) for k in range(1, steps + 1)])
        theta = float(thetas[-1, 0])
        tips.append(axis - trail * np.hstack([np.cos(thetas), np.sin(thetas)]))
    return np.vstack(tips), theta
