"""Press fits, worked out from the displacements of two elastic cylinders (docs/fit.md, Press fits, says what is shown).

A thick cylinder in plane stress moves by u(r) = A r + B / r. No stress at its free face and -1 at the contact give A and B;
the pressure is what makes the two displacements differ by half the interference. The ratios H and S of the page are not used.
"""
import csv
import itertools
import math
import pathlib

from written import read_text

TABLE = pathlib.Path(__file__).resolve().parents[2] / "catalog/standards/elastic.csv"
WALLS = 10  # a wall is at least so many times the interference
ORDER = ("ok", "accept", "add", "measure", "rework", "stop")


def elastic():
    """(modulus in pascal, Poisson's ratio, whether the row was read in its source) by material."""
    rows = csv.DictReader(line for line in TABLE.read_text().splitlines() if not line.startswith("#"))
    return {
        row["material"]: (
            (float(row["modulus_low_gpa"]) * 1e9, float(row["modulus_high_gpa"]) * 1e9),
            (float(row["poisson_low"]), float(row["poisson_high"])),
            row["sure"] == "read in source",
        )
        for row in rows
    }


ELASTIC = elastic()


class Cylinder:
    """Under a pressure of 1 at `contact`, with no stress at `free`; a solid one has its free face at 0."""

    def __init__(self, contact, free, modulus, poisson):
        self.stiffness, self.poisson = modulus / (1 - poisson**2), poisson
        far = 1 / free**2 if free else math.inf
        if free:
            self.b = -1 / (self.stiffness * (1 - poisson) * (far - 1 / contact**2))
            self.a = (1 - poisson) / (1 + poisson) * self.b * far
        else:
            self.a, self.b = -1 / (self.stiffness * (1 + poisson)), 0

    def moves(self, r):
        return self.a * r + (self.b / r if self.b else 0)

    def hoop(self, r):
        swing = (1 - self.poisson) * self.b / r**2 if self.b else 0
        return self.stiffness * ((1 + self.poisson) * self.a + swing)


def numbers(bore, shaft, outer, inner, hub_modulus, hub_poisson, shaft_modulus, shaft_poisson):
    """By name of the number; lengths in metres, force and torque for one metre and a friction of 1."""
    contact = bore / 2
    hub = Cylinder(contact, outer / 2, hub_modulus, hub_poisson)
    core = Cylinder(contact, inner / 2, shaft_modulus, shaft_poisson)
    pressure = max(shaft - bore, 0) / 2 / (hub.moves(contact) - core.moves(contact))
    force = pressure * math.pi * bore
    return {
        "pressure": pressure,
        "hub_hoop": pressure * hub.hoop(contact),
        "shaft_hoop": -pressure * core.hoop(inner / 2),
        "force": force * 1e3,
        "torque": force * contact * 1e6,
        "inner_shrinks": -pressure * core.moves(inner / 2) * 2e9 if inner else 0,
        "outer_grows": pressure * hub.moves(outer / 2) * 2e9,
    }


class Press:
    """The press fit of one rule."""

    def __init__(self, shop, rule, values, sides):
        self.shop, self.rule, self.values, self.sides = shop, rule, values, sides
        self.missing = False
        self.attested = True

    def weigh(self, expected):
        """Puts the working on a finding, and what a stated limit of the stress makes of its verdict."""
        box = {role: self.take(self.values[role][1]) for role in ("bore", "shaft")}
        box |= {role: self.read(role) for role in ("outer", "length")}
        box["inner"] = self.read("inner") if "inner" in self.rule else (0, 0)
        materials = [self.material(self.rule[side]) for side in ("hub", "shaft")]
        limit = self.limit()
        expected.press = {} if self.missing or not self.can_be(box) else self.ranges(box, *materials)
        if limit is None or expected.verdict == "stop":
            return
        hoop = expected.press.get("hub_hoop")
        if hoop and hoop[0] > limit.high:
            expected.verdict, expected.may_pass = "stop", "nobody"
        elif not hoop or hoop[1] > limit.low or (expected.guards != "nothing" and not self.attested):
            if ORDER.index(expected.verdict) < ORDER.index("measure"):
                expected.verdict = "measure"

    def take(self, value):
        self.attested = self.attested and value.attested
        return value.low, value.high

    def stated(self, role):
        """Value of a role; None where the part leaves it out or nobody knows it."""
        side, _, dimension = self.rule[role].partition(".")
        if side not in self.sides:
            value = read_text(self.rule[role], "pressure" if role == "most_stress" else "length")
            value.origin = "standard"
            return value
        value = self.shop.value(f"{self.sides[side][0]}.{dimension}")
        return None if value is None or value.origin == "unknown" else value

    def read(self, role):
        value = self.stated(role)
        self.missing = self.missing or value is None
        return value and self.take(value)

    def limit(self):
        limit = self.stated("most_stress") if "most_stress" in self.rule else None
        if limit is not None:
            self.take(limit)
        return limit

    def material(self, name):
        side, _, word = name.partition(".")
        constants = ELASTIC.get(self.sides[side][1].get(word) if side in self.sides else name)
        self.missing = self.missing or constants is None
        self.attested = self.attested and (constants is None or constants[2])
        return constants

    @staticmethod
    def can_be(box):
        """Both walls are there, and ten times as thick as the interference at the most."""
        walls = (box["outer"][0] - box["bore"][1], box["bore"][0] - box["inner"][1])
        if min(walls) < 1 or (box["inner"][0] == 0 and box["inner"][1] > 0):
            return False
        return max(0, box["shaft"][1] - box["bore"][0]) * WALLS <= min(walls)

    def ranges(self, box, hub, shaft):
        ends = [[end * 1e-9 for end in sorted({*box[role]})] for role in ("bore", "shaft", "outer", "inner")]
        ends += [sorted({*hub[0]}), sorted({*hub[1]}), sorted({*shaft[0]}), sorted({*shaft[1]})]
        corners = [numbers(*corner) for corner in itertools.product(*ends)]
        found = {name: (min(c[name] for c in corners), max(c[name] for c in corners)) for name in corners[0]}
        friction = [float(self.rule["friction"][end]) for end in ("from", "to")]
        for name in ("force", "torque"):
            found[name] = tuple(
                found[name][end] * friction[end] * box["length"][end] * 1e-9 for end in (0, 1)
            )
        found["interference"] = (box["shaft"][0] - box["bore"][1], box["shaft"][1] - box["bore"][0])
        return found


def differs(press, expected):
    """How the working of a press fit differs from what it must be. The crest of `inner_shrinks` between two corners
    (docs/fit.md) is let by where it is a hundredth above them."""
    if (press is None) != (expected is None):
        return "shows a press fit, must not" if expected is None else "shows no press fit, must"
    if press is None:
        return ""
    found = {step["name"]: (step["range"]["low"], step["range"]["high"]) for step in press["steps"]}
    if found.keys() != expected.keys():
        return f"works out {sorted(found)} of a press fit, must {sorted(expected)}"
    for name, (low, high) in expected.items():
        slack = 1.01 if name == "inner_shrinks" else 1
        near = abs(found[name][0] - low) <= 1 + 1e-9 * abs(low)
        if not near or not high - 1 - 1e-9 * abs(high) <= found[name][1] <= high * slack + 1 + 1e-9 * abs(high):
            return f"has {name} {found[name]} of a press fit, must have {(low, high)}"
    return ""
