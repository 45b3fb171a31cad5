"""What a plan must say of joints. Rules: docs/fit.md, From a check to its word."""
import math
from fractions import Fraction

import laws
from expected import Expected, end_of, held
from written import Unreadable, read_text


class Joints:
    """Findings of the joints: what mates, by the rules of the two interface kinds."""

    def __init__(self, shop):
        self.shop = shop

    def expected(self):
        found = []
        for joint in self.shop.joints():
            sides = (joint["a"], joint["b"])
            if any(self.shop.places[side.split(".")[0]].part is None for side in sides):
                continue
            of_joint = self.of_joint(*sides)
            for one in of_joint:
                one.optional = "only_with" in joint
            found += of_joint
        return found

    def of_joint(self, a, b):
        about = f"{self.shop.in_job(a)},{self.shop.in_job(b)}"
        one, two = self.shop.interface(a), self.shop.interface(b)
        if one is None or two is None:
            return [Expected(f"has_feature@{about}", "measure" if one is None and two is None else "stop")]
        meeting, own, other = self.meeting(one["kind"], two["kind"], a, b)
        if meeting is None:
            return [Expected(f"kinds_meet@{about}", "stop")]
        return [self.of_rule(rule, own, other, f"{rule['id']}@{about}") for rule in meeting["rules"]]

    def meeting(self, kind_a, kind_b, a, b):
        for own_kind, other_kind, own, other in ((kind_a, kind_b, a, b), (kind_b, kind_a, b, a)):
            for meeting in self.shop.catalog.kinds[own_kind].get("meets", []):
                if meeting["kind"] == other_kind:
                    return meeting, own, other
        return None, a, b

    def of_rule(self, rule, own, other, key):
        law = laws.LAWS.get(rule["law"])
        if law is None:
            return Expected(key, None, why_not=f"law {rule['law']}")
        values = {}
        for role, reference in rule.get("operands", {}).items():
            side, _, dimension = reference.partition(".")
            if side not in ("own", "other"):
                values[role] = (None, self.fixed(reference))
                continue
            full = f"{own if side == 'own' else other}.{dimension}"
            values[role] = (full, self.shop.value(full))
            if values[role][1] is None:
                return Expected(key, "measure")
        expected = self.judged(rule, law, values, self.words(rule, own, other), key)
        expected.worse_by = "stress of a press fit" if "press" in rule else ""
        return expected

    def fixed(self, text):
        for dimension in ("length", "angle", "torque", "force", "mass", "pressure", "duration", "count"):
            try:
                value = read_text(text, dimension)
            except Unreadable:  # of another dimension
                continue
            value.origin = "standard"
            return value
        raise ValueError(text)

    def words(self, rule, own, other):
        """holds, fails or open: whether the words of the two sides agree."""
        state = "holds"
        for one, two in rule.get("words", {}).values():
            pair = [self.shop.interface(side).get(name.split(".")[-1]) for side, name in ((own, one), (other, two))]
            if not all(word and word != "?" for word in pair):
                state = "open" if state == "holds" else state
            elif pair[0] != pair[1]:
                state = "fails"
        return state

    def judged(self, rule, law, values, words, key):
        unattested = any(not value.attested for reference, value in values.values() if reference)
        if not law["number"]:
            verdict = {"fails": "stop", "open": "measure", "holds": held(rule, unattested, True)}[words]
            return Expected(key, verdict)
        box = {role: (Fraction(value.low), Fraction(value.high)) for role, (_, value) in values.items()}
        dimension = values[next(iter(law["number"][0][0]))][1].dimension
        must = rule.get("must", {})
        low, high = end_of(must, "from", dimension), end_of(must, "to", dimension)
        default = law.get("default")
        if default and (low, high) == (None, None):
            low, high = default
        elif default == (0, None) and low is None:
            low = 0
        more_low, more_high = self.own_demands(rule, law)
        window = laws.Window(law["number"], low, high, box, more_low, more_high, law.get("equal", ()))
        result = self.result_of(law, box)
        expected = self.word_for(rule, law, window, words, unattested, box, dimension, key)
        expected.result = result
        if len(law["number"]) == 1 and not more_low:
            expected.margin = margin_of(result, low, high)
            self.add_targets(law["number"][0], values, (low, high), expected)
        return expected

    def own_demands(self, rule, law):
        if rule["law"] != "engagement":
            return [], []
        factor = Fraction(int(rule["operands"]["factor_permille"]), 1000)
        return [laws.form(bolt=1, through=-1, diameter=-factor)], [laws.form(-laws.TIP_FREE, depth=1, bolt=-1, through=1)]

    def result_of(self, law, box):
        low = min(laws.extreme(one, box, False) for one in law["number"])
        return math.floor(low), math.ceil(laws.greatest_of_least(law["number"], box))

    def word_for(self, rule, law, window, words, unattested, box, dimension, key):
        certainty = "fails" if words == "fails" else window.certainty()
        if certainty == "holds" and words == "open":
            certainty = "open"
        if certainty == "fails":
            if words == "fails" or window.equals_differ():
                return Expected(key, "stop")
            too_low, too_high = window.sides()
            outcome = rule.get("above" if too_high and not too_low else "below", {})
            return Expected(key, outcome.get("says", "stop"), operation=outcome.get("do", ""))
        if certainty == "open":
            return Expected(key, "measure")
        should = rule.get("should")
        wish = laws.Window(law["number"], end_of(should, "from", dimension), end_of(should, "to", dimension), box)
        return Expected(key, held(rule, unattested, not should or wish.certainty() != "fails"))

    def add_targets(self, number, values, ends, expected):
        for role, factor in number[0].items():
            reference, value = values[role]
            if reference is None:
                continue
            rest = number[1] + sum(f * values[name][1].nominal for name, f in number[0].items() if name != role)
            for end in ends:
                if end is not None:
                    expected.targets.append((reference, value.dimension, (end - rest) / factor))


def margin_of(result, low, high):
    rooms = ([result[0] - low] if low is not None else []) + ([high - result[1]] if high is not None else [])
    return min(rooms) if rooms else None
