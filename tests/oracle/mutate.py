#!/usr/bin/env python3
"""Breaks the program on purpose and demands that the outside checks notice.

Each entry of mutations.json (file, exact text, what stands there instead, topic) is applied alone to a copy of the last
commit; `cotter` and `test_oracle` are built there and the cases of that topic run. One counted case at least must fail
(any case, where the topic counts nothing or the entry says `"uncounted": true`). The real tree is only read, but for docs/mutations.md, which --write makes
anew and `python3 tests/oracle/mutate.py --check` (a test) holds against mutations.json, the cases and the code.
Exit code: 0 every mutation was noticed, 1 one survived or the page is stale, 2 the copy does not build or pass.

  python3 tests/oracle/mutate.py [--keep FOLDER] [--only TOPIC] [--jobs N] [--write | --check]
"""
import argparse
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
TEST_SECONDS = 300
CONFIGURE = ["-G", "Ninja", "-DCMAKE_BUILD_TYPE=Debug", "-DCMAKE_CXX_FLAGS_DEBUG=-O1"]
LAUNCHER = ["-DCMAKE_CXX_COMPILER_LAUNCHER=ccache"]
LINKER = ["-DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=lld"]
PAGE = ROOT / "docs/mutations.md"
MUTATIONS = ROOT / "tests/oracle/mutations.json"
HEAD = """# Mutations

Would the outside checks notice a broken program? `python3 tests/oracle/mutate.py --write` breaks a copy of it in each of
the ways below, one at a time, and runs the cases of that topic ([checks.md](checks.md)). It fails when one goes unnoticed,
and writes this page. Only counted cases are taken as noticing, but for the one marked (derived). The test `oracle_mutations_page` holds the page against
`tests/oracle/mutations.json`, the case files and the code: what stands there must still be found there.

| topic | kind | file | what stands there | put in its place | noticed by |
| --- | --- | --- | --- | --- | --- |
"""


def found(program):
    return any(os.access(os.path.join(folder, program), os.X_OK) for folder in os.get_exec_path())


class Copy:
    """A copy of the last commit with a build folder of its own."""

    def __init__(self, folder, jobs):
        self.tree = pathlib.Path(folder) / "tree"
        self.build_folder = pathlib.Path(folder) / "build"
        self.jobs = jobs
        self.environment = dict(os.environ, CCACHE_BASEDIR=str(folder), CCACHE_NOHASHDIR="1")

    def fill(self):
        self.tree.mkdir(parents=True, exist_ok=True)
        archive = subprocess.run(["git", "archive", "HEAD"], cwd=ROOT, capture_output=True, check=True)
        subprocess.run(["tar", "--extract", "--touch"], cwd=self.tree, input=archive.stdout, check=True)
        options = CONFIGURE + (LAUNCHER if found("ccache") else []) + (LINKER if found("ld.lld") else [])
        subprocess.run(["cmake", "-S", self.tree, "-B", self.build_folder, *options], check=True, stdout=subprocess.DEVNULL)

    def build(self):
        """What the build says when it fails, else nothing."""
        command = ["ninja", "-C", str(self.build_folder), f"-j{self.jobs}", "cotter", "test_oracle"]
        run = subprocess.run(command, env=self.environment, capture_output=True, text=True)
        return "" if run.returncode == 0 else run.stdout[-3000:]

    def failing(self, topic):
        """Cases of the topic that fail; a run that hangs or dies is one too, and its name is in no case file."""
        program = next(self.build_folder.rglob("test_oracle"))
        command = [str(program), f"--gtest_filter=Case/Oracle.Solves/{topic}__*", "--gtest_brief=1"]
        try:
            run = subprocess.run(command, capture_output=True, text=True, timeout=TEST_SECONDS)
        except subprocess.TimeoutExpired:
            return ["(no answer in time)"]
        names = sorted(set(re.findall(rf"FAILED.*/{topic}__(\w+)", run.stdout)))
        return names or (["(the test program died)"] if run.returncode != 0 else [])


def replaced(mutation, text):
    if text.count(mutation["old"]) != 1:
        sys.exit(f"{mutation['file']} does not hold exactly once: {mutation['old']}\n"
                 "Has the line changed? Put the new text into tests/oracle/mutations.json.")
    return text.replace(mutation["old"], mutation["new"])


def cases_for(mutation):
    """Ids of the cases that may notice: those of the topic that count; all of them where none has to."""
    document = json.loads((ROOT / f"tests/oracle/cases/{mutation['topic']}.json").read_text())
    cases = document["cases"]
    counted = [case for case in cases if case["sure"] == "read in source" and "not_counted_because" not in case]
    return {case["id"] for case in (counted if document["counted"] and not mutation.get("uncounted") else cases)}


def cell(text):
    return text.replace("|", "\\|").replace("\n", " ")


def row(mutation, names):
    code = " | ".join(f"`{cell(mutation[key])}`" for key in ("file", "old", "new"))
    more = f" and {len(names) - 3} more" if len(names) > 3 else ""
    mark = " (derived)" if mutation.get("uncounted") else ""
    return f"| {mutation['topic']} | {mutation['kind']} | {code} | {', '.join(f'`{name}`' for name in names[:3])}{more}{mark} |"


def write_page(rows):
    PAGE.write_text(HEAD + "".join(line + "\n" for line in rows))


def check_page(mutations):
    """What on the page no longer holds."""
    complaints = []
    lines = PAGE.read_text()[len(HEAD):].splitlines() if PAGE.read_text().startswith(HEAD) else []
    if len(lines) != len(mutations):
        complaints.append(f"docs/mutations.md has {len(lines)} rows, mutations.json has {len(mutations)} entries")
    for mutation, line in zip(mutations, lines):
        begin = row(mutation, []).rsplit("|", 2)[0]
        if not line.startswith(begin):
            complaints.append(f"a row is not the entry of mutations.json: {line}")
            continue
        names = re.findall(r"`(\w+)`", line[len(begin):])
        if not names or not set(names) <= cases_for(mutation):
            complaints.append(f"noticed by a case that does not count, or by none: {line}")
        if (ROOT / mutation["file"]).read_text().count(mutation["old"]) != 1:
            complaints.append(f"{mutation['file']} does not hold exactly once: {mutation['old']}")
    for path in sorted((ROOT / "tests/oracle/cases").glob("*.json")):
        of_topic = [mutation for mutation in mutations if mutation["topic"] == path.stem]
        if json.loads(path.read_text())["counted"] and len(of_topic) < 2:
            complaints.append(f"topic {path.stem} counts and has fewer than two mutations")
    return complaints


def try_out(copy, mutation):
    """How the mutation was noticed; nothing when it survived."""
    path = copy.tree / mutation["file"]
    original = path.read_text()
    path.write_text(replaced(mutation, original))
    try:
        if complaint := copy.build():
            print(complaint)
            sys.exit(f"{mutation['file']} does not build with: {mutation['new']}")
        known = cases_for(mutation)
        return [name for name in copy.failing(mutation["topic"]) if name in known or name.startswith("(")]
    finally:
        path.write_text(original)


def run(folder, mutations, jobs, write):
    copy = Copy(folder, jobs)
    copy.fill()
    if complaint := copy.build():
        print(complaint)
        return 2
    for topic in sorted({mutation["topic"] for mutation in mutations}):
        if names := copy.failing(topic):
            print(f"{topic} fails before anything is broken: {', '.join(names)}")
            return 2
    rows = []
    survivors = 0
    print(f"{'topic':<15}{'kind':<21}{'file':<42}noticed by", flush=True)
    for mutation in mutations:
        names = try_out(copy, mutation)
        survivors += not names
        rows.append(row(mutation, names))
        noticed = f"{len(names)}: {', '.join(names[:3])}" if names else "NOBODY"
        print(f"{mutation['topic']:<15}{mutation['kind']:<21}{mutation['file']:<42}{noticed}", flush=True)
    print(f"{len(mutations)} mutations, {survivors} survived")
    if write and not survivors:
        write_page(rows)
    return 1 if survivors else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--keep", metavar="FOLDER", help="build here and leave it, so that the next run is quicker")
    parser.add_argument("--only", metavar="TOPIC", help="only the mutations of this topic")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    parser.add_argument("--write", action="store_true", help="write docs/mutations.md when every mutation was noticed")
    parser.add_argument("--check", action="store_true", help="build nothing; only hold docs/mutations.md against the repository")
    arguments = parser.parse_args()
    mutations = json.loads(MUTATIONS.read_text())
    if arguments.check:
        complaints = check_page(mutations)
        print("\n".join(complaints) if complaints else f"docs/mutations.md: {len(mutations)} mutations, as they stand")
        return 1 if complaints else 0
    if arguments.write and arguments.only:
        parser.error("--write makes the whole page: not with --only")
    if arguments.only:
        mutations = [mutation for mutation in mutations if mutation["topic"] == arguments.only]
    if any(mutation["topic"] == "routing" for mutation in mutations) and "COTTER_REFERENCE_DATA" not in os.environ:
        print("The routing cases need the reference instances: set COTTER_REFERENCE_DATA, or name another topic with --only.")
        return 2
    if arguments.keep:
        return run(arguments.keep, mutations, arguments.jobs, arguments.write)
    with tempfile.TemporaryDirectory(prefix="cotter_mutate_") as folder:
        return run(folder, mutations, arguments.jobs, arguments.write)


if __name__ == "__main__":
    sys.exit(main())
