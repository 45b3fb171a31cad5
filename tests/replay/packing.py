"""Do these circles lie side by side in that circle? A search for a place of each; yes only with all places found.

Two circles: the sum of the diameters. Half of the area always suffices (Fekete, Keldenich and Scheffer, Packing Disks into
Disks with Optimal Worst-Case Density, 2019; from memory). Else each circle is put where it touches two others or one
other and the rim, in many orders; at last all are pushed apart from random places until nothing overlaps.
"""
import functools
import itertools
import math
import random

TOUCH = 1e-7  # of the opening's diameter: so much overlap counts as touching
ORDERS, PLACES, STARTS, PUSHES = 400, 4000, 12, 400
HARDER = 8  # times as many starts and pushes where a plan would be refused


def fits(diameters, opening):
    circles = tuple(sorted((d for d in diameters if d > 0), reverse=True))
    if not circles:
        return True
    if circles[0] > opening * (1 + TOUCH) or sum(d * d for d in circles) > opening * opening * (1 + TOUCH):
        return False
    if len(circles) == 1:
        return True
    if circles[0] + circles[1] > opening * (1 + TOUCH):
        return False
    if len(circles) == 2 or 2 * sum(d * d for d in circles) <= opening * opening:
        return True
    return places(circles, opening) is not None


def search_harder(times):
    """More effort from now on; 1 is the usual."""
    global STARTS, PUSHES
    STARTS, PUSHES = 12 * times, 400 * times
    places.cache_clear()


@functools.lru_cache(maxsize=100_000)
def places(circles, opening):
    """Centres in the order of the circles, or None when none were found."""
    radii, rim = [d / opening for d in circles], 1.0
    found = by_corners(radii, rim) or by_pushing(radii, rim)
    if found is not None:
        assert lie_apart(radii, found, rim), "a packing that is none"
    return found


def lie_apart(radii, centres, rim):
    slack = 2 * TOUCH
    inside = all(math.hypot(*c) + r <= rim + slack for c, r in zip(centres, radii))
    pairs = itertools.combinations(zip(centres, radii), 2)
    return inside and all(math.dist(c, e) >= r + s - slack for (c, r), (e, s) in pairs)


def crossings(p, a, q, b):
    """Where the circles of radii a around p and b around q meet."""
    d = math.dist(p, q)
    if d < 1e-12 or d > a + b + TOUCH or d < abs(a - b) - TOUCH:
        return []
    along = (a * a - b * b + d * d) / (2 * d)
    across = math.sqrt(max(0.0, a * a - along * along))
    ux, uy = (q[0] - p[0]) / d, (q[1] - p[1]) / d
    mx, my = p[0] + along * ux, p[1] + along * uy
    return [(mx - across * uy, my + across * ux), (mx + across * uy, my - across * ux)]


def corners(radius, there, rim):
    """Places at which a circle touches two of what is there."""
    walls = [((0.0, 0.0), rim - radius)] + [(c, r + radius) for c, r in there]
    for (p, a), (q, b) in itertools.combinations(walls, 2):
        yield from crossings(p, a, q, b)


def by_corners(radii, rim):
    orders = itertools.islice(different_orders(radii), ORDERS)
    left = PLACES
    for order in orders:
        found, left = put_rest([radii[i] for i in order], [], rim, left)
        if found is not None:
            centres = [None] * len(radii)
            for i, c in zip(order, found):
                centres[i] = c
            return centres
        if left <= 0:
            return None
    return None


def different_orders(radii):
    seen = set()
    for order in itertools.permutations(range(len(radii))):
        key = tuple(radii[i] for i in order)
        if key not in seen:
            seen.add(key)
            yield order


def put_rest(radii, there, rim, left):
    if len(there) == len(radii):
        return [c for c, _ in there], left
    radius = radii[len(there)]
    options = [(rim - radius, 0.0)] if not there else corners(radius, there, rim)
    for c in options:
        left -= 1
        if left <= 0:
            return None, left
        if math.hypot(*c) + radius > rim + TOUCH or any(math.dist(c, e) < radius + s - TOUCH for e, s in there):
            continue
        found, left = put_rest(radii, there + [(c, radius)], rim, left)
        if found is not None:
            return found, left
    return None, left


def by_pushing(radii, rim):
    dice = random.Random(1)
    for _ in range(STARTS):
        centres = []
        for r in radii:
            angle, far = 2 * math.pi * dice.random(), (rim - r) * math.sqrt(dice.random())
            centres.append([far * math.cos(angle), far * math.sin(angle)])
        for _ in range(PUSHES):
            if push_apart(radii, centres, rim) < TOUCH:
                return [tuple(c) for c in centres]
    return None


def push_apart(radii, centres, rim):
    worst = 0.0
    for i, j in itertools.combinations(range(len(radii)), 2):
        d = math.dist(centres[i], centres[j])
        overlap = radii[i] + radii[j] - d
        if overlap <= 0:
            continue
        worst = max(worst, overlap)
        ux, uy = ((centres[j][0] - centres[i][0]) / d, (centres[j][1] - centres[i][1]) / d) if d > 1e-12 else (1.0, 0.0)
        share = radii[j] / (radii[i] + radii[j])
        for k, way in ((i, -share), (j, 1 - share)):
            centres[k][0] += way * overlap * ux
            centres[k][1] += way * overlap * uy
    for c, r in zip(centres, radii):
        far = math.hypot(*c)
        overlap = far + r - rim
        if overlap > 0:
            worst = max(worst, overlap)
            c[0] -= overlap * c[0] / far
            c[1] -= overlap * c[1] / far
    return worst
