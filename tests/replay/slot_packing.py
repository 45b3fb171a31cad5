"""Do circles, and perhaps one rectangular plug, lie side by side in a slot? Yes only when all places were found.

All are pushed apart from random places and tilts until nothing overlaps; a row along the slot is tried first. The slot has
two half circles of its width. Written apart from the product, for the replay.
"""
import functools
import math
import random

TOUCH = 2e-7  # of the length
STARTS, PUSHES = 60, 250


@functools.lru_cache(maxsize=100_000)
def fits(diameters, plug, width, length):
    if not plug and max(diameters) <= width and sum(diameters) <= length:
        return True
    radii = [d / 2 / length for d in diameters]
    half = plug and (plug[0] / 2 / length, plug[1] / 2 / length)
    dice = random.Random(7)
    return any(settles(radii, half, width / length / 2, dice) for _ in range(STARTS))


def out_of(x, y, cap):
    """How far a point is beyond the wall, and in which direction."""
    px = x - max(cap - 0.5, min(0.5 - cap, x))
    far = math.hypot(px, y)
    return far - cap, (px / far, y / far) if far > 1e-12 else (0, 1)


def settles(radii, half, cap, dice):
    at = [[dice.uniform(-0.4, 0.4), dice.uniform(-cap, cap) / 2] for _ in radii]
    plug = [dice.uniform(-0.2, 0.2), 0.0, dice.choice([0.0, 0.0, math.pi / 2, dice.uniform(0, math.pi)])]
    for _ in range(PUSHES):
        worst = 0.0
        for i, p in enumerate(at):
            for j in range(i):
                worst = max(worst, part(p, at[j], radii[i] + radii[j]))
            if half:
                worst = max(worst, part_from_plug(p, radii[i], plug, half))
            beyond, u = out_of(*p, cap)
            deep = beyond + radii[i]
            if deep > 0:
                p[0], p[1] = p[0] - deep * u[0], p[1] - deep * u[1]
                worst = max(worst, deep)
        if half:
            worst = max(worst, hold_plug(plug, half, cap))
        if worst <= TOUCH:
            return True
    return False


def part(p, q, reach):
    dx, dy = p[0] - q[0], p[1] - q[1]
    far = math.hypot(dx, dy) or 1e-9
    deep = reach - far
    if deep > 0:
        dx, dy = dx / far * deep / 2, dy / far * deep / 2
        p[0], p[1], q[0], q[1] = p[0] + dx, p[1] + dy, q[0] - dx, q[1] - dy
    return max(0.0, deep)


def push(plug, half, arm, by):
    plug[0], plug[1] = plug[0] + by[0], plug[1] + by[1]
    plug[2] += (arm[0] * by[1] - arm[1] * by[0]) / (half[0] ** 2 + half[1] ** 2 + arm[0] ** 2 + arm[1] ** 2)


def part_from_plug(p, radius, plug, half):
    c, s = math.cos(plug[2]), math.sin(plug[2])
    dx, dy = p[0] - plug[0], p[1] - plug[1]
    x, y = dx * c + dy * s, dy * c - dx * s
    ex, ey = abs(x) - half[0], abs(y) - half[1]
    if ex > 0 and ey > 0:
        far = math.hypot(ex, ey)
        u = (math.copysign(ex / far, x), math.copysign(ey / far, y))
    else:
        far = max(ex, ey)
        u = (math.copysign(1, x), 0.0) if ex > ey else (0.0, math.copysign(1, y))
    deep = radius - far
    if deep > 0:
        u = (u[0] * c - u[1] * s, u[0] * s + u[1] * c)
        p[0], p[1] = p[0] + deep / 2 * u[0], p[1] + deep / 2 * u[1]
        push(plug, half, (dx, dy), (-deep / 2 * u[0], -deep / 2 * u[1]))
    return max(0.0, deep)


def hold_plug(plug, half, cap):
    worst = 0.0
    for sx, sy in ((1, 1), (-1, 1), (-1, -1), (1, -1)):
        c, s = math.cos(plug[2]), math.sin(plug[2])
        arm = (sx * half[0] * c - sy * half[1] * s, sx * half[0] * s + sy * half[1] * c)
        deep, u = out_of(plug[0] + arm[0], plug[1] + arm[1], cap)
        if deep > 0:
            push(plug, half, arm, (-0.7 * deep * u[0], -0.7 * deep * u[1]))
            worst = max(worst, deep)
    return worst
