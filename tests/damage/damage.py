#!/usr/bin/env python3
"""Damages each example job at random and works out anew, apart from the program, what the plan must then say.

  damage.py PROGRAM [--times N] [--only EXAMPLE] [--jobs N] [--seed N] [--verbose]
  damage.py PROGRAM --self-test

One dimension, part, origin, place or word of examples/*.yaml is changed; `cotter plan --json` runs on both jobs; every
finding that differs between the two plans is worked out from catalog and job alone (the files beside this one: no code in
common with the program), and so are all the others of the damaged plan. What interface numbers cannot tell (routes, the
order of work) is counted and printed.
Fails when a finding differs, is missing or is one too many, when fewer than 9 in 10 of the changed findings could be worked
out (routes and the order of work aside), or when the program refuses more than 1 in 10 of the damaged jobs.
`--self-test` falsifies plans of the undamaged examples, each kind of verdict among them, and demands to be told.
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
import laws
import places
from joints import Joints
from stacks import Stack
from workshop import Catalog, Workshop, read_yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
LEAST_CHECKED = 0.9
MOST_REFUSED = 0.1
SECONDS = 60
OUTSIDE = {"route", "sequence"}  # laws of findings that are no matter of interface numbers
KNOWN = {*laws.LAWS, "stack", "kinds", "place", "connection", "condition"}  # of findings that are worked out
WORDS = ("ok", "accept", "add", "measure", "rework", "stop")
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


def key_of(finding):
    """Rule and features; a stack's form is named by its rule alone, whichever places it could not read."""
    return finding["rule"] if finding["law"] == "stack" else finding["id"]


def expectations(shop, findings):
    expected = places.open_places(shop) + places.connections(shop) + places.features(shop)
    expected += places.used_parts(shop) + Joints(shop).expected()
    complaints, unproven = [], 0
    for stack in shop.stacks():
        one = Stack(stack, shop, findings)
        expected += one.expected()
        if complaint := one.complaint():
            complaints.append(f"stack {stack['id']}: {complaint}")
        unproven += one.unproven
    return {one.key: one for one in expected}, complaints, unproven


def difference(finding, expected):
    """How a finding of the plan differs from what it must be; nothing when it does not."""
    if finding["verdict"] != expected.verdict:
        return f"says {finding['verdict']}, must say {expected.verdict}"
    if finding["verdict"] == "rework" and finding["operation"] != expected.operation:
        return f"names operation {finding['operation']}, must name {expected.operation}"
    if expected.result is not None and finding["result"] is not None:
        found = (finding["result"]["low"], finding["result"]["high"])
        if found != expected.result:
            return f"has result {found}, must have {expected.result}"
        if expected.margin is not None and finding["margin"] != expected.margin:
            return f"has margin {finding['margin']}, must have {expected.margin}"
    return ""


def bridged(finding, expected):
    """A joint that does not go, for which the plan names parts that stand between. Where the joint guards a life and
    the chain rests on values nobody vouches for or touches composite, docs/bridge.md has it measured or asked first."""
    if expected.verdict != "stop" or not finding["additions"]:
        return False
    if finding["verdict"] == "add":
        return True
    proposed = all(addition["proposed"] for addition in finding["additions"])
    return finding["verdict"] == "measure" and proposed and finding["guards"] != "nothing"


def judged_plan(shop, plan):
    """(complaints, keys worked out, keys beyond interface numbers by reason)."""
    expected, complaints, unproven = expectations(shop, plan["findings"])
    known, beyond = set(), {"smallest sets": "too many sets of pieces to try"} if unproven else {}
    found = {}
    for finding in plan["findings"]:
        key = key_of(finding)
        if key in found:
            complaints.append(f"{key} stands there twice")
        found[key] = finding
    for key, finding in found.items():
        one = expected.get(key)
        if one is None and finding["law"] in KNOWN:
            complaints.append(f"{key} ({finding['law']}) says {finding['verdict']}, and nothing asks for it")
        elif one is None:
            beyond[key] = finding["law"]
        elif one.verdict is None:
            beyond[key] = one.why_not
        elif bridged(finding, one):
            beyond[key] = "adapters"
        elif one.worse_by and finding["verdict"] != one.verdict and finding["verdict"] in ("stop", "measure"):
            beyond[key] = one.worse_by
        else:
            known.add(key)
            if text := difference(finding, one):
                complaints.append(f"{key} {text}")
    for key, one in expected.items():
        if key not in found and not one.optional and one.verdict is not None:
            complaints.append(f"{key} must say {one.verdict}, and is not there")
    return complaints, known, beyond


def changed(before, after):
    """Keys of the findings that differ between two plans."""
    facets = ("verdict", "result", "must", "should", "margin", "governs", "operation", "rests_on", "mismatches", "values")
    old = {key_of(one): [one[facet] for facet in facets] for one in before["findings"]}
    new = {key_of(one): [one[facet] for facet in facets] for one in after["findings"]}
    return {key for key in {*old, *new} if old.get(key) != new.get(key)}


def one_damage(task):
    """Outcome of one damaged job: (what was done, complaints, counts)."""
    example, number, seed, program = task
    catalog, job, before = STATE[example]
    dice = random.Random(f"{example} {number} {seed}")
    damaged = copy.deepcopy(job)
    what = damages.damage(damaged, catalog, dice)
    shop = Workshop(catalog, damaged)
    counts = collections.Counter()
    with tempfile.TemporaryDirectory(prefix="cotter_damage_") as folder:
        try:
            plan = plan_of(program, damaged, folder, f"job_{number}")
        except Refused as refused:
            counts["refused"] += 1
            return example, number, what, [], counts, str(refused)
    complaints, known, beyond = judged_plan(shop, plan)
    there = {key_of(one) for one in plan["findings"]}
    for key in changed(before, plan):
        if key in beyond:
            counts[f"beyond: {beyond[key]}"] += 1
        if beyond.get(key) not in OUTSIDE:
            counts["changed"] += 1
            counts["worked out"] += key in known or key not in there
    counts["all worked out"] += len(known)
    return example, number, what, complaints, counts, ""


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
        for example, number, what, complaints, counts, refusal in pool.imap_unordered(one_damage, tasks, 10):
            totals[example] += counts
            done[what.split(":")[0]] += 1
            wrong += [f"{example} {number} ({what}): {complaint}" for complaint in complaints]
            if verbose and refusal:
                print(f"{example} {number} ({what}) refused: {refusal[:300]}")
    return report(totals, done, wrong, times, time.monotonic() - begin)


def report(totals, done, wrong, times, seconds):
    for example, counts in totals.items():
        beyond = [f"{key[8:]} {count}" for key, count in sorted(counts.items()) if key.startswith("beyond: ")]
        print(
            f"{example}: {times} damages, {counts['refused']} refused as bad input; of {counts['changed']} changed "
            f"findings {counts['worked out']} worked out; not worked out: {', '.join(beyond) or 'none'}; "
            f"{counts['all worked out']} findings held in all"
        )
        if counts["changed"] == 0 or counts["worked out"] < LEAST_CHECKED * counts["changed"]:
            wrong.append(f"{example}: too few of the changed findings could be worked out")
        if counts["refused"] > MOST_REFUSED * times:
            wrong.append(f"{example}: too many damaged jobs were refused")
    print("damages: " + ", ".join(f"{what} {count}" for what, count in sorted(done.items())) + f"; {seconds:.0f} s")
    for complaint in wrong[:40]:
        print(f"WRONG {complaint}")
    print(f"{len(wrong)} differences")
    return 1 if wrong else 0


def falsified(plan, dice):
    """(what, plan) for plans with one thing falsified: each verdict to each other word, and more."""
    findings = plan["findings"]
    knowable = [i for i, one in enumerate(findings) if one["law"] in KNOWN]
    for word in WORDS:
        of_word = [i for i in knowable if findings[i]["verdict"] == word]
        for other in WORDS:
            if of_word and other != word:
                yield f"{word} as {other}", with_finding(plan, dice.choice(of_word), verdict=other)
    numbered = [i for i in knowable if findings[i]["result"]]
    chosen = dice.choice(numbered)
    result = findings[chosen]["result"]
    yield "a result", with_finding(plan, chosen, result={**result, "low": result["low"] - 1})
    fit = [i for i in numbered if findings[i]["law"] in ("difference", "bore_on_shaft", "at_most")]
    chosen = dice.choice(fit)
    yield "a margin", with_finding(plan, chosen, margin=findings[chosen]["margin"] + 1)
    for i in [i for i in knowable if findings[i]["verdict"] == "rework"][:1]:
        yield "an operation", with_finding(plan, i, operation="something_else")
    gone = [i for i in knowable if findings[i]["law"] != "radial_room"]
    yield "a finding left out", {**plan, "findings": [one for i, one in enumerate(findings) if i != gone[0]]}
    invented = {**findings[knowable[0]], "rule": "invented", "id": "invented@frame.head"}
    yield "a finding too many", {**plan, "findings": [*findings, invented]}
    yield "a finding twice", {**plan, "findings": [*findings, findings[knowable[0]]]}


def with_finding(plan, index, **changes):
    return {**plan, "findings": [{**one, **changes} if i == index else one for i, one in enumerate(plan["findings"])]}


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
    print("\n".join(missed + [f"self-test: {tried} falsified plans, {len(missed)} complaints"]))
    return 1 if missed else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("program")
    parser.add_argument("--times", type=int, default=300)
    parser.add_argument("--only", metavar="EXAMPLE")
    parser.add_argument("--jobs", type=int, default=min(4, os.cpu_count() or 1))
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--verbose", action="store_true", help="say why the program refused a job")
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
