#!/usr/bin/env python3
"""Route instances on disk, from the seeds and scales of instances.csv.

  generate.py DIR [--set bench|equality|fresh|all] [--only NAME]     writes the JSON files; needs no solver
  generate.py --record PROGRAM [--jobs N]                            finds scale and fault of rows that are not there yet

Sizes and kinds go by the number alone: of ten, three critical (all holes at the smallest scale, in permille, at which
a plan was found), three loose (5 to 15 % more), four impossible (one hole that the best plan uses was changed until no
plan was found). A frame that has no plan even with holes of two and a half times the size counts as no frame: the
next attempt with the same number takes its place.
Recording asks `PROGRAM solve route`, so the smallest scale is the smallest at which that solver found a plan within its
limit of steps; a wrong answer of it would make an instance less critical or not impossible, never a peer's verdict wrong.
"""
import argparse
import concurrent.futures
import csv
import json
import pathlib
import subprocess
import sys
import tempfile

from frame import FAMILIES, Dice, make_frame

ROWS = pathlib.Path(__file__).with_name("instances.csv")
FIELDS = ["size", "number", "family", "attempt", "kind", "scale_permille", "aperture", "how"]
KINDS = ["critical", "loose", "impossible", "critical", "loose", "impossible", "critical", "loose", "impossible", "impossible"]
COUNTS = {"small": 70, "medium": 70, "large": 70, "xl": 120}
SETS = {
    "bench": lambda size, number: number < 20,
    "equality": lambda size, number: size != "xl",
    "fresh": lambda size, number: size == "xl" and number >= 20,
    "all": lambda size, number: True,
}
EXCLUSIVE, NARROWED = "made exclusive, enlarging forbidden", "narrowed, enlarging forbidden"
SMALLEST, LARGEST = 300, 2500
RECORD_NODES = 20_000


def name_of(row):
    return f"{row['family']}_{row['size']}_{int(row['number']):03d}{row['kind'][0]}"


def base(row):
    return make_frame(row["family"], row["size"], 1000 * int(row["number"]) + int(row["attempt"]))


def scaled(frame, permille):
    return {**frame, "apertures": [{**hole, "D": hole["D"] * permille // 1000} for hole in frame["apertures"]]}


def changed(frame, aperture, how):
    apertures = [dict(hole) for hole in frame["apertures"]]
    hole = apertures[aperture]
    hole["enlarge_max"] = hole["enlarge_cost"] = 0
    if how == EXCLUSIVE:
        hole["kind"], hole["relax"] = "exclusive", {**hole["relax"], "share_cost": 90}
    else:
        hole["D"] = hole["D"] * 3 // 4
    return {**frame, "apertures": apertures, "fault": {"aperture": aperture, "how": how}}


def instance(row):
    frame = scaled(base(row), int(row["scale_permille"]))
    if row["aperture"] != "":
        frame = changed(frame, int(row["aperture"]), row["how"])
    return {**frame, "name": name_of(row)}


class Oracle:
    def __init__(self, program):
        self.program = program

    def plan(self, frame):
        with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
            json.dump({**frame, "name": "recording", "node_limit": RECORD_NODES}, file)
            file.flush()
            run = subprocess.run([self.program, "solve", "route", file.name], capture_output=True, text=True)
        if run.returncode not in (0, 1):
            raise RuntimeError(run.stderr + run.stdout)
        result = json.loads(run.stdout)
        return result if result["objective"] is not None else None

    def smallest_scale(self, frame):
        feasible = 1000
        while not self.plan(scaled(frame, feasible)):
            feasible = feasible * 5 // 4
            if feasible > LARGEST:
                return None
        too_small = feasible * 4 // 5
        while too_small >= SMALLEST and self.plan(scaled(frame, too_small)):
            feasible, too_small = too_small, too_small * 4 // 5
        while feasible - too_small > 1:
            middle = (feasible + too_small) // 2
            if self.plan(scaled(frame, middle)):
                feasible = middle
            else:
                too_small = middle
        return feasible

    def fault(self, frame, dice):
        through = [0] * len(frame["apertures"])
        for line in self.plan(frame)["lines"]:
            for aperture in line["path"]:
                through[aperture] += 1
        for aperture in dice.mixed([a for a, lines in enumerate(through) if lines]):
            shared = frame["apertures"][aperture]["kind"] == "shared" and through[aperture] > 1
            how = EXCLUSIVE if shared and dice.chance(60) else NARROWED
            if not self.plan(changed(frame, aperture, how)):
                return aperture, how
        return None


def record(oracle, size, number):
    for attempt in range(1000):
        row = {"size": size, "number": number, "family": FAMILIES[number % len(FAMILIES)], "attempt": attempt, "kind": KINDS[number % len(KINDS)],
               "aperture": "", "how": ""}
        frame = base(row)
        dice = Dice(f"kind {name_of(row)} {attempt}")
        scale = oracle.smallest_scale(frame)
        if scale is None:
            continue
        more = {"critical": 0, "loose": dice.roll(50, 150), "impossible": dice.roll(0, 150)}[row["kind"]]
        row["scale_permille"] = -(-scale * (1000 + more) // 1000)
        if row["kind"] == "impossible":
            fault = oracle.fault(scaled(frame, row["scale_permille"]), dice)
            if fault is None:
                continue
            row["aperture"], row["how"] = fault
        return row
    raise RuntimeError(f"no frame for {size} {number}")


def read_rows():
    if not ROWS.exists():
        return []
    with open(ROWS, newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def write_rows(rows):
    order = list(COUNTS)
    rows = sorted(rows, key=lambda r: (order.index(r["size"]), int(r["number"])))
    with open(ROWS, "w", newline="") as file:
        file.write("# Recorded by generate.py --record; the numbers run from 0 without a gap, none was left out.\n")
        writer = csv.DictWriter(file, FIELDS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def record_missing(program, jobs):
    rows = read_rows()
    known = {(r["size"], int(r["number"])) for r in rows}
    wanted = [(size, n) for size, count in COUNTS.items() for n in range(count) if (size, n) not in known]
    wanted.sort(key=lambda w: (SETS["fresh"](*w), w[1] // 20))
    oracle = Oracle(program)
    with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
        tasks = [pool.submit(record, oracle, size, n) for size, n in wanted]
        for task in concurrent.futures.as_completed(tasks):
            rows.append(task.result())
            write_rows(rows)


def write_instances(folder, chosen, only):
    folder.mkdir(parents=True, exist_ok=True)
    for row in read_rows():
        name = name_of(row)
        if SETS[chosen](row["size"], int(row["number"])) and only in (None, name):
            (folder / f"{name}.json").write_text(json.dumps(instance(row), separators=(",", ":")) + "\n")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", nargs="?", type=pathlib.Path)
    parser.add_argument("--set", choices=SETS, default="all")
    parser.add_argument("--only")
    parser.add_argument("--record", metavar="PROGRAM")
    parser.add_argument("--jobs", type=int, default=1)
    arguments = parser.parse_args()
    if arguments.record:
        record_missing(arguments.record, arguments.jobs)
    if arguments.folder:
        write_instances(arguments.folder, arguments.set, arguments.only)
    return 0


if __name__ == "__main__":
    sys.exit(main())
