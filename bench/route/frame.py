"""One frame from a seed, its holes not yet scaled: cells, apertures, devices and lines in the format of docs/route.md."""
import heapq
import math
import random

from frames import (ALWAYS, ALWAYS_HOLES, CHAINS, CORE, FIXED, HOLES, LINES, LINES_OF_FAMILY, MIDDLE, MORE_HOLES, MOVABLE, OF_FAMILY, OPTIONAL,
                    ORDER, TT_NEEDS_CELLS)

# cells, apertures, lines, offered lengths of a wire, most length to stow
SIZES = {
    "small": ((8, 10), (12, 16), (4, 6), (2, 4), (130, 260)),
    "medium": ((11, 13), (19, 23), (7, 11), (2, 5), (180, 360)),
    "large": ((14, 17), (24, 32), (12, 17), (3, 6), (240, 430)),
    "xl": ((18, 20), (32, 40), (18, 24), (4, 7), (300, 480)),
}
FAMILIES = ["road", "gravel", "tt", "ebike"]
RULES = {"pack_permille": 500, "pull_permille": 600, "per_aperture": 40, "turn_costs": [0, 20, 60, 120, 200],
         "equal_table": [10000, 20000, 21548, 24143, 27014, 30000, 30000]}


class Dice:
    """Built on random() alone, the one thing that Python promises to keep."""

    def __init__(self, seed):
        self.random = random.Random(seed).random

    def roll(self, low, high):
        return low + int(self.random() * (high - low + 1))

    def chance(self, percent):
        return self.roll(1, 100) <= percent

    def pick(self, items):
        return items[self.roll(0, len(items) - 1)]

    def mixed(self, items):
        left, out = list(items), []
        while left:
            out.append(left.pop(self.roll(0, len(left) - 1)))
        return out

    def near(self, place, by):
        return [v + self.roll(-by, by) for v in place]


def distance(p, q):
    return (math.isqrt(4 * sum((a - b) ** 2 for a, b in zip(q, p))) + 1) // 2


def choose_cells(dice, family, size):
    low, high = SIZES[size][0]
    target = dice.roll(low, high - 2 if family == "ebike" and size == "small" else high)
    chosen = list(CORE)
    if family != "tt" or target >= TT_NEEDS_CELLS:
        chosen += OF_FAMILY[family]
    while len(chosen) < target:
        ready = [c for c, need in OPTIONAL.items() if c not in chosen and (need is None or need in chosen)]
        if not ready:
            break
        chosen.append(dice.pick(ready))
    return [c for c in ORDER if c in chosen]


def relaxation(dice, exclusive):
    return {"extra_steps": 30, "extra_cost": dice.pick([4, 6]), "share_cost": 90 if exclusive else -1}


def aperture(dice, name, a, b, exclusive, place, width):
    enlarge = dice.chance(45)
    return {"id": 0, "name": name, "a": a, "b": b, "kind": "exclusive" if exclusive else "shared",
            "D": width * dice.roll(88, 112) // 100, "pos": dice.near(place, 7),
            "enlarge_max": dice.roll(2, 12) if enlarge else 0, "enlarge_cost": dice.roll(4, 25) if enlarge else 0,
            "relax": relaxation(dice, exclusive)}


def make_apertures(dice, cells, size):
    out = []
    for chain in CHAINS:
        there = [step for step in chain if step[0] in cells]
        for here, beyond in zip(there, there[1:]):
            name = f"{here[0]}-{beyond[0]}"
            out.append(aperture(dice, name, cells.index(here[0]), cells.index(beyond[0]), False, here[1], here[2]))
    wanted = dice.roll(*SIZES[size][1])
    for i, (name, within, exclusive, place, width) in enumerate(HOLES + dice.mixed(MORE_HOLES)):
        cell = next((c for c in within if c in cells), None)
        if cell is None or (i >= ALWAYS_HOLES and len(out) >= wanted):
            continue
        out.append(aperture(dice, name, cells.index(cell), -1, exclusive, place, width))
    out = dice.mixed(out)
    for i, hole in enumerate(out):
        hole["id"] = i
    return out


def make_device(dice, name, cells, apertures, places):
    if name in FIXED:
        cell, place = FIXED[name]
        return {"name": name, "seats": [{"node": cells.index(cell) if cell else -1, "pos": list(place), "aperture": -1, "place": -1, "cost": 0}]}
    (low, high), inside, using_up = MOVABLE[name]
    seats = [{"node": hole["a"], "pos": dice.near(hole["pos"], 5), "aperture": hole["id"], "place": -1, "cost": 10 * dice.roll(0, 12)}
             for hole in apertures if hole["name"] in using_up]
    for cell in inside:
        if cell not in cells:
            continue
        place = places.setdefault(cell, len(places))
        seats.append({"node": cells.index(cell), "pos": dice.near(MIDDLE[cell], 20), "aperture": -1, "place": place, "cost": 10 * dice.roll(0, 10)})
    return {"name": name, "seats": dice.mixed(seats)[:dice.roll(low, high)]}


def some_way(dice, apertures, start, goal):
    """Length of one way between two seats, shortest under randomly stretched steps; None when there is none."""
    if start["node"] >= 0 and start["node"] == goal["node"]:
        return distance(start["pos"], goal["pos"])
    stretch = {a["id"]: dice.roll(70, 170) for a in apertures}
    queue, seen = [(0, 0, -1, start["node"], start["pos"])], set()
    while queue:
        cost, way, last, node, place = heapq.heappop(queue)
        if last >= 0 and node == goal["node"]:
            return way + distance(place, goal["pos"])
        if (last, node) in seen or (last >= 0 and node == -1):
            continue
        seen.add((last, node))
        for hole in apertures:
            if hole["id"] == last or node not in (hole["a"], hole["b"]):
                continue
            step = distance(place, hole["pos"])
            there = hole["b"] if node == hole["a"] else hole["a"]
            heapq.heappush(queue, (cost + step * stretch[hole["id"]], way + step, hole["id"], there, hole["pos"]))
    return None


def make_line(dice, pattern, devices, apertures, size):
    name, first, first_plug, second, second_plug, thickness, kind = pattern
    _, _, _, offers, stow = SIZES[size]
    d = dice.roll(*thickness)
    line = {"name": name, "d": d,
            "ends": [{"device": devices[first][0], "c": max(d, dice.roll(*first_plug))},
                     {"device": devices[second][0], "c": max(d, dice.roll(*second_plug))}],
            "lengths": [], "cut_max": 100 * dice.roll(20, 30), "min_slack": 10 * dice.roll(2, 6), "max_stow": 10 * dice.roll(stow[0] // 10, stow[1] // 10),
            "surface": 1 if dice.chance(18) else 0, "relax": {"drop_cost": 10 * dice.roll(15, 40), "length_cost": 10 * dice.roll(5, 12)}}
    if kind in ("wire", "captive"):
        count = 1 if kind == "captive" else dice.roll(*offers)
        lengths = set()
        # One offer in two suits some way; the others are what the shop happens to have.
        for i in range(count):
            way = some_way(dice, apertures, dice.pick(devices[first][1]["seats"]), dice.pick(devices[second][1]["seats"])) if i % 2 == 0 else None
            fit = 0 if way is None else way + line["min_slack"] + dice.roll(5, max(10, line["max_stow"] - line["min_slack"] - 10))
            lengths.add(max(80, 10 * (fit // 10)) if fit else 10 * dice.roll(25, 180))
        line["lengths"] = sorted(lengths)
    if dice.chance(30):
        line["ends"].reverse()
    return line


def make_frame(family, size, seed):
    dice = Dice(f"{family} {size} {seed}")
    cells = choose_cells(dice, family, size)
    apertures = make_apertures(dice, cells, size)
    patterns = [p for p in LINES[ALWAYS:] + LINES_OF_FAMILY.get(family, [])
                if all(d in MOVABLE or not FIXED[d][0] or FIXED[d][0] in cells for d in (p[1], p[3]))]
    count = dice.roll(*SIZES[size][2])
    patterns = (LINES[:ALWAYS] + dice.mixed(patterns))[:count]
    devices, places = {}, {}
    for pattern in patterns:
        for name in (pattern[1], pattern[3]):
            if name not in devices:
                devices[name] = (len(devices), make_device(dice, name, cells, apertures, places))
    lines = [make_line(dice, p, devices, apertures, size) for p in patterns]
    return {"name": "", "family": family, "size": size, "seed": seed, "rules": RULES, "cells": cells, "apertures": apertures,
            "devices": [d for _, d in devices.values()], "lines": lines}
