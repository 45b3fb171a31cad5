#!/usr/bin/env python3
"""Our verdicts and optima on the invented frames against those of two outside solvers, recorded in optima.csv.

  check_optima.py PROGRAM [--size small|medium|large] [--every N]
"""
import argparse
import csv
import json
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1] / "bench/route"))

import generate  # noqa: E402


def recorded():
    with open(HERE / "optima.csv", newline="") as file:
        return {row["instance"]: (row["verdict"], row["optimum"]) for row in csv.DictReader(x for x in file if not x.startswith("#"))}


def ours(program, problem):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(problem, file)
        file.flush()
        run = subprocess.run([program, "solve", "route", file.name], capture_output=True, text=True)
    if run.returncode not in (0, 1):
        return (run.stderr + run.stdout).strip(), ""
    result = json.loads(run.stdout)
    return result["status"], str(result["objective"]) if result["status"] == "optimal" else ""


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--size")
    parser.add_argument("--every", type=int, default=1)
    arguments = parser.parse_args()
    outside, asked, wrong = recorded(), 0, []
    for row in generate.read_rows():
        name = generate.name_of(row)
        if name not in outside or arguments.size not in (None, row["size"]) or int(row["number"]) % arguments.every:
            continue
        asked += 1
        found = ours(arguments.program, generate.instance(row))
        if found != outside[name]:
            wrong.append(f"{name}: ours {found}, outside {outside[name]}")
    print("\n".join(wrong) or f"{asked} verdicts and optima as recorded")
    return bool(wrong) or not asked


sys.exit(main())
