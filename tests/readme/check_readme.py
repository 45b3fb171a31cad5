#!/usr/bin/env python3
"""Every transcript in README.md is what the program says today.

A transcript is a ```text block whose first line is `$ cotter ...`; a line that is just `...` ends the comparison there.
Usage: check_readme.py PROGRAM [--write]     --write puts today's output (same number of lines) into README.md
"""
import os
import pathlib
import re
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
README = ROOT / "README.md"
BLOCK = re.compile(r"```text\n\$ cotter ([^\n]*)\n(.*?)```", re.S)


def output_of(program, arguments):
    environment = dict(os.environ, COLUMNS="100", NO_COLOR="1")
    done = subprocess.run([program, *shlex.split(arguments)], cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
    return done.stdout.splitlines()


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    write = "--write" in sys.argv
    text = README.read_text()
    wrong = 0
    blocks = BLOCK.findall(text)
    if not blocks:
        print("README.md holds no transcript")
        return 1
    for arguments, body in blocks:
        lines = body.splitlines()
        shown = lines[: lines.index("...")] if "..." in lines else lines
        today = output_of(program, arguments)
        if "..." in lines:
            today = today[: len(shown)]
        if today == shown:
            continue
        wrong += 1
        print(f"README.md: `cotter {arguments}` prints something else today")
        if write:
            text = text.replace(body, "\n".join(today + (["..."] if "..." in lines else [])) + "\n", 1)
    if write:
        README.write_text(text)
        return 0
    print(f"README: {len(blocks)} transcripts, {wrong} of them stale")
    return bool(wrong)


sys.exit(main())
