#!/usr/bin/env python3
"""Holds the frame maps in catalog/frames against each other and against what a map to start from must be.

  check_frames.py

A map is the multigraph of a frame with its fork: its vertices are the outside and the hollows that some hole leads into,
its edges the openings and passages. No two maps are isomorphic, neither whole nor frame alone, and none is that of an
example. Nothing in a map claims to be known: no part has a paper, no size an origin other than assumed; every part states its
material, and nothing of composite may be enlarged.
"""

import collections
import itertools
import pathlib
import sys

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs/frames.md"
EXAMPLES = ("all_road", "steel_road")
OUTSIDE = "outside"
CLAIMS = {"measured", "maker", "standard"}


def parts_of(file):
    """Frame and fork of a document, all scalars as text."""
    document = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    return [part for part in document["parts"] if part["family"] in ("frame", "fork")]


def edges_of(parts):
    """The holes as pairs of vertices; a hollow is `frame.down_tube`, whichever part names it."""
    edges = []
    for part in parts:

        def vertex(name, place=part["family"]):
            return name if "." in name else f"{place}.{name}"

        edges += [(OUTSIDE, vertex(opening["cell"])) for opening in part.get("openings", [])]
        edges += [(vertex(passage["a"]), vertex(passage["b"])) for passage in part.get("passages", [])]
    return edges


class Graph:
    """A multigraph without names: for each vertex, how many edges join it to each other one."""

    def __init__(self, edges):
        names = sorted({name for edge in edges for name in edge})
        number = {name: index for index, name in enumerate(names)}
        self.joined = [collections.Counter() for _ in names]
        for a, b in edges:
            self.joined[number[a]][number[b]] += 1
            self.joined[number[b]][number[a]] += 1

    def size(self):
        return len(self.joined)


def refined(graphs):
    """Colours of the vertices of both graphs, refined by the colours of the neighbours until nothing changes."""
    colours = [[0] * graph.size() for graph in graphs]
    while True:
        signatures = [
            [(own[v], tuple(sorted((own[w], count) for w, count in graph.joined[v].items()))) for v in range(graph.size())]
            for graph, own in zip(graphs, colours)
        ]
        order = {signature: colour for colour, signature in enumerate(sorted(set(itertools.chain(*signatures))))}
        before = len(set(itertools.chain(*colours)))
        colours = [[order[signature] for signature in row] for row in signatures]
        if len(order) == before:
            return colours


def isomorphic(a, b):
    """Whether some renaming of vertices turns one multigraph into the other."""
    if a.size() != b.size():
        return False
    left, right = refined((a, b))
    if sorted(left) != sorted(right):
        return False
    share = collections.Counter(left)
    order = sorted(range(a.size()), key=lambda v: share[left[v]])  # the rarest colours first
    image = {}

    def extend(depth):
        if depth == len(order):
            return True
        v = order[depth]
        for w in range(b.size()):
            if left[v] != right[w] or w in image.values():
                continue
            if all(a.joined[v][u] == b.joined[w][image[u]] for u in image) and a.joined[v][v] == b.joined[w][w]:
                image[v] = w
                if extend(depth + 1):
                    return True
                del image[v]
        return False

    return extend(0)


def self_test():
    """Small cases by hand; the search must tell apart what colours alone do not."""
    hexagon = Graph([(i, (i + 1) % 6) for i in range(6)])
    triangles = Graph([(0, 1), (1, 2), (2, 0), (3, 4), (4, 5), (5, 3)])
    renamed = Graph([(3, 0), (0, 4), (4, 1), (1, 5), (5, 2), (2, 3)])
    twice, once = Graph([(0, 1), (0, 1), (1, 2)]), Graph([(0, 1), (1, 2), (1, 2)])
    apart = Graph([(0, 1), (1, 2), (2, 0)])
    cases = [
        (hexagon, renamed, True),  # one ring of six under other names
        (hexagon, triangles, False),  # each vertex has two neighbours in both, yet one is a ring and the other is two
        (twice, once, True),  # the double edge at the other end
        (twice, apart, False),  # the same three edges, once parallel, once round
    ]
    return [f"self-test {index} fails" for index, (a, b, same) in enumerate(cases) if isomorphic(a, b) != same]


def map_faults(maps):
    """Pairs of maps that are one and the same; `maps` holds (name, parts)."""
    for (a, parts_a), (b, parts_b) in itertools.combinations(maps, 2):
        if a in EXAMPLES and b in EXAMPLES:
            continue
        if isomorphic(Graph(edges_of(parts_a)), Graph(edges_of(parts_b))):
            yield f"{a} and {b} are the same map under other names"
        frames = [[part for part in parts if part["family"] == "frame"] for parts in (parts_a, parts_b)]
        if isomorphic(*(Graph(edges_of(frame)) for frame in frames)):
            yield f"{a} and {b}: the frames alone are the same map under other names"


def claims(node, key=""):
    """(where, text) of every size that says it is more than assumed."""
    if isinstance(node, dict):
        for name, value in node.items():
            if name in CLAIMS:
                yield key, name
            yield from claims(value, f"{key}.{name}" if key else name)
    elif isinstance(node, list):
        for index, value in enumerate(node):
            yield from claims(value, f"{key}[{index}]")
    elif node.split(" ")[-1] in CLAIMS:
        yield key, node


def part_faults(file):
    families = [part["family"] for part in parts_of(file)]
    if sorted(families) != ["fork", "frame"]:
        yield f"{file.name}: a map is one frame and one fork"
    for part in parts_of(file):
        if part.get("material", "unknown") == "unknown":
            yield f"{file.name}: {part['id']} does not state its material"
        if "paper" in part:
            yield f"{file.name}: {part['id']} has a paper; a map to start from has none"
        for where, text in claims(part):
            yield f"{file.name}: {part['id']} {where}: `{text}` in a map that nobody measured"
        for opening in part.get("openings", []):
            if "enlarge" in opening and part["material"] == "composite":
                yield f"{file.name}: {part['id']} {opening['id']}: composite is enlarged by no map, only by the real frame's paper"


def row_of(name, parts):
    """The beginning of the map's row in docs/frames.md."""
    edges = edges_of(parts)
    hollows = {vertex for edge in edges for vertex in edge} - {OUTSIDE}
    materials = {part["family"]: part.get("material") for part in parts}
    openings = sum(OUTSIDE in edge for edge in edges)
    counts = f"{len(hollows)} | {openings} | {len(edges) - openings}"
    return f"| `{name}` | {materials.get('frame')}, {materials.get('fork')} | {counts} |"


def page_faults(maps):
    text = PAGE.read_text(encoding="utf-8")
    for name, parts in maps:
        if f"\n{row_of(name, parts)}" not in text:
            yield f"{PAGE.name}: its table has no row that begins with {row_of(name, parts)}"


def main():
    files = sorted((ROOT / "catalog/frames").glob("*.yaml"))
    maps = [(file.stem, parts_of(file)) for file in files]
    page = list(page_faults(maps))
    maps += [(name, parts_of(ROOT / f"examples/{name}.yaml")) for name in EXAMPLES]
    found = [*self_test(), *page, *map_faults(maps), *itertools.chain(*(part_faults(file) for file in files))]
    print("\n".join(found) if found else f"frames: {len(files)} maps, no two the same, every size assumed")
    return 1 if found or not files else 0


if __name__ == "__main__":
    sys.exit(main())
