"""What a plan must say of joints. Rules: docs/fit.md, From a check to its word."""
import functools
import math
from fractions import Fraction

import laws
from bridges import Bridges
from expected import Expected, held, named, window_of
from press import Press
from written import Unreadable, read_text


class Joints:
    """Findings of the joints: what mates, by the rules of the two interface kinds."""

    def __init__(self, shop):
        self.shop, self.fixed = shop, fixed
        self.bridges = Bridges(shop, self)

    def expected(self):
        found = []
        for joint in self.shop.joints():
            sides = (joint["a"], joint["b"])
            if joint.get("only_with") == "needed" and self.shop.interface(sides[0]) and not self.shop.place(sides[1].split(".")[0]).part:
                about = ",".join(self.shop.in_job(side) for side in sides)
                found.append(Expected(f"has_feature@{about}", "stop"))
            if any(self.shop.place(side.split(".")[0]).part is None for side in sides):
                continue
            if joint.get("only_with") == "stated" and not any(map(self.shop.interface, sides)):
                continue
            of_joint = self.bridges.over(*sides, self.of_joint(*sides))
            for one in of_joint:
                one.optional = joint.get("only_with") == "shell_lines"
            found += of_joint
        return found

    def of_joint(self, a, b):
        about = f"{self.shop.in_job(a)},{self.shop.in_job(b)}"
        one, two = self.shop.interface(a), self.shop.interface(b)
        if one is None or two is None:
            return [Expected(f"has_feature@{about}", "measure" if one is None and two is None else "stop")]
        meeting, swapped = self.shop.catalog.meeting(one["kind"], two["kind"])
        if meeting is None:
            return [Expected(f"kinds_meet@{about}", "stop")]
        own, other = (b, a) if swapped else (a, b)
        found = []
        for rule in meeting["rules"]:
            values = {}
            for role, reference in rule.get("operands", {}).items():
                side, _, dimension = reference.partition(".")
                if side not in ("own", "other"):
                    values[role] = (None, self.fixed(reference))
                    continue
                full = f"{own if side == 'own' else other}.{dimension}"
                values[role] = (full, self.shop.value(full))
            sides = {"own": (own, self.shop.interface(own)), "other": (other, self.shop.interface(other))}
            found.append(self.of_rule(rule, values, sides, f"{rule['id']}@{about}"))
        return found

    def of_rule(self, rule, values, sides, key):
        """`values` are (reference or None, value) by role, `sides` are (reference, interface)."""
        law = laws.LAWS[rule["law"]]
        if any(value is None for _, value in values.values()):
            return Expected(key, "measure", rule)
        words = self.words(rule, *(sides[side][1] for side in ("own", "other")))
        expected = self.judged(rule, law, values, words, key)
        # A word that nobody knows leaves the finding resting on it, unless the numbers have decided already.
        unknown = words == "open" and expected.verdict == "measure"
        expected.rests = unknown or any(not value.attested for reference, value in values.values() if reference)
        expected.values = frozenset(
            named(role, reference and self.shop.in_job(reference), value) for role, (reference, value) in values.items()
        )
        if "press" in rule:
            Press(self.shop, rule["press"], values, sides).weigh(expected)
        return expected

    @staticmethod
    def words(rule, own, other):
        """holds, fails or open: whether the words of the two sides agree."""
        state = "holds"
        for one, two in rule.get("words", {}).values():
            pair = [side.get(name.split(".")[-1]) for side, name in ((own, one), (other, two))]
            if not all(word and word != "?" for word in pair):
                state = "open" if state == "holds" else state
            elif pair[0] != pair[1]:
                state = "fails"
        return state

    def judged(self, rule, law, values, words, key):
        unattested = any(not value.attested for reference, value in values.values() if reference)
        if not law["number"]:
            verdict = {"fails": "stop", "open": "measure", "holds": held(rule, unattested, True)}[words]
            return Expected(key, verdict, rule, differs=words == "fails")
        plain = {role: value for role, (_, value) in values.items()}
        window, dimension = self.window(rule, law, plain), dimension_of(law, plain)
        expected = self.word_for(rule, window, words, unattested, dimension, key)
        expected.result = self.result_of(law, window.box)
        expected.should = window_of(rule.get("should"), dimension)
        expected.differs = words == "fails" or window.equals_differ()
        expected.take_margin(*window.rooms())
        expected.take_window(*window.shown())
        if len(law["number"]) == 1 and rule["law"] != "engagement":
            self.add_targets(law["number"][0], values, (window.low, window.high), expected)
        return expected

    @staticmethod
    def asked(rule, law, dimension):
        low, high = window_of(rule.get("must"), dimension) or (None, None)
        default = law.get("default")
        if default and (low, high) == (None, None):
            return default
        return 0 if default == (0, None) and low is None else low, high

    def own_demands(self, rule, law):
        if rule["law"] != "engagement":
            return [], []
        factor = Fraction(int(rule["operands"]["factor_permille"]), 1000)
        return [laws.form(bolt=1, through=-1, diameter=-factor)], [laws.form(-laws.TIP_FREE, depth=1, bolt=-1, through=1)]

    def result_of(self, law, box):
        low = min(laws.extreme(one, box, False) for one in law["number"])
        return math.floor(low), math.ceil(laws.greatest_of_least(law["number"], box))

    def certainty(self, rule, values, sides):
        """fails, open or holds, of values by role; one that is not there leaves the rule open."""
        law, words = laws.LAWS[rule["law"]], self.words(rule, sides["own"].own, sides["other"].own)
        if not law["number"] or words == "fails":
            return words
        if None in values.values():
            return "open"
        return self.both(self.window(rule, law, values), words)

    def window(self, rule, law, values):
        box = {role: (Fraction(value.low), Fraction(value.high)) for role, value in values.items()}
        low, high = self.asked(rule, law, dimension_of(law, values))
        return laws.Window(law["number"], low, high, box, *self.own_demands(rule, law), law.get("equal", ()))

    @staticmethod
    def both(window, words):
        if words == "fails":
            return "fails"
        certainty = window.certainty()
        return "open" if certainty == "holds" and words == "open" else certainty

    def word_for(self, rule, window, words, unattested, dimension, key):
        certainty = self.both(window, words)
        if certainty == "fails":
            if words == "fails" or window.equals_differ():
                return Expected(key, "stop", rule)
            too_low, too_high = window.sides()
            outcome = rule.get("above" if too_high and not too_low else "below", {})
            says = outcome.get("says", "stop")
            named_only = ("",) if says == "add" else ()
            return Expected(key, says, rule, operation=outcome.get("do", ""), additions=named_only)
        if certainty == "open":
            return Expected(key, "measure", rule)
        low, high = window_of(rule.get("should"), dimension) or (None, None)
        wish = laws.Window(window.forms, low, high, window.box)
        return Expected(key, held(rule, unattested, wish.certainty() != "fails"), rule)

    def add_targets(self, number, values, ends, expected):
        for role, factor in number[0].items():
            reference, value = values[role]
            if reference is None:
                continue
            rest = number[1] + sum(f * values[name][1].nominal for name, f in number[0].items() if name != role)
            for end in ends:
                if end is not None:
                    expected.targets.append((reference, value.dimension, (end - rest) / factor))


@functools.lru_cache(maxsize=None)
def fixed(text):
    """What a rule itself states, of whatever dimension its unit is."""
    for dimension in ("length", "angle", "torque", "force", "mass", "pressure", "duration", "count"):
        try:
            value = read_text(text, dimension)
        except Unreadable:  # of another dimension
            continue
        value.origin = "standard"
        return value
    raise ValueError(text)


def dimension_of(law, values):
    return values[next(iter(law["number"][0][0]))].dimension
