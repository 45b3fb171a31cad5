#!/usr/bin/env python3
"""Plans the jobs of the frame maps: one that is solved and one that is impossible for each map.

  check_jobs.py PROGRAM

What a plan must say stands in tests/frames/expected/*.yaml, worked out by hand on the map: the verdict on the lines, how many
run, which holes each line takes (where `ways` is given), and the sentences in which the plan and `why` say it. Each map of
catalog/frames has both jobs, and the impossible one differs from the solved one in a single entry.
"""

import json
import pathlib
import subprocess
import sys

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
JOBS = ROOT / "tests/frames/jobs"
FINDING = "route.all_lines@lines"
LEAST_LINES = 4
NAMES = ("id", "title", "note")


def load(file):
    return yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def printed(program, *arguments):
    """What the program prints; a plan with a stop ends with 1, anything above is a fault of the job."""
    done = subprocess.run([program, *arguments], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode > 1:
        sys.exit(f"cotter {' '.join(arguments)} ends with {done.returncode}: {done.stderr[:500]}")
    return done.stdout


def unwrapped(text):
    return " ".join(text.split())


def expectation_faults(program, name, wanted):
    file = str(JOBS / f"{name}.yaml")
    plan = json.loads(printed(program, "plan", file, "--json"))
    verdicts = [finding["verdict"] for finding in plan["findings"] if finding["id"] == FINDING]
    if verdicts != [wanted["verdict"]]:
        yield f"{name}: {FINDING} is {verdicts}, not {wanted['verdict']}"
    if len(plan["lines"]) != int(wanted["runs"]):
        yield f"{name}: {len(plan['lines'])} lines run, not {wanted['runs']}"
    ways = {run["number"]: [step["opening"] for step in run["steps"]] for run in plan["lines"]}
    for number, way in wanted.get("ways", {}).items():
        if ways.get(number) != way:
            yield f"{name}: {number} goes by {ways.get(number)}, not by {way}"
    text = unwrapped(printed(program, "why", file, FINDING) + printed(program, "plan", file))
    for sentence in wanted["words"]:
        if unwrapped(sentence) not in text:
            yield f"{name}: the plan does not say: {unwrapped(sentence)}"


def entries(job):
    """The entries of a job: each place, each line, each other thing, without its own name and title."""
    for section, held in job.items():
        if section in NAMES:
            continue
        items = held.items() if isinstance(held, dict) else enumerate(held) if isinstance(held, list) else [("", held)]
        for key, value in items:
            yield section, key, json.dumps(value, sort_keys=True)


def pair_faults(name, frames):
    solved, impossible = load(JOBS / f"{name}.yaml"), load(JOBS / f"{name}_impossible.yaml")
    if not frames <= {place if isinstance(place, str) else place.get("part") for place in solved["places"].values()}:
        yield f"{name}: the job does not use {' and '.join(sorted(frames))}"
    if len(solved["lines"]) < LEAST_LINES:
        yield f"{name}: {len(solved['lines'])} lines, at least {LEAST_LINES} are wanted"
    before, after = set(entries(solved)), set(entries(impossible))
    if len({(section, key) for section, key, _ in before ^ after}) != 1:
        yield f"{name}_impossible: differs from {name} in more or less than one entry"


def faults(program):
    expected = {}
    for file in sorted((ROOT / "tests/frames/expected").glob("*.yaml")):
        expected.update(load(file))
    for file in sorted((ROOT / "catalog/frames").glob("*.yaml")):
        missing = [job for job in (file.stem, f"{file.stem}_impossible") if job not in expected or not (JOBS / f"{job}.yaml").is_file()]
        yield from (f"{file.name}: no job or no expectation named {job}" for job in missing)
        if not missing:
            yield from pair_faults(file.stem, {part["id"] for part in load(file)["parts"]})
    for name, wanted in expected.items():
        yield from expectation_faults(program, name, wanted)


def main():
    found = list(faults(pathlib.Path(sys.argv[1]).resolve()))
    print("\n".join(found) if found else "frame jobs: every solved one has its ways, every impossible one says why")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
