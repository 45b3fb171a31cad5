#!/usr/bin/env python3
"""Breaks the program on purpose and demands that the outside checks notice.

Each entry of mutations.json (file, exact text, what stands there instead, topic) is applied alone to a copy of the last
commit; `cotter` and `test_oracle` are built there and the cases of that topic run. One case at least must fail. The real
tree is only read. Exit code: 0 every mutation was noticed, 1 one survived, 2 the copy itself does not build or pass.

  python3 tests/oracle/mutate.py [--keep FOLDER] [--only TOPIC] [--jobs N]
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
        """Cases of the topic that fail; a run that hangs or dies is one too."""
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
        sys.exit(f"{mutation['file']} does not hold exactly once: {mutation['old']}")
    return text.replace(mutation["old"], mutation["new"])


def try_out(copy, mutation):
    """How the mutation was noticed; nothing when it survived."""
    path = copy.tree / mutation["file"]
    original = path.read_text()
    path.write_text(replaced(mutation, original))
    try:
        if complaint := copy.build():
            print(complaint)
            sys.exit(f"{mutation['file']} does not build with: {mutation['new']}")
        return copy.failing(mutation["topic"])
    finally:
        path.write_text(original)


def run(folder, mutations, jobs):
    copy = Copy(folder, jobs)
    copy.fill()
    if complaint := copy.build():
        print(complaint)
        return 2
    for topic in sorted({mutation["topic"] for mutation in mutations}):
        if names := copy.failing(topic):
            print(f"{topic} fails before anything is broken: {', '.join(names)}")
            return 2
    survivors = 0
    print(f"{'topic':<11}{'kind':<21}{'file':<42}noticed by", flush=True)
    for mutation in mutations:
        names = try_out(copy, mutation)
        survivors += not names
        noticed = f"{len(names)}: {', '.join(names[:3])}" if names else "NOBODY"
        print(f"{mutation['topic']:<11}{mutation['kind']:<21}{mutation['file']:<42}{noticed}", flush=True)
    print(f"{len(mutations)} mutations, {survivors} survived")
    return 1 if survivors else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--keep", metavar="FOLDER", help="build here and leave it, so that the next run is quicker")
    parser.add_argument("--only", metavar="TOPIC", help="only the mutations of this topic")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    arguments = parser.parse_args()
    mutations = json.loads((ROOT / "tests/oracle/mutations.json").read_text())
    if arguments.only:
        mutations = [mutation for mutation in mutations if mutation["topic"] == arguments.only]
    if any(mutation["topic"] == "routing" for mutation in mutations) and "COTTER_REFERENCE_DATA" not in os.environ:
        print("The routing cases need the reference instances: set COTTER_REFERENCE_DATA, or name another topic with --only.")
        return 2
    if arguments.keep:
        return run(arguments.keep, mutations, arguments.jobs)
    with tempfile.TemporaryDirectory(prefix="cotter_mutate_") as folder:
        return run(folder, mutations, arguments.jobs)


if __name__ == "__main__":
    sys.exit(main())
