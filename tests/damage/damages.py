"""The damages: one dimension, origin, part, place or word of a job is changed."""
import copy
import json
import re

from bridges import Face
from joints import Joints
from stacks import Stack
from workshop import Plain, Workshop
from written import read_text

JSON_LIKE = re.compile(r"true|false|-?(0|[1-9][0-9]*)(\.[0-9]+)?")
UNIT = {
    "length": ("mm", 10**6),
    "angle": ("°", 10**6),
    "torque": ("N·m", 10**6),
    "force": ("N", 10**3),
    "mass": ("g", 10**3),
    "pressure": ("kPa", 10**3),
    "duration": ("min", 60_000),
    "count": ("", 1),
}
STEPS = {
    "length": (10_000, 20_000, 50_000, 100_000, 300_000, 1_000_000, 3_000_000, 10_000_000),
    "angle": (100_000, 500_000, 2_000_000, 9_000_000),
    "pressure": (1_000, 20_000, 100_000, 300_000),
    "count": (1, 2),
}
ORIGINS = {
    "measured": {"measured": {"by": "A. Builder", "with": None, "on": "2026-05-04"}},
    "maker": {"maker": "sheet of the part, page 2"},
    "standard": {"standard": "a table"},
    "assumed": {"assumed": "a guess"},
}
MATERIALS = ("unknown", "steel", "aluminium", "titanium", "composite", "plastic", "other")
CHANCES = (("dimension", 42), ("origin", 16), ("part", 15), ("gap", 8), ("place", 10), ("word", 9))


def as_yaml(value, indent=0):
    """The job as YAML: top-level keys in block style, the rest in flow style, scalars quoted as they were."""
    return "".join(f"{key}: {flow(one)}\n" for key, one in value.items())


def flow(value):
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(key)}: {flow(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return value if isinstance(value, Plain) and JSON_LIKE.fullmatch(value) else quoted(value)


def quoted(text):
    return json.dumps(str(text), ensure_ascii=False)


def amount(base, dimension):
    """A whole number of base units as text, without its unit."""
    factor = UNIT[dimension][1]
    sign, rest = ("-", -base) if base < 0 else ("", base)
    whole, part = divmod(rest, factor)
    digits = len(str(factor)) - 1
    return f"{sign}{whole}" + (f".{part:0{digits}d}".rstrip("0") if part and factor in (10**3, 10**6) else "")


class Damage:
    """One job under the hammer."""

    def __init__(self, job, catalog, dice):
        self.job, self.catalog, self.dice = job, catalog, dice
        self.shop = Workshop(catalog, job)

    def entry(self, place):
        """The job's entry of a place as a map."""
        places = self.job.setdefault("places", {})
        entry = places.get(place.name)
        if not isinstance(entry, dict):
            entry = {"part": entry} if entry else {}
            places[place.name] = entry
        return entry

    def filled(self):
        return [place for place in self.shop.places.values() if place.part]

    def a_value(self):
        """(place, interface, dimension, its guide, its value) of some part that is there."""
        place = self.dice.choice([place for place in self.filled() if place.part.get("interfaces")])
        feature = self.dice.choice(list(place.part["interfaces"]))
        kind = self.catalog.kinds[place.part["interfaces"][feature]["kind"]]
        name = self.dice.choice(list(kind.get("dimensions", {})) or [""])
        reference = f"{place.form['id']}.{feature}.{name}"
        value = self.shop.value(reference) if name else None
        return (place, feature, name, kind["dimensions"][name], value) if value else self.a_value()

    def write(self, place, feature, name, text, origin, tool=""):
        node = {"value": text, **copy.deepcopy(ORIGINS[origin])}
        if "measured" in node:
            node["measured"]["with"] = tool or self.dice.choice(self.shop.shop["tools"])["id"]
        self.entry(place).setdefault("values", {})[f"{feature}.{name}"] = node if text != "?" else "?"

    def dimension(self):
        if self.dice.random() < 0.35 and (target := self.on_the_edge()):
            return target
        place, feature, name, guide, value = self.a_value()
        way = self.dice.choice(("shift", "shift", "shift", "widen", "unknown", "bare"))
        if way == "unknown":
            text = "?"
        else:
            step = self.dice.choice(STEPS.get(guide["is"], (1, 10)))
            nominal = value.nominal + (self.dice.choice((-step, step)) if way != "widen" else 0)
            text = self.text(guide, nominal, value, step if way == "widen" else None, bare=way == "bare")
        origin = value.origin if value.origin in ORIGINS else "assumed"
        self.write(place, feature, name, text, origin, value.tool)
        return f"dimension: {place.name}.{feature}.{name} = {text} {origin}"

    def text(self, guide, nominal, value, widen=None, bare=False):
        """A written value within what the kind permits."""
        dimension = guide["is"]
        low, high = (read_text(guide[end], dimension).nominal for end in ("from", "to"))
        nominal = min(max(nominal, low), high)
        unit = UNIT[dimension][0]
        if bare and dimension != "count" and self.dice.random() < 0.5:
            return self.in_other_units(nominal, dimension, low, high)
        if dimension == "count" or bare:
            return f"{amount(nominal, dimension)} {unit}".strip()
        lower, upper = value.low - value.nominal, value.high - value.nominal
        if value.origin == "unknown" or upper - lower > high - low:
            lower, upper = -10**4, 10**4
        if widen:
            lower, upper = max(-widen, -(high - low) // 2), min(widen, (high - low) // 2)
        if lower > 0 or upper < 0 or (dimension not in ("length", "angle") and nominal + lower < 0):
            return f"{amount(nominal, dimension)} {unit}"
        return f"{amount(nominal, dimension)} +{amount(upper, dimension)}/-{amount(-lower, dimension)} {unit}"

    def in_other_units(self, nominal, dimension, low, high):
        """Without deviations, in a unit that is no whole number of base units where there is one."""
        texts = {
            "length": [
                f"{nominal / 25.4e6:.3f} in",
                f"{amount(nominal // 10_000 * 10_000, 'length')} mm",
                f"{round(25.4e6 / nominal) if nominal else 0} tpi",
            ],
            "pressure": [f"{nominal / 6894.757:.1f} psi", f"{nominal / 1e5:.2f} bar"],
        }.get(dimension, [])
        texts = [text for text in texts if not text.startswith("0 tpi")]
        fitting = [text for text in texts if low <= read_text(text, dimension).nominal <= high]
        return self.dice.choice(fitting or [f"{amount(nominal, dimension)} {UNIT[dimension][0]}"])

    def on_the_edge(self):
        """Puts a rule's number 0.01 mm to one side of an end of its window, or right on it."""
        stacks = [one for stack in self.shop.stacks() for one in Stack(stack, self.shop, []).expected()]
        targets = [target for one in Joints(self.shop).expected() + stacks for target in one.targets]
        if not targets:
            return None
        reference, dimension, exact = self.dice.choice(targets)
        name, feature, own = reference.split(".")
        place = self.shop.places[name]
        guide = self.catalog.dimension(place.part["interfaces"][feature]["kind"], own)
        nominal = int(exact) + self.dice.choice((-1, 0, 1)) * STEPS.get(dimension, (1,))[0]
        value = self.shop.value(reference)
        text = self.text(guide, nominal, value, self.dice.choice((None, None, STEPS.get(dimension, (1,))[0])))
        origin = self.dice.choice(("measured", "maker", "assumed"))
        self.write(place, feature, own, text, origin)
        return f"dimension: {place.name}.{feature}.{own} = {text} {origin}, at a limit"

    def origin(self):
        place, feature, name, guide, value = self.a_value()
        other = self.dice.choice([origin for origin in ORIGINS if origin != value.origin])
        text = self.text(guide, value.nominal, value)
        self.write(place, feature, name, text, other)
        return f"origin: {place.name}.{feature}.{name} = {text} {other}"

    def part(self):
        place = self.dice.choice(self.filled())
        parts = list(self.shop.parts.values())
        family = [one for one in parts if one["family"] == place.part["family"] and one["id"] != place.part["id"]]
        others = family if family and self.dice.random() < 0.8 else parts
        return self.put(place, self.dice.choice(others), "part")

    def gap(self):
        """Puts in a part that an adapter of the catalog may join to what it is to meet."""
        choices = [choice for joint in self.shop.joints() for choice in self.gaps(joint["a"], joint["b"])]
        if not choices:
            return self.part()
        return self.put(*self.dice.choice(choices), "gap")

    def gaps(self, *sides):
        joints = Joints(self.shop)
        bridges = joints.bridges
        for start, goal in (sides, sides[::-1]):
            place, feature = goal.split(".")
            if place in self.shop.lines:
                continue
            face = bridges.face(start) if self.shop.place(start.split(".")[0]).part else None
            backs = [way.back for way in bridges.ways if face and bridges.mate(face, way.front) in ("holds", "open")]
            for part in self.shop.parts.values() if backs and self.shop.places[place].part else []:
                if feature in part.get("interfaces", {}):
                    own = Face(part["interfaces"][feature], lambda name, part=part: self.shop.part_value(part, feature, name))
                    if any(bridges.mate(back, own) in ("holds", "open") for back in backs):
                        yield self.shop.places[place], part

    def put(self, place, part, word):
        entry = self.entry(place)
        entry["part"] = part["id"]
        for other in [place, *(one for one in self.filled() if one.part["id"] == part["id"])]:
            self.entry(other)["another"] = Plain("true")
        entry.pop("values", None)
        return f"{word}: {place.name} = {part['id']}"

    def place(self):
        empty = [place for place in self.shop.places.values() if not place.part]
        if empty and self.dice.random() < 0.3:
            place = self.dice.choice(empty)
            features = [joint[side].split(".") for joint in self.shop.joints() for side in "ab"]
            wanted = {feature for name, feature in features if name == place.form["id"]}
            fitting = [part for part in self.shop.parts.values() if wanted & set(part.get("interfaces", {}))]
            return self.put(place, self.dice.choice(fitting or list(self.shop.parts.values())), "place")
        ends = {line[side].split(".")[0] for line in self.job.get("lines") or [] for side in ("from", "to")}
        place = self.dice.choice([place for place in self.filled() if place.name not in ends] or self.filled())
        self.job["places"].pop(place.name)
        return f"place: {place.name} is open"

    def word(self):
        """A word of an interface (hand, form, family), its material, or that the part is used: on a copy of the part."""
        place = self.dice.choice([place for place in self.filled() if place.part.get("interfaces")])
        part = copy.deepcopy(place.part)
        part["id"] = Plain(part["id"] + "_x")
        words = [
            (feature, word, spec["accepted"])
            for feature, own in part["interfaces"].items()
            for word, spec in self.catalog.kinds[own["kind"]].get("words", {}).items()
        ]
        if words and self.dice.random() < 0.7:
            feature, word, accepted = self.dice.choice(words)
            part["interfaces"][feature][word] = self.dice.choice(accepted)
            what = f"word: {place.name}.{feature}.{word} = {part['interfaces'][feature][word]}"
        elif self.dice.random() < 0.5:
            part["material"] = self.dice.choice(MATERIALS)
            what = f"word: {place.name} is of {part['material']}"
        else:
            part["used"] = Plain("true")
            what = f"word: {place.name} is used"
        self.job.setdefault("parts", []).append(part)
        self.entry(place)["part"] = part["id"]
        return what


def damage(job, catalog, dice):
    """Changes one thing in the job and says what."""
    kinds, weights = zip(*CHANCES)
    return getattr(Damage(job, catalog, dice), dice.choices(kinds, weights)[0])()
