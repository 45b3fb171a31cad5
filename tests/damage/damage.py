#!/usr/bin/env python3
"""Damages each example job at random and works out anew, apart from the program, what the plan must then say.

  damage.py PROGRAM [--times N] [--only EXAMPLE] [--jobs N] [--seed N] [--verbose]
  damage.py PROGRAM --self-test

One dimension, part, origin, place or word of examples/*.yaml is changed; `cotter plan --json` runs on both jobs; every
finding that differs between the two plans is worked out from catalog and job alone (the files beside this one: no code in
common with the program), and so are all the others of the damaged plan, each with its verdict, numbers, window, values, what
it guards and who may pass it, press fit and proposed adapters. What interface numbers cannot tell (routes, the order of work)
is counted and printed.
Fails when a finding differs, is missing or is one too many, when fewer than 9 in 10 of the changed findings of any law (or
of the smallest sets of pieces) could be worked out (routes and the order of work aside), when the program refuses a job
that is in order or plans one that is not, or when it refuses more than 1 in 10.
`--self-test` falsifies plans of the undamaged examples, each verdict and each facet of a finding, and demands to be told.
"""
import argparse
import collections
import copy
import json
import multiprocessing
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time

import damages
import refusals
from falsify import FACETS, WORDS, falsified
from judge import KNOWN, SETS, judged_plan, key_of
from workshop import Catalog, Workshop, read_yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
LEAST_CHECKED = 0.9
MOST_REFUSED = 0.1
SECONDS = 60
OUTSIDE = {"route", "sequence"}  # laws of findings that are no matter of interface numbers
STATE = {}


class Refused(Exception):
    """The program found the job wrong."""


def plan_of(program, job, folder, name):
    path = pathlib.Path(folder) / f"{name}.yaml"
    path.write_text(damages.as_yaml(job))
    command = [program, "plan", "--json", str(path)]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=SECONDS)
    path.unlink()
    try:
        return json.loads(run.stdout)
    except json.JSONDecodeError:
        raise Refused(run.stderr.strip()) from None


def changed(before, after):
    """Law of each finding that differs between two plans, by key."""
    aside = {"facts", "measurements", "advice", "probability", "id", "about"}
    old, new = (
        {key_of(one): {name: facet for name, facet in one.items() if name not in aside} for one in plan["findings"]}
        for plan in (before, after)
    )
    return {key: (new.get(key) or old[key])["law"] for key in {*old, *new} if old.get(key) != new.get(key)}


def one_damage(task):
    """Outcome of one damaged job: (what was done, complaints, counts)."""
    example, number, seed, program = task
    catalog, job, before = STATE[example]
    dice = random.Random(f"{example} {number} {seed}")
    damaged = copy.deepcopy(job)
    what = damages.damage(damaged, catalog, dice)
    shop = Workshop(catalog, damaged)
    counts, wrong = collections.Counter(), refusals.reasons(shop)
    with tempfile.TemporaryDirectory(prefix="cotter_damage_") as folder:
        try:
            plan = plan_of(program, damaged, folder, f"job_{number}")
        except Refused as refused:
            counts["refused"] += 1
            complaints = [] if wrong else [f"refused, and nothing is wrong with it: {str(refused)[:300]}"]
            return example, number, what, complaints, counts
    complaints, known, beyond = judged_plan(shop, plan)
    complaints += [f"not refused: {reason}" for reason in wrong]
    there = {key_of(one) for one in plan["findings"]}
    count(counts, changed(before, plan), known, beyond, there)
    counts["all worked out"] += len(known)
    counts["proposals"] += sum(1 for one in plan["findings"] if any(more["proposed"] for more in one["additions"]))
    counts["press fits"] += sum(1 for one in plan["findings"] if one["press"] and one["press"]["steps"])
    return example, number, what, complaints, counts


def count(counts, differing, known, beyond, there):
    """For each law how many findings changed, and how many of them were worked out; every stack counts for its pieces."""
    stacks = {key.split(".")[0] for key, law in differing.items() if law == "stack"}
    for key, law in [*differing.items(), *((f"{SETS} {stack}", SETS) for stack in stacks)]:
        if key in beyond:
            counts[f"beyond: {beyond[key]}"] += 1
        if beyond.get(key) not in OUTSIDE:
            counts[f"changed: {law}"] += 1
            counts[f"worked out: {law}"] += key in known or (law == SETS and key not in beyond) or key not in there | {*beyond}


def load(examples, program):
    catalog = Catalog(ROOT / "catalog")
    for path in examples:
        job = read_yaml(path)
        with tempfile.TemporaryDirectory(prefix="cotter_damage_") as folder:
            STATE[path.stem] = (catalog, job, plan_of(program, job, folder, "before"))


def undamaged(name):
    """The examples as they are must come out right too."""
    catalog, job, plan = STATE[name]
    complaints, known, _ = judged_plan(Workshop(catalog, job), plan)
    return [f"{name}, undamaged: {complaint}" for complaint in complaints], len(known)


def run(program, examples, times, jobs, seed, verbose):
    begin = time.monotonic()
    load(examples, program)
    wrong = [complaint for path in examples for complaint in undamaged(path.stem)[0]]
    tasks = [(path.stem, number, seed, program) for path in examples for number in range(times)]
    totals = {path.stem: collections.Counter() for path in examples}
    done = collections.Counter()
    with multiprocessing.get_context("fork").Pool(jobs) as pool:
        for example, number, what, complaints, counts in pool.imap_unordered(one_damage, tasks, 10):
            totals[example] += counts
            done[what.split(":")[0]] += 1
            wrong += [f"{example} {number} ({what}): {complaint}" for complaint in complaints]
            if verbose and counts["refused"]:
                print(f"{example} {number} ({what}) refused")
    return report(totals, done, wrong, times, time.monotonic() - begin)


def named_counts(counts, prefix):
    return {key.removeprefix(prefix): counts[key] for key in sorted(counts) if key.startswith(prefix) and counts[key]}


def report(totals, done, wrong, times, seconds):
    for example, counts in totals.items():
        differing, worked_out = (named_counts(counts, prefix) for prefix in ("changed: ", "worked out: "))
        beyond = [f"{why} {number}" for why, number in named_counts(counts, "beyond: ").items()]
        laws = [f"{law} {worked_out.get(law, 0)} of {number}" for law, number in differing.items()]
        print(f"{example}: {times} damages, {counts['refused']} refused as bad input")
        print(f"  changed findings worked out, by law: {', '.join(laws)}; not worked out: {', '.join(beyond) or 'none'}")
        print(
            f"  held in all: {counts['all worked out']} findings, {counts['proposals']} of them with proposed adapters, "
            f"{counts['press fits']} with a press fit"
        )
        for law, number in differing.items():
            if worked_out.get(law, 0) < LEAST_CHECKED * number:
                wrong.append(f"{example}: too few of the changed findings of law {law} could be worked out")
        if not differing:
            wrong.append(f"{example}: no damage changed a finding")
        if counts["refused"] > MOST_REFUSED * times:
            wrong.append(f"{example}: too many damaged jobs were refused")
    print("damages: " + ", ".join(f"{what} {number}" for what, number in sorted(done.items())) + f"; {seconds:.0f} s")
    for complaint in wrong[:40]:
        print(f"WRONG {complaint}")
    print(f"{len(wrong)} differences")
    return 1 if wrong else 0


def self_test(program, examples):
    load(examples, program)
    dice = random.Random("self-test")
    missed, kinds, tried = [], set(), 0
    for path in examples:
        catalog, job, plan = STATE[path.stem]
        shop = Workshop(catalog, job)
        missed += undamaged(path.stem)[0]
        for what, false in falsified(plan, dice):
            tried += 1
            kinds.add(what.split(" as ")[0])
            if not judged_plan(shop, false)[0]:
                missed.append(f"{path.stem}: {what} went unnoticed")
    missed += [f"no example has the verdict {word}" for word in WORDS if word not in kinds]
    missed += [f"no example was falsified in: {facet}" for facet in FACETS if facet not in kinds]
    print("\n".join(missed + [f"self-test: {tried} falsified plans, {len(missed)} complaints"]))
    return 1 if missed else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("program")
    parser.add_argument("--times", type=int, default=300)
    parser.add_argument("--only", metavar="EXAMPLE")
    parser.add_argument("--jobs", type=int, default=min(4, os.cpu_count() or 1))
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--verbose", action="store_true", help="say which jobs the program refused")
    parser.add_argument("--self-test", action="store_true")
    arguments = parser.parse_args()
    program = str(pathlib.Path(arguments.program).resolve())
    examples = [path for path in sorted((ROOT / "examples").glob("*.yaml")) if arguments.only in (None, path.stem)]
    if not examples:
        parser.error(f"no such example: {arguments.only}")
    if arguments.self_test:
        return self_test(program, examples)
    return run(program, examples, arguments.times, arguments.jobs, arguments.seed, arguments.verbose)


if __name__ == "__main__":
    sys.exit(main())
