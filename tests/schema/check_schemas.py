#!/usr/bin/env python3
"""Holds the published schemas against the documents of the repository, with a validator that is not ours.

  check_schemas.py PROGRAM

Every schema that `cotter schema` prints must be a sound JSON Schema; every catalog file, example, and problem must pass
the one of its kind, every interface of every part the one of its interface kind; and broken documents must be refused
by schema and program alike.

How YAML and schema meet (docs/formats.md): in YAML every scalar is text. Where the schema asks for a whole number, a
number or a flag, a scalar without quotes is taken for one when it is spelt as in JSON.
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema
import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
NUMBER = re.compile(r"-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?")
INTEGER = re.compile(r"-?(0|[1-9][0-9]*)")


class Plain(str):
    """A scalar written without quotes."""


class Loader(yaml.SafeLoader):
    """Every scalar as text; keys too."""


def text_of(loader, node):
    return Plain(node.value) if node.style is None else node.value


Loader.yaml_implicit_resolvers = {}
Loader.add_constructor("tag:yaml.org,2002:str", text_of)


def cotter(*arguments):
    return subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, text=True, cwd=ROOT)


def resolved(schema, root):
    while "$ref" in schema:
        schema = root["$defs"][schema["$ref"].removeprefix("#/$defs/")]
    return schema


def types_of(schema):
    types = schema.get("type", [])
    return [types] if isinstance(types, str) else types


def scalar(value, schema):
    """What an unquoted scalar stands for where this schema is asked of it."""
    types = types_of(schema)
    if not isinstance(value, Plain) or "string" in types:
        return value
    if "boolean" in types and value in ("true", "false"):
        return value == "true"
    if "integer" in types and INTEGER.fullmatch(value):
        return int(value)
    if "number" in types and NUMBER.fullmatch(value):
        return float(value)
    return value


def read_by(value, schema, root):
    """The YAML value as this schema reads it."""
    schema = resolved(schema, root)
    for choice in schema.get("anyOf", []):
        read = read_by(value, choice, root)
        if jsonschema.Draft202012Validator({**choice, "$defs": root.get("$defs", {})}).is_valid(read):
            return read
    if isinstance(value, dict):
        properties, others = schema.get("properties", {}), schema.get("additionalProperties", {})
        others = others if isinstance(others, dict) else {}
        return {str(key): read_by(item, properties.get(key, others), root) for key, item in value.items()}
    if isinstance(value, list):
        return [read_by(item, schema.get("items", {}), root) for item in value]
    return scalar(value, schema)


def faults(document, schema):
    validator = jsonschema.Draft202012Validator(schema)
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
            for e in validator.iter_errors(read_by(document, schema, schema))]


def load(path):
    text = path.read_text(encoding="utf-8")
    # JSON keeps its own numbers and flags; YAML has none.
    return json.loads(text) if path.suffix == ".json" else yaml.load(text, Loader)


def schemas():
    listed = cotter("schema")
    assert listed.returncode == 0, listed.stderr
    found = {}
    for name in listed.stdout.split():
        printed = cotter("schema", name)
        assert printed.returncode == 0, f"{name}: {printed.stderr}"
        found[name] = json.loads(printed.stdout)
        jsonschema.Draft202012Validator.check_schema(found[name])
    return found


def kind_of(document, path):
    head = document.get("cotter") if isinstance(document, dict) else None
    # A problem may leave its first line out: its file is named after its engine.
    return str(head).split()[0] if head else path.stem.split("_")[0] + "_problem"


def documents():
    for folder, endings in (("catalog", ("*.yaml",)), ("examples", ("*.yaml",)),
                            ("tests/cli/data", ("*.yaml",)), ("tests/oracle/problems", ("*.json", "*.yaml"))):
        for ending in endings:
            yield from sorted((ROOT / folder).rglob(ending))


def interfaces_of(document):
    """Every interface of the document's parts, with where it stands; kinds of the tests' own catalog are left out."""
    for part in document.get("parts", []) if isinstance(document, dict) else []:
        for name, feature in part.get("interfaces", {}).items():
            yield f"{part['id']}.{name}", feature


# Each: the document it is made from, what is replaced, by what, what is wrong then, and a word of what cotter says.
BROKEN = [
    ("examples/all_road.yaml", "bicycle: all_road_disc", "bicycles: all_road_disc", "a field that does not exist", "bicycles"),
    ("examples/all_road.yaml", "revision: A", "revision: [A]", "a list where a text belongs", "revision"),
    ("examples/all_road.yaml", "slack: 60, stow: 0, surfaces: 0}\n  - {id: rear_hose", "slack: some, stow: 0, surfaces: 0}\n  - {id: rear_hose",
     "a word where a whole number belongs", "slack"),
    ("examples/all_road.yaml", "  fork: {part: fork_all_road, at_hand: true}", "  fork: {part: fork_all_road, at_hand: yes}",
     "a flag that is neither true nor false", "at_hand"),
    ("examples/all_road.yaml", "    family: fork\n    material: composite", "    family: fork\n    material: carbon",
     "a word that is not among those accepted", "carbon"),
    ("catalog/kinds/seat.yaml", "cotter: interface_kinds 1\nkinds:", "cotter: interface_kinds 1\nkind:", "the list of kinds missing", "`kinds`"),
    ("catalog/bicycles/all_road_disc.yaml", "id: all_road_disc\n", "id: All Road\n", "a name with a blank and capitals", "All Road"),
]


def check_documents(found):
    count = features = 0
    complaints = []
    for path in documents():
        document, name = load(path), path.relative_to(ROOT)
        kind = kind_of(document, path)
        if kind not in found:
            complaints.append(f"{name}: no schema {kind} is published")
            continue
        count += 1
        complaints += [f"{name}: {fault}" for fault in faults(document, found[kind])]
        for where, feature in interfaces_of(document):
            schema = found.get(f"interface:{feature['kind']}")
            if schema is None:
                if "tests/cli/data" not in str(name):
                    complaints.append(f"{name}: {where}: no schema interface:{feature['kind']}")
                continue
            features += 1
            complaints += [f"{name}: {where}: {fault}" for fault in faults(feature, schema)]
    return count, features, complaints


def check_broken(found):
    complaints = []
    for source, old, new, what, said in BROKEN:
        path = ROOT / source
        text = path.read_text(encoding="utf-8")
        if text.count(old) != 1:
            complaints.append(f"{source}: {old!r} stands {text.count(old)} times; the broken document cannot be made")
            continue
        document = yaml.load(text.replace(old, new), Loader)
        if not faults(document, found[kind_of(document, path)]):
            complaints.append(f"{source} with {what}: the published schema takes it")
        with tempfile.TemporaryDirectory() as folder:
            broken = pathlib.Path(folder) / path.name
            broken.write_text(text.replace(old, new), encoding="utf-8")
            answer = cotter("check", broken)
            if answer.returncode != 2 or said not in answer.stderr:
                complaints.append(f"{source} with {what}: cotter check says: {answer.stderr[:300]!r}")
    return complaints


def main():
    found = schemas()
    count, features, complaints = check_documents(found)
    complaints += check_broken(found)
    for complaint in complaints:
        print(complaint)
    if count < 15 or features < 100:
        complaints.append("too few")
        print(f"only {count} documents and {features} interfaces were found")
    print(f"{len(found)} schemas; {count} documents and {features} interfaces pass; "
          f"{len(BROKEN)} broken documents are refused" if not complaints else f"{len(complaints)} faults")
    return 1 if complaints else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: check_schemas.py PROGRAM")
    PROGRAM = str(pathlib.Path(sys.argv[1]).resolve())
    sys.exit(main())
