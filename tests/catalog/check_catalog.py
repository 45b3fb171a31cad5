#!/usr/bin/env python3
"""Holds docs/catalog.md against the catalog, and every entry of the catalog against its use.

  check_catalog.py [--write]

The tables between the marks `<!-- kinds -->` and `<!-- parts -->` of docs/catalog.md are written by this script; without
`--write` it fails when they are not what the catalog says. It also fails for a part that no example, test or pair uses
(a job has it in a place or as a line, a pair holds it against another, a test names it as a text; a word in a comment is no use),
for a new part with dimensions but without a paper (a frame map in catalog/frames has none on purpose), for a value or limit
of a standard that does not name the document, for a dimension that does not say how it is measured, for a rule that does not
say its source and what it guards, and when the catalog has fewer than 60 families.
"""

import itertools
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


def part_documents():
    """The parts, and the frame maps, which are parts to start from."""
    return itertools.chain(documents("parts", "parts"), documents("frames", "parts"))


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
    for file, part in part_documents():
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


def scalars(node, key=""):
    """(key, text) of every scalar of a document; in a list, the key of the list."""
    if isinstance(node, dict):
        for name, value in node.items():
            yield from scalars(value, name)
    elif isinstance(node, list):
        for value in node:
            yield from scalars(value, key)
    else:
        yield key, str(node)


def used_in_jobs():
    """Parts that fill a place or are a line of a job: `place: id`, or `part: id`."""
    jobs = [(ROOT / "examples").glob("*.yaml"), (ROOT / "tests").rglob("job*.yaml"), (ROOT / "tests/frames/jobs").glob("*.yaml")]
    for file in itertools.chain(*jobs):
        job = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        if not isinstance(job, dict):
            continue
        yield from (entry for entry in (job.get("places") or {}).values() if isinstance(entry, str))
        yield from (text for key, text in scalars([job.get("places"), job.get("lines")]) if key == "part")


def used_in_pairs():
    """Parts held against one another by tests/kinds/pairs.yaml: `own: id.feature`."""
    pairs = yaml.load((ROOT / "tests/kinds/pairs.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    yield from (text.split(".")[0] for key, text in scalars(pairs) if key in ("own", "other"))


def used_in_code():
    """Parts that a test names as a text of its own; what a comment says does not count."""
    for file in (ROOT / "tests").rglob("*.cpp"):
        code = re.sub(r"//[^\n]*|/\*.*?\*/", "", file.read_text(encoding="utf-8"), flags=re.DOTALL)
        yield from re.findall(r'"(\w+)"', code)


def used_names():
    return {*used_in_jobs(), *used_in_pairs(), *used_in_code()}


# A document that a reader can find: who issued it, and its number or its title.
DOCUMENT = re.compile(
    r"^(ISO|JIS|DIN|EN|BS|ANSI|ASTM|TBIS|NFPA|\d+ CFR)\b[ A-Z-]*\d|^[A-Z]\w+( \w+){3,}, [\w ]+: .+"
)


def stated_standards(node):
    """What stands under `standard` anywhere in an entry."""
    return [text for key, text in scalars(node) if key == "standard"]


def bare_standards(node):
    """Values whose text ends in the word `standard`: they name no document."""
    return [text for _, text in scalars(node) if re.search(r"\d\S*( \S+)? standard$", text)]


def standard_faults():
    for folder, key in (("parts", "parts"), ("kinds", "kinds"), ("bicycles", None), ("sections", None)):
        for file in sorted((ROOT / "catalog" / folder).rglob("*.yaml")):
            document = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
            for entry in document[key] if key else [document]:
                for text in stated_standards(entry):
                    if not DOCUMENT.search(text):
                        yield f"{file.name}: {entry['id']} calls this a standard, and it names no document: {text}"
                for text in bare_standards(entry):
                    yield f"{file.name}: {entry['id']} says `{text}` without the document; write {{value: ..., standard: \"...\"}}"


def faults():
    names = used_names()
    families = set()
    for file, part in part_documents():
        families.add(PLACE.sub("", part["family"]))
        if part["id"] not in names:
            yield f"{file.name}: {part['id']} is used by no example and no test (tests/kinds/pairs.yaml is the place for it)"
        if part.get("interfaces") and part.get("used") != "true" and not part.get("paper") and file.parent.name != "frames":
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


def guarded_meetings():
    """Pairs of kinds with a rule that guards something, but for the kinds of adapters: bridging tries those."""
    adapter = {side["kind"] for _, part in documents("parts", "parts") if part.get("joins") for side in part["interfaces"].values()}
    plain = {side["kind"] for _, part in documents("parts", "parts") if not part.get("joins") for side in part.get("interfaces", {}).values()}
    for _, kind in documents("kinds", "kinds"):
        for meeting in kind.get("meets", []):
            pair = {kind["id"], meeting["kind"]}
            if any(rule["guards"] != "nothing" for rule in meeting["rules"]) and not pair & (adapter - plain):
                yield frozenset(pair)


def reached_meetings():
    """Pairs of kinds that some joint of a template or section can bring together, by the names parts give their features;
    a line meets the devices it ends at by itself."""
    kinds, of_lines, all_kinds = {}, set(), set()
    examples = [yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader) for file in sorted((ROOT / "examples").glob("*.yaml"))]
    parts = [part for _, part in documents("parts", "parts")] + [part for job in examples for part in job.get("parts", [])]
    for part in parts:
        for name, side in part.get("interfaces", {}).items():
            kinds.setdefault(name, set()).add(side["kind"])
            all_kinds.add(side["kind"])
            if "line" in part:
                of_lines.add(side["kind"])
    for folder in ("bicycles", "sections"):
        for _, joint in documents(folder, "joints"):
            for a in kinds.get(joint["a"].split(".")[1], ()):
                for b in kinds.get(joint["b"].split(".")[1], ()):
                    yield frozenset({a, b})
    for line in of_lines:
        for kind in all_kinds:
            yield frozenset({line, kind})


# Guarded pairs that no joint reaches: nothing judges them in a whole bicycle. This list may only get shorter.
UNREACHED = {
    "crown_race_seat crown_race_split",
    "crown_seat integrated_code",
    "crown_seat pressed_code",
    "head_bearing integrated_code",
    "head_bore pressed_code",
    "head_cup pressed_code",
    "head_seat integrated_code",
    "integrated_code steerer",
    "lockring lockring_thread",
    "mudguard tyre_casing",
    "press_cup press_shell_composite",
    "press_cup_plastic press_shell_composite",
    "pressed_code steerer",
    "star_nut steerer",
}


def joint_faults():
    unreached = set(guarded_meetings()) - set(reached_meetings())
    known = {frozenset(pair.split(" ")) for pair in UNREACHED}
    for pair in sorted(" ".join(sorted(pair)) for pair in unreached - known):
        yield f"no joint of a template or section reaches the guarded pair: {pair}"
    for pair in sorted(" ".join(sorted(pair)) for pair in known - unreached):
        yield f"a joint reaches this pair now; take it off UNREACHED: {pair}"


def main():
    text = PAGE.read_text(encoding="utf-8")
    wanted = page_with(page_with(text, "kinds", kinds_table()), "parts", parts_table())
    if "--write" in sys.argv[1:]:
        PAGE.write_text(wanted, encoding="utf-8")
        text = wanted
    found = [*faults(), *kind_faults(), *standard_faults(), *joint_faults()]
    if text != wanted:
        found.append("docs/catalog.md: its tables are not what the catalog says; run tests/catalog/check_catalog.py --write")
    print("\n".join(found) if found else "catalog: every entry used, tables as the catalog is")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
