"""Pulls a plan line by line against the frame as it stands in the problem, and says what does not work.

Reads the document of a problem and of its result (docs/route.md) and shares no code with the engine. Diameters in
0.1 mm, ways in mm, as there.
"""
import math
import random

import packing
import slot_packing

OUTSIDE = -1


class Frame:
    """The problem, with its defaults filled in."""

    def __init__(self, problem):
        self.problem = problem
        self.rules = problem["rules"]
        self.apertures = problem["apertures"]
        self.lines = problem["lines"]
        self.devices = problem["devices"]
        self.exact = self.rules.get("packing", "density") == "exact"

    def opening(self, a, steps):
        hole = self.apertures[a]
        return hole["D"] + steps, hole.get("length", hole["D"]) + steps

    def squares_within(self, squares, share, width):
        return 1000 * squares <= self.rules.get(share, 500) * width * width

    def plug_alone(self, plug, a, steps):
        width, length = self.opening(a, steps)
        if "w" in plug:
            return any(h <= width and w <= length - width + math.sqrt(max(0, width * width - h * h)) + 1e-9
                       for w, h in ((plug["w"], plug["h"]), (plug["h"], plug["w"])))
        return plug["c"] <= width

    def plug_beside(self, plug, thinnest, others, a, steps):
        width, length = self.opening(a, steps)
        if self.exact and ("w" in plug or length > width):
            return self.lie_in_slot(plug, [self.lines[j]["d"] for j in others], width, length)
        squares = max(thinnest ** 2, plug["c"] ** 2 if "c" in plug else plug["w"] ** 2 + plug["h"] ** 2)
        if squares > width * width:
            return False
        if self.exact:
            return packing.fits([math.sqrt(squares)] + [self.lines[j]["d"] for j in others], width)
        return self.squares_within(squares + sum(self.lines[j]["d"] ** 2 for j in others), "pull_permille", width)

    def lie_in_slot(self, plug, bodies, width, length):
        if "w" not in plug:
            return slot_packing.fits(tuple(sorted([plug["c"]] + bodies)), None, width, length)
        return slot_packing.fits(tuple(sorted(bodies)), (plug["w"], plug["h"]), width, length)

    def passes(self, plug, thinnest, others, a, steps):
        return self.plug_beside(plug, thinnest, others, a, steps) if others else self.plug_alone(plug, a, steps)

    def lie(self, lines, a, steps):
        width = self.opening(a, steps)[0]
        bodies = [self.lines[k]["d"] for k in lines]
        if len(bodies) == 1:
            return bodies[0] <= width
        if self.apertures[a]["kind"] == "exclusive":
            return False
        length = self.opening(a, steps)[1]
        if self.exact and length > width:
            return slot_packing.fits(tuple(sorted(bodies)), None, width, length)
        if self.exact:
            return packing.fits(bodies, width)
        if self.squares_within(sum(d * d for d in bodies), "pack_permille", width):
            return True
        table = self.rules.get("equal_table", [10000, 20000, 21548, 24143, 27014, 30000, 30000])
        return len(set(bodies)) == 1 and len(bodies) <= 7 and 10000 * width >= table[len(bodies) - 1] * bodies[0]


def apart(p, q):
    return math.sqrt(sum((a - b) ** 2 for a, b in zip(q, p)))


def whole_apart(p, q):
    return (math.isqrt(4 * sum((a - b) ** 2 for a, b in zip(q, p))) + 1) // 2


def turn_class(before, at, after):
    u, v = [b - a for a, b in zip(before, at)], [b - a for a, b in zip(at, after)]
    uu, vv, uv = (sum(a * b for a, b in zip(x, y)) for x, y in ((u, u), (v, v), (u, v)))
    if not uu or not vv:
        return 0
    share = (1 if uv >= 0 else -1) * 4 * uv * uv
    return [share >= 3 * uu * vv, share >= uu * vv, share >= 0, share >= -uu * vv, True].index(True)


class Replay:
    def __init__(self, problem, plan, seed=1, orders=3):
        self.frame, self.plan = Frame(problem), plan
        self.wrong = []
        self.cost = 0
        self.seats = [device["seats"][s] for device, s in zip(problem["devices"], plan["seats"])]
        self.dice, self.orders = random.Random(seed), orders

    def cost_of_all(self):
        self.check_seats()
        for k, run in enumerate(self.plan["lines"]):
            self.check_line(k, run)
        self.check_enlarging()
        return self.cost

    def complaints(self):
        self.cost_of_all()
        self.check_fills()
        if not self.wrong:
            for order in [self.printed_order()] + [self.any_order() for _ in range(self.orders)]:
                self.pull(order)
        if self.cost != self.plan["objective"]:
            self.wrong.append(f"cost: {self.cost} and not {self.plan['objective']}")
        return self.wrong

    def say(self, what):
        self.wrong.append(what)

    def check_seats(self):
        for key in ("place", "aperture"):
            used = [seat[key] for seat in self.seats if seat.get(key, -1) >= 0]
            if len(used) != len(set(used)):
                self.say(f"{key}: two devices in one")
        for seat in self.seats:
            self.cost += seat.get("cost", 0)
            a = seat.get("aperture", -1)
            if a >= 0 and self.frame.apertures[a].get("taken"):
                self.say(f"aperture {a}: taken")
            if a >= 0 and any(a in run["path"] for run in self.plan["lines"]):
                self.say(f"aperture {a}: a device sits in it and a line passes")

    def check_line(self, k, run):
        line, path = self.frame.lines[k], run["path"]
        start, goal = (self.seats[end["device"]] for end in line["ends"])
        nodes, marks = [start["node"]], [start["pos"]]
        for a in path:
            hole = self.frame.apertures[a]
            if nodes[-1] not in (hole["a"], hole["b"]) or hole.get("taken"):
                return self.say(f"line {k}: cannot enter aperture {a}")
            nodes.append(hole["b"] if hole["a"] == nodes[-1] else hole["a"])
            marks.append(hole["pos"])
        marks.append(goal["pos"])
        if nodes[-1] != goal["node"]:
            return self.say(f"line {k}: ends elsewhere")
        self.check_walk(k, line, path, nodes)
        self.check_length(k, line, run, [whole_apart(p, q) for p, q in zip(marks, marks[1:])])
        self.check_bends(k, line.get("bend_radius", 0), marks)
        self.cost += self.frame.rules["per_aperture"] * len(path)
        self.cost += sum(self.frame.rules["turn_costs"][turn_class(*marks[i - 1:i + 2])] for i in range(1, len(marks) - 1))

    def check_walk(self, k, line, path, nodes):
        cells = [n for n in nodes if n != OUTSIDE]
        if len(cells) != len(set(cells)) or len(path) != len(set(path)):
            self.say(f"line {k}: twice through the same place")
        if nodes[1:-1].count(OUTSIDE) > line.get("surface", 0) or not cells:
            self.say(f"line {k}: outside too often")
        if set(line.get("through", [])) - set(path) or set(line.get("avoids", [])) & set(path):
            self.say(f"line {k}: not as the builder wants it")
        for rule in self.frame.problem.get("cell_rules", []):
            if rule["cell"] in cells and (line["d"] > rule.get("room", line["d"]) or (line.get("bare_cable") and not rule.get("bare_cable", True))):
                self.say(f"line {k}: not clear in cell {rule['cell']}")

    def check_length(self, k, line, run, segments):
        way = sum(segments)
        self.cost += way
        spare = run["length"] - way
        if line.get("lengths"):
            good = run["length"] in line["lengths"] and line["min_slack"] <= spare <= line["max_stow"]
        else:
            good = spare >= line["min_slack"] and run["length"] <= line["cut_max"]
        if not good or segments != run["segments"] or way != run["way"]:
            self.say(f"line {k}: wrong length")

    def check_bends(self, k, radius, marks):
        """An arc takes radius * tan(half the turn) of both sides of a corner."""
        if not radius:
            return
        taken = 0.0
        for i in range(1, len(marks)):
            side = apart(marks[i - 1], marks[i])
            ahead = 0.0
            if i + 1 < len(marks) and side and apart(marks[i], marks[i + 1]):
                u, v = ([b - a for a, b in zip(marks[j - 1], marks[j])] for j in (i, i + 1))
                cosine = sum(a * b for a, b in zip(u, v)) / math.hypot(*u) / math.hypot(*v)
                ahead = radius * math.sqrt(max(0.0, 1 - cosine) / (1 + cosine)) if cosine > -1 + 1e-12 else math.inf
            if taken + ahead > side + 1e-6:
                return self.say(f"line {k}: bent too sharply")
            taken = ahead

    def check_enlarging(self):
        for a, (hole, steps) in enumerate(zip(self.frame.apertures, self.plan["enlarge"])):
            if not 0 <= steps <= hole.get("enlarge_max", 0):
                self.say(f"aperture {a}: enlarged beyond what is permitted")
            self.cost += steps * hole.get("enlarge_cost", 0)

    def check_fills(self):
        inside = {}
        for k, run in enumerate(self.plan["lines"]):
            for a in run["path"]:
                inside.setdefault(a, set()).add(k)
        if inside != {fill["aperture"]: set(fill["lines"]) for fill in self.plan["fills"]}:
            self.say("fills: not what lies there")

    def entries(self):
        """Devices that go in through an opening, each with what goes before and after it."""
        return {("device", e["device"]): e for e in self.plan.get("device_entries", [])}

    def waits(self, chain=()):
        pairs = [(("line", p["before"]), ("line", p["after"])) for p in self.plan["precedences"]]
        for name, entry in self.entries().items():
            pairs += [(("line", k), name) for k in entry["after"]] + [(name, ("line", k)) for k in entry["before"]]
        return pairs + [(("line", j), ("line", k)) for j, k in zip(chain, chain[1:])]

    def arrange(self, waits, pick):
        left = [("line", k) for k in range(len(self.frame.lines))] + list(self.entries())
        order = []
        while left:
            ready = [x for x in left if not any(after == x and before in left for before, after in waits)]
            if not ready:
                self.say("order: goes round in a circle")
                return []
            order.append(pick(ready))
            left.remove(order[-1])
        return order

    def printed_order(self):
        if sorted(self.plan["pull_order"]) != list(range(len(self.frame.lines))):
            self.say("order: not every line once")
            return []
        return self.arrange(self.waits(self.plan["pull_order"]), lambda ready: ready[0])

    def any_order(self):
        return self.arrange(self.waits(), lambda ready: ready[int(self.dice.random() * len(ready))])

    def pull(self, order):
        inside = [[] for _ in self.frame.apertures]
        done = set()
        for kind, i in order:
            if kind == "device":
                self.put_in(i, inside, done)
            else:
                self.pull_line(i, inside)
            done.add((kind, i))

    def pull_line(self, k, inside):
        line, run = self.frame.lines[k], self.plan["lines"][k]
        captive = line.get("captive_end")
        plug = line["ends"][run["leading_end"]]
        if captive == run["leading_end"]:
            self.say(f"line {k}: its device cannot lead")
        for a in run["path"]:
            steps = self.plan["enlarge"][a]
            if not self.frame.passes(plug, line["d"], inside[a], a, steps):
                self.say(f"line {k}: its plug does not pass aperture {a} beside {inside[a]}")
            inside[a].append(k)
            if not self.frame.lie(inside[a], a, steps):
                self.say(f"aperture {a}: {inside[a]} do not lie in it together")

    def put_in(self, d, inside, done):
        body = self.frame.devices[d].get("body")
        for k, line in enumerate(self.frame.lines):
            captive = line.get("captive_end")
            if captive is not None and line["ends"][captive]["device"] == d and ("line", k) not in done:
                self.say(f"device {d}: its captive line {k} was not pulled first")
        for a in self.seats[d].get("entries", []):
            if body and not self.frame.passes(body, 0, inside[a], a, self.plan["enlarge"][a]):
                self.say(f"device {d}: does not go in at aperture {a} beside {inside[a]}")
