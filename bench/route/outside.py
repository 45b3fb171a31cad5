#!/usr/bin/env python3
"""Verdicts and optima by solvers that are not ours, kept in tests/route/optima.csv so that tests need none of them.

  outside.py optima WORK COMPARE HIGHS_FROM             Z3 and HiGHS on the set `equality`; writes the table
  outside.py conflicts WORK COMPARE PROGRAM [--count N] conflict sets of ours, proven irreducible by Z3
COMPARE is the program route_compare, HIGHS_FROM a folder with node_modules/highs, WORK a folder for what is made on the
way: instances answered there already are not asked again.
"""
import argparse
import csv
import datetime
import json
import pathlib
import subprocess
import sys

import generate

TABLE = pathlib.Path(__file__).resolve().parents[2] / "tests/route/optima.csv"
SECONDS = "300"


def answers(file):
    if not file.exists():
        return {}
    with open(file, newline="") as lines:
        return {row["instance"]: (row["verdict"], row["optimum"]) for row in csv.DictReader(x for x in lines if not x.startswith("#"))}


def ask(compare, solver, files, folder, programs=None):
    """One answer file an instance, so that a run can be broken off."""
    folder.mkdir(parents=True, exist_ok=True)
    for file in files:
        answer = folder / f"{file.stem}.csv"
        if not answer.exists():
            lp = ["--lp", str(programs)] if programs else []
            run = subprocess.run([compare, "--only", solver, "--limit", SECONDS, "--answers", str(answer) + ".tmp", *lp, str(file)], capture_output=True)
            if run.returncode == 0:
                pathlib.Path(str(answer) + ".tmp").rename(answer)
    return {name: found for file in files for name, found in answers(folder / f"{file.stem}.csv").items()}


def highs(highs_from, programs, folder):
    folder.mkdir(parents=True, exist_ok=True)
    script = pathlib.Path(__file__).with_name("highs.mjs")
    environment = {"HIGHS_FROM": str(pathlib.Path(highs_from).resolve()), "PATH": "/usr/local/bin:/usr/bin:/bin"}
    subprocess.run(["node", script, SECONDS, folder, *programs], env=environment, check=True)
    found = {name: answer for file in programs for name, answer in answers(folder / f"{file.stem}.csv").items()}
    version = json.loads((pathlib.Path(highs_from) / "node_modules/highs/package.json").read_text())["version"]
    return found, f"HiGHS as npm highs {version}"


def write_optima(work, compare, highs_from):
    instances, programs = work / "instances", work / "lp"
    programs.mkdir(parents=True, exist_ok=True)
    generate.write_instances(instances, "equality", None)
    files = [instances / f"{generate.name_of(row)}.json" for row in generate.read_rows() if row["size"] != "xl"]
    z3 = ask(compare, "z3", files, work / "z3", programs)
    by_highs, version = highs(highs_from, [programs / f"{file.stem}.lp" for file in files], work / "highs")
    wrong = [f"{name}: Z3 {z3.get(name)}, HiGHS {by_highs.get(name)}" for name in sorted(by_highs) if z3.get(name) != by_highs[name] or by_highs[name][0] == "unproven"]
    with open(TABLE, "w") as out:
        out.write(f"# Instances of bench/route/generate.py by Z3 {z3_version()} (optimise) and {version} on columns, {datetime.date.today()}; both say the same.\n")
        out.write("instance,verdict,optimum\n")
        for name in sorted(by_highs):
            if z3.get(name) == by_highs[name] and by_highs[name][0] != "unproven":
                out.write(",".join((name, *by_highs[name])) + "\n")
    print(f"{len(by_highs) - len(wrong)} instances equal")
    print("\n".join(wrong))
    return bool(wrong)


def z3_version():
    return subprocess.run(["dpkg-query", "-W", "-f", "${Version}", "libz3-dev"], capture_output=True, text=True).stdout


def with_lines(problem, lines, name):
    return {**problem, "name": name, "lines": [problem["lines"][k] for k in lines]}


def judge_conflicts(work, compare, program, count):
    folder = work / "conflicts"
    folder.mkdir(parents=True, exist_ok=True)
    wanted, sets = {}, 0
    for row in sorted(generate.read_rows(), key=lambda r: int(r["number"])):
        if row["kind"] != "impossible" or row["size"] == "xl" or sets == count:
            continue
        problem = generate.instance(row)
        file = folder / f"{problem['name']}.json"
        file.write_text(json.dumps(problem))
        result = json.loads(subprocess.run([program, "solve", "route", str(file)], capture_output=True, text=True).stdout)
        conflict = result.get("conflict")
        if not conflict or not conflict["irreducible"]:
            print(f"{problem['name']}: no irreducible conflict ({result['status']})")
            continue
        sets += 1
        parts = {"all": conflict["lines"], **{f"without_{k}": [j for j in conflict["lines"] if j != k] for k in conflict["lines"]}}
        for part, lines in parts.items():
            name = f"{problem['name']}.{part}"
            (folder / f"{name}.json").write_text(json.dumps(with_lines(problem, lines, name)))
            wanted[name] = "infeasible" if part == "all" else "optimal"
    found = ask(compare, "z3", [folder / f"{name}.json" for name in wanted], work / "conflicts_z3")
    wrong = [f"{name}: {found.get(name)} and not {verdict}" for name, verdict in wanted.items() if found.get(name, ("",))[0] != verdict]
    print(f"{sets} conflict sets, {len(wanted) - len(wrong)} of {len(wanted)} verdicts as they must be")
    print("\n".join(wrong))
    return bool(wrong)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("what", choices=["optima", "conflicts"])
    parser.add_argument("work", type=pathlib.Path)
    parser.add_argument("compare")
    parser.add_argument("more")
    parser.add_argument("--count", type=int, default=50)
    arguments = parser.parse_args()
    if arguments.what == "optima":
        return write_optima(arguments.work, arguments.compare, arguments.more)
    return judge_conflicts(arguments.work, arguments.compare, arguments.more, arguments.count)


if __name__ == "__main__":
    sys.exit(main())
