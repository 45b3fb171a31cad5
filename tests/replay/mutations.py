"""Plans damaged on purpose: each must be refused."""
import copy

from pull import OUTSIDE, Replay, whole_apart


def mutated(plan, **changes):
    other = copy.deepcopy(plan)
    other.update(changes)
    return other


def swapped_orders(problem, plan):
    """The later line of a needed pair is pulled just before the earlier one; nothing else is asked of the order.

    Real packing of four and more may be undecided, and then the pair is asked for without a proof.
    """
    real = problem["rules"].get("packing") == "exact"
    inside = {fill["aperture"]: len(fill["lines"]) for fill in plan["fills"]}
    for pair in plan["precedences"]:
        if pair["because"] != "needed" or (real and inside[pair["aperture"]] > 3):
            continue
        order = [k for k in plan["pull_order"] if k != pair["after"]]
        order.insert(order.index(pair["before"]), pair["after"])
        entries = [{**entry, "before": [], "after": []} for entry in plan.get("device_entries", [])]
        yield mutated(plan, pull_order=order, precedences=[], device_entries=entries)


def devices_first(problem, plan):
    """A device goes in before the lines that hang on it."""
    for i, entry in enumerate(plan.get("device_entries", [])):
        if entry["after"]:
            entries = copy.deepcopy(plan["device_entries"])
            entries[i].update(after=[], before=list(range(len(plan["lines"]))))
            order = entry["after"] + [k for k in plan["pull_order"] if k not in entry["after"]]
            yield mutated(plan, device_entries=entries, precedences=[], pull_order=order)


def shorter_lengths(problem, plan):
    for k, run in enumerate(plan["lines"]):
        other = copy.deepcopy(plan)
        other["lines"][k]["length"] = run["way"] + problem["lines"][k]["min_slack"] - 1
        yield other


def other_seats(problem, plan):
    for d, device in enumerate(problem["devices"]):
        for s in range(len(device["seats"])):
            if s != plan["seats"][d] and device["seats"][s] not in [device["seats"][plan["seats"][d]]]:
                yield mutated(plan, seats=[s if e == d else t for e, t in enumerate(plan["seats"])])


def smaller_holes(problem, plan):
    """One step of enlarging less, and the cost of it taken off."""
    if plan["undecided"]:
        return
    for a, steps in enumerate(plan["enlarge"]):
        if steps:
            other = mutated(plan, enlarge=[e - (b == a) for b, e in enumerate(plan["enlarge"])])
            other["objective"] -= problem["apertures"][a].get("enlarge_cost", 0)
            yield other


def added_to_holes(problem, plan):
    """A line is said to lie in a hole that it does not pass; and it takes a hole more on its way."""
    for k, run in enumerate(plan["lines"]):
        if not run["path"]:
            continue
        foreign = next((a for a in range(len(problem["apertures"])) if a not in run["path"]), None)
        if foreign is None:
            continue
        other = copy.deepcopy(plan)
        fill = next((f for f in other["fills"] if f["aperture"] == foreign), None)
        if fill:
            fill["lines"].append(k)
        else:
            other["fills"].append({"aperture": foreign, "lines": [k]})
        yield other
        longer = copy.deepcopy(plan)
        longer["lines"][k]["path"].append(foreign)
        yield longer


def other_ways(problem, plan):
    """The way of one line in place of another that it could walk too, with all its figures put right but the cost."""
    for k, run in enumerate(plan["lines"]):
        line = problem["lines"][k]
        start, goal = (problem["devices"][end["device"]]["seats"][plan["seats"][end["device"]]] for end in line["ends"])
        for path in some_paths(problem["apertures"], start["node"], goal["node"], run["path"]):
            other = copy.deepcopy(plan)
            marks = [start["pos"]] + [problem["apertures"][a]["pos"] for a in path] + [goal["pos"]]
            segments = [whole_apart(p, q) for p, q in zip(marks, marks[1:])]
            way = sum(segments)
            suits = [n for n in line.get("lengths", []) if line["min_slack"] <= n - way <= line["max_stow"]]
            length = way + line["min_slack"] if not line.get("lengths") else min(suits, default=line["lengths"][-1])
            other["lines"][k].update(path=path, segments=segments, way=way, length=length)
            refill(other)
            if Replay(problem, other).cost_of_all() != plan["objective"]:
                yield other


def refill(plan):
    inside = {}
    for k, run in enumerate(plan["lines"]):
        for a in run["path"]:
            inside.setdefault(a, []).append(k)
    plan["fills"] = [{"aperture": a, "lines": lines} for a, lines in inside.items()]


def some_paths(apertures, start, goal, known, most=2, depth=9):
    """A few simple ways other than the known one, the shortest in apertures first."""
    found, queue = [], [([], [start])]
    while queue and len(found) < most:
        path, nodes = queue.pop(0)
        if path and nodes[-1] == goal:
            if path != known:
                found.append(path)
            continue
        if len(path) == depth or (path and nodes[-1] == OUTSIDE):
            continue
        for a, hole in enumerate(apertures):
            if nodes[-1] in (hole["a"], hole["b"]) and a not in path:
                there = hole["b"] if hole["a"] == nodes[-1] else hole["a"]
                if there == goal or (there not in nodes and there != OUTSIDE):
                    queue.append((path + [a], nodes + [there]))
    return found


ALL = {f.__name__: f for f in (swapped_orders, devices_first, shorter_lengths, other_seats, smaller_holes, added_to_holes, other_ways)}
