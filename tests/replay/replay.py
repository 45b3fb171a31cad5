#!/usr/bin/env python3
"""Replays plans of `cotter solve route` as pulls: every plan must be accepted, every damaged one refused.

  replay.py PROGRAM [--rows N] [--orders N]    N invented frames of each size (bench/route), each in three forms:
  as recorded, judged by area; the same judged by real packing; and wider, with plugs, captive leads, devices that go in
  through an opening, bends, slots, pins and bans.
"""
import argparse
import collections
import json
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1] / "bench/route"))

import generate  # noqa: E402
import mutations  # noqa: E402
import packing  # noqa: E402
from frame import Dice  # noqa: E402
from pull import Replay  # noqa: E402

WIDER = 1300  # permille, so that the demands leave a way


def real_packing(problem):
    return {**problem, "name": problem["name"] + "_real", "rules": {**problem["rules"], "packing": "exact"}}


def with_demands(row):
    frame = generate.scaled(generate.base(row), int(row["scale_permille"]) * WIDER // 1000)
    dice = Dice(f"demands {generate.name_of(row)}")
    for hole in frame["apertures"]:
        if dice.chance(25):
            hole["length"] = hole["D"] + dice.roll(5, 60)
        if dice.chance(3):
            hole["taken"] = True
    for line in frame["lines"]:
        wire = bool(line["lengths"])
        if wire and dice.chance(50):
            end = dice.pick(line["ends"])
            end["w"], end["h"] = max(line["d"], end.pop("c") * 4 // 5), dice.roll(12, 25)
        if not wire and dice.chance(60):
            line["bend_radius"] = dice.roll(5, 25)
        if dice.chance(10):
            line["avoids"] = [dice.pick(frame["apertures"])["id"]]
        if len(line["lengths"]) == 1:
            make_captive(dice, frame, line)
    return {**real_packing(frame), "name": generate.name_of(row) + "_demands", "cell_rules": [{"cell": frame["cells"].index("bb_shell"), "room": 54, "bare_cable": False}]}


def make_captive(dice, frame, line):
    """The end with the larger connector hangs on its device; one inside the frame goes in through a hole of its cell."""
    size = lambda end: line["ends"][end].get("c", 0) or max(line["ends"][end]["w"], line["ends"][end]["h"])
    line["captive_end"] = 0 if size(0) >= size(1) else 1
    device = frame["devices"][line["ends"][line["captive_end"]]["device"]]
    doors = lambda cell: [h["id"] for h in frame["apertures"] if cell in (h["a"], h["b"]) and h["kind"] == "shared"]
    device["body"] = {"c": max(size(0), size(1)) + dice.roll(0, 15)}
    for seat in device["seats"]:
        if seat["node"] >= 0 and doors(seat["node"]):
            seat["entries"] = [max(doors(seat["node"]), key=lambda a: frame["apertures"][a]["D"])]


def solve(program, problem):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(problem, file)
        file.flush()
        run = subprocess.run([program, "solve", "route", file.name], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        raise RuntimeError(problem["name"] + ": " + run.stderr + run.stdout)
    return json.loads(run.stdout)


def forms(row):
    yield generate.instance(row)
    yield real_packing(generate.instance(row))
    yield with_demands(row)


class Tally:
    def __init__(self):
        self.wrong, self.plans, self.refused = [], collections.Counter(), collections.Counter()

    def judge(self, form, problem, plan, orders):
        complaints = Replay(problem, plan, orders=orders).complaints()
        self.plans[form] += 1
        if complaints:  # a packing near its limit may only be found by looking longer
            packing.search_harder(packing.HARDER)
            complaints = Replay(problem, plan, orders=orders).complaints()
            packing.search_harder(1)
        if complaints:
            self.wrong.append(f"{problem['name']}: the plan was refused: {'; '.join(complaints)}")
        for kind, damage in mutations.ALL.items():
            for other in damage(problem, plan):
                self.refused[kind] += 1
                if not Replay(problem, other, orders=0).complaints():
                    self.wrong.append(f"{problem['name']}: {kind}: a damaged plan was accepted")

    def missing(self):
        """A kind of damage that never came up shows nothing."""
        return [kind for kind in mutations.ALL if not self.refused[kind]] + [f for f in ("area", "packing", "demands") if not self.plans[f]]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--rows", type=int, default=8)
    parser.add_argument("--sizes", default="small,medium,large,xl")
    parser.add_argument("--orders", type=int, default=3)
    arguments = parser.parse_args()
    tally = Tally()
    for row in generate.read_rows():
        if row["size"] in arguments.sizes.split(",") and int(row["number"]) < arguments.rows:
            for form, problem in zip(("area", "packing", "demands"), forms(row)):
                plan = solve(arguments.program, problem)
                if plan["objective"] is not None:
                    tally.judge(form, problem, plan, arguments.orders)
    print("plans replayed:", dict(tally.plans), "damaged plans refused:", dict(tally.refused))
    wrong = tally.wrong + [f"nothing to judge: {what}" for what in tally.missing()]
    for line in wrong:
        print(line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
