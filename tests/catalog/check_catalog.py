#!/usr/bin/env python3
"""Holds docs/catalog.md against the catalog, and every entry of the catalog against its use.

  check_catalog.py [--write]

The tables between the marks `<!-- kinds -->` and `<!-- parts -->` of docs/catalog.md are written by this script; without
`--write` it fails when they are not what the catalog says. It also fails for a part that no example, test or pair uses,
for a new part with dimensions but without a paper, for a
dimension that does not say how it is measured, for a rule that does not say its source and what it guards, and when the
catalog has fewer than 60 families.
"""

import pathlib
import re
import sys

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs" / "catalog.md"
LEAST_FAMILIES = 60
# Families that differ only in where the part sits count once.
PLACE = re.compile(r"^(front|rear|left|right|inner|outer)_|_(upper|lower|above|below)$")


def documents(folder, key):
    """The entries of every file of a folder of the catalog, with the file they stand in; all scalars are text."""
    for file in sorted((ROOT / "catalog" / folder).rglob("*.yaml")):
        for entry in yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)[key]:
            yield file, entry


def title(file):
    return file.stem.replace("_", " ").capitalize()


def row(cells):
    return "| " + " | ".join(cells) + " |"


def kinds_table():
    lines, last = [], None
    for file, kind in documents("kinds", "kinds"):
        if file != last:
            lines += ["", f"### {title(file)}", "", row(["kind", "what", "dimensions and words", "meets"]), "| --- | --- | --- | --- |"]
            last = file
        fields = [*kind.get("dimensions", {}), *kind.get("words", {})]
        meets = [meeting["kind"] for meeting in kind.get("meets", [])]
        lines.append(row([f"`{kind['id']}`", kind["label"], ", ".join(fields) or "-", "; ".join(meets) or "-"]))
    return lines[1:]


def parts_table():
    counts, families = {}, {}
    for file, part in documents("parts", "parts"):
        counts[file.name] = counts.get(file.name, 0) + 1
        families.setdefault(PLACE.sub("", part["family"]), []).append(part["id"])
    lines = [f"{sum(counts.values())} entries of {len(families)} families, counting a family once in all its sizes and places.", ""]
    lines += [row(["file", "entries"]), "| --- | --- |"] + [row([f"`{name}`", str(count)]) for name, count in sorted(counts.items())]
    lines += ["", row(["family", "entries"]), "| --- | --- |"]
    lines += [row([family.replace("_", " "), ", ".join(f"`{one}`" for one in ids)]) for family, ids in sorted(families.items())]
    return lines


def page_with(text, mark, lines):
    begin, end = f"<!-- {mark} -->", f"<!-- /{mark} -->"
    if begin not in text or end not in text:
        sys.exit(f"{PAGE.name}: the marks {begin} and {end} are missing")
    head, tail = text.split(begin)[0], text.split(end)[1]
    return head + begin + "\n" + "\n".join(lines) + "\n" + end + tail


def used_names():
    """Every word of the examples and tests; golden files only repeat what an example has."""
    names = set()
    for folder in ("examples", "tests"):
        for file in (ROOT / folder).rglob("*"):
            if file.suffix in {".yaml", ".json", ".cpp", ".csv", ".py"} and "golden" not in file.parts:
                names.update(re.findall(r"\w+", file.read_text(encoding="utf-8", errors="replace")))
    return names


def faults():
    names = used_names()
    families = set()
    for file, part in documents("parts", "parts"):
        families.add(PLACE.sub("", part["family"]))
        if part["id"] not in names:
            yield f"{file.name}: {part['id']} is used by no example and no test (tests/kinds/pairs.yaml is the place for it)"
        if part.get("interfaces") and part.get("used") != "true" and not part.get("paper"):
            yield f"{file.name}: {part['id']} says nowhere where its values come from"
    if len(families) < LEAST_FAMILIES:
        yield f"only {len(families)} families; {LEAST_FAMILIES} are wanted"


def kind_faults():
    for file, kind in documents("kinds", "kinds"):
        for name, dimension in kind.get("dimensions", {}).items():
            for field in ("feature", "faces", "tool", "resolution", "minutes"):
                if not dimension.get("measure", {}).get(field):
                    yield f"{file.name}: {kind['id']}.{name} does not say its {field} under `measure`"
        for meeting in kind.get("meets", []):
            for rule in meeting.get("rules", []):
                for field in ("source", "guards", "may_pass"):
                    if field not in rule:
                        yield f"{file.name}: rule {rule['id']} does not say its {field}"


def main():
    text = PAGE.read_text(encoding="utf-8")
    wanted = page_with(page_with(text, "kinds", kinds_table()), "parts", parts_table())
    if "--write" in sys.argv[1:]:
        PAGE.write_text(wanted, encoding="utf-8")
        text = wanted
    found = [*faults(), *kind_faults()]
    if text != wanted:
        found.append("docs/catalog.md: its tables are not what the catalog says; run tests/catalog/check_catalog.py --write")
    print("\n".join(found) if found else "catalog: every entry used, tables as the catalog is")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
