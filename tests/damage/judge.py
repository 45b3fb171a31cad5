"""What a plan must say of joints, stacks, places and connections, worked out from documents and interface numbers alone.

Rules for the words: docs/fit.md, docs/stack.md (From a form to its finding) and docs/formats.md.
"""
import collections
import itertools
import math
from fractions import Fraction

import laws
from written import read_text

MOST_SETS = 60_000  # sets of pieces that are tried at most


class Expected:
    """One finding as it must be. `verdict` is None where interface numbers alone cannot tell."""

    def __init__(self, key, verdict, result=None, operation="", why_not="", margin=None):
        self.key, self.verdict, self.result, self.operation = key, verdict, result, operation
        self.why_not, self.margin = why_not, margin
        self.optional = False  # whether the plan may leave it out
        self.targets = []  # (reference, dimension, nominal that puts the number on an end of its window)


def end_of(window, key, dimension):
    return read_text(window[key], dimension).nominal if window and key in window else None


def guarded(rule):
    return rule.get("guards", "nothing") != "nothing"


def held(rule, unattested, within_wish):
    if guarded(rule) and unattested:
        return "measure"
    return "ok" if within_wish else "accept"


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
        if law is None or "press" in rule:
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
        return self.judged(rule, law, values, self.words(rule, own, other), key)

    def fixed(self, text):
        for dimension in ("length", "angle", "torque", "force", "mass", "pressure", "duration", "count"):
            try:
                value = read_text(text, dimension)
            except Exception:  # of another dimension
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
        unattested = any(value.origin not in ("measured", "maker", "standard") for reference, value in values.values() if reference)
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


class Form:
    """One form of a stack with its values in."""

    def __init__(self, definition, stack, shop):
        self.definition, self.shop = definition, shop
        self.terms = {}
        self.slots = {slot: int(factor) for slot, factor in (definition.get("slots") or {}).items()}
        self.missing = False
        by_id = {term["id"]: term for term in stack["terms"]}
        for name, factor in definition["terms"].items():
            term = by_id[name]
            value = read_text(term["fixed"], "length") if "fixed" in term else shop.value(term["value"])
            self.missing = self.missing or value is None
            self.terms[name] = (int(factor), value, "fixed" not in term)
        must = definition.get("must")
        self.low, self.high = end_of(must, "from", "length"), end_of(must, "to", "length")
        self.limits = []
        self.take_limits()
        self.ends = None if self.missing else self.without_pieces()
        should = definition.get("should")
        self.wish = (end_of(should, "from", "length"), end_of(should, "to", "length")) if should else None

    def take_limits(self):
        for key in ("must_from", "must_to"):
            if key not in self.definition:
                continue
            value = self.shop.value(self.definition[key])
            if value is None:
                self.missing = True
                return
            self.limits.append(value)
            if key == "must_from":
                self.low = value.high
            else:
                self.high = value.low
        if self.limits and None not in (self.low, self.high) and self.high < self.low:
            self.missing = True

    @property
    def divisor(self):
        return 2 if self.definition.get("halved") == "true" else 1

    def without_pieces(self):
        """Both ends of the sum, before it is halved."""
        pairs = [sorted((factor * value.low, factor * value.high)) for factor, value, _ in self.terms.values()]
        return sum(low for low, _ in pairs), sum(high for _, high in pairs)

    def sums(self, lengths):
        pieces = sum(factor * lengths.get(slot, 0) for slot, factor in self.slots.items())
        return self.ends[0] + pieces, self.ends[1] + pieces

    def range(self, lengths):
        low, high = self.sums(lengths)
        return Fraction(low, self.divisor), Fraction(high, self.divisor)

    def certainty(self, lengths, window=None):
        """None where the form has no window."""
        low, high = window or (self.low, self.high)
        if low is None and high is None:
            return None
        least, most = self.sums(lengths)
        low, high = (None if end is None else end * self.divisor for end in (low, high))
        if (low is None or least >= low) and (high is None or most <= high):
            return "holds"
        return "fails" if (low is not None and most < low) or (high is not None and least > high) else "open"

    def attested(self):
        return all(value.attested for _, value, from_part in self.terms.values() if from_part)


class Stack:
    """Findings of one stack, with the pieces that the plan put in."""

    def __init__(self, stack, shop, plan_findings):
        self.stack, self.shop = stack, shop
        self.forms = {form["id"]: Form(form, stack, shop) for form in stack["forms"]}
        self.slots = {slot["id"]: slot for slot in stack.get("slots", [])}
        self.complete = {name: form for name, form in self.forms.items() if not form.missing}
        self.lengths = self.lengths_in(plan_findings)

    def lengths_in(self, findings):
        """Length in each slot, as the plan's workings show it."""
        lengths = {}
        for finding in findings:
            if finding["rule"].split(".")[0] != self.stack["id"] or finding["law"] != "stack":
                continue
            for value in finding["values"]:
                if value["ref"] is None and value["symbol"] in self.slots:
                    lengths[value["symbol"]] = value["value"]["nominal"]
        return lengths

    def expected(self):
        return [self.of_form(name) for name in self.forms]

    def of_form(self, name):
        form = self.forms[name]
        key = f"{self.stack['id']}.{name}"
        if form.missing:
            return Expected(key, "measure")
        expected = self.judged(name, form, key)
        low, high = form.range(self.lengths)
        expected.result = (math.floor(low), math.ceil(high))
        if form.definition.get("cut") == "true" and expected.verdict != "ok":
            expected.result = None
        if form.low is not None or form.high is not None:
            rooms = ([low - form.low] if form.low is not None else []) + ([form.high - high] if form.high is not None else [])
            expected.margin = math.floor(min(rooms))
        return expected

    def judged(self, name, form, key):
        certainty = form.certainty(self.lengths)
        definition = form.definition
        if certainty == "fails":
            low, high = form.range(self.lengths)
            rooms = [(low - form.low, 0)] if form.low is not None else []
            rooms += [(form.high - high, 1)] if form.high is not None else []
            outcome = definition.get(("below", "above")[min(rooms)[1]], {})
            return Expected(key, outcome.get("says", "stop"), operation=outcome.get("do", ""))
        if certainty == "open":
            return Expected(key, "measure")
        within = form.wish is None or form.certainty(self.lengths, form.wish) != "fails"
        unattested = not form.attested() or any(not limit.attested for limit in form.limits) or self.unsettled(name, form)
        verdict = held(definition, unattested, within)
        if verdict in ("ok", "accept") and self.carries(name):
            verdict = "add"
        return Expected(key, verdict)

    def unsettled(self, name, form):
        """Whether another form that shares a slot leaves open which pieces go in."""
        for other, one in self.forms.items():
            if other == name or not set(one.slots) & set(form.slots):
                continue
            if one.missing:
                return True
            certainty = one.certainty(self.lengths)
            if certainty is not None and (certainty != "holds" or not one.attested()):
                return True
        return False

    def carries(self, name):
        """The first form that needs the pieces names them."""
        if not any(self.lengths.values()):
            return False
        needy = (one for one, form in self.complete.items() if form.certainty({}) not in (None, "holds"))
        return next(needy, None) == name

    def complaint(self):
        """What is wrong with the set of pieces that the plan chose; nothing when it is one of the smallest that do."""
        if not self.complete or not self.slots:
            return ""
        sets = self.all_sets()
        if sets is None:
            return "too many sets"
        certain = [(count, lengths) for count, lengths, state in sets if state == "holds"]
        best = certain or [(count, lengths) for count, lengths, state in sets if state == "open"]
        chosen = {slot: length for slot, length in self.lengths.items() if length}
        if not best:
            return f"pieces {chosen} although no set helps" if chosen else ""
        least = min(count for count, _ in best)
        if chosen in [lengths for count, lengths in best if count == least]:
            return ""
        return f"pieces {chosen} are not one of the smallest sets, of {least} pieces"

    def all_sets(self):
        """Every set of pieces: how many, the length in each slot, and how the windows stand."""
        rows = {}
        for slot in self.slots.values():
            fitting = [piece for piece in self.shop.shop.get("kit", []) if piece["piece"] == slot["piece"]]
            rows[slot["id"]] = [(piece["id"], read_text(piece["thickness"], "length").nominal, int(piece["count"])) for piece in fitting]
        choices = [self.uses(rows[slot["id"]], int(slot["most"])) for slot in self.slots.values()]
        if math.prod(map(len, choices)) > MOST_SETS:
            return None
        counts = {piece: count for one in rows.values() for piece, _, count in one}
        return [one for combination in itertools.product(*choices) if (one := self.one_set(combination, counts))]

    @staticmethod
    def uses(rows, most):
        """(pieces by id, how many, length) of every way to fill one slot."""
        ways = itertools.product(*(range(min(count, most) + 1) for _, _, count in rows))
        return [
            ([(piece, times) for (piece, _, _), times in zip(rows, way) if times], sum(way), sum(thickness * times for (_, thickness, _), times in zip(rows, way)))
            for way in ways
            if sum(way) <= most
        ]

    def one_set(self, combination, counts):
        used = collections.Counter()
        for pieces, _, _ in combination:
            for piece, times in pieces:
                used[piece] += times
        if any(times > counts[piece] for piece, times in used.items()):
            return None
        lengths = {slot: length for slot, (_, _, length) in zip(self.slots, combination) if length}
        states = [form.certainty(lengths) for form in self.complete.values()]
        return sum(count for _, count, _ in combination), lengths, "fails" if "fails" in states else "open" if "open" in states else "holds"


def places(shop):
    open_places = [place for place in shop.places.values() if place.part is None and place.form.get("optional") != "true"]
    return [Expected(f"place_filled@{place.name}", "add") for place in open_places]


def features(shop):
    """What a part must say because it decides which joints and stacks there are."""
    found = []
    for one in shop.bicycle["features"]:
        if shop.places[one["feature"].split(".")[0]].part is None:
            continue
        own = shop.interface(one["feature"])
        if own is None or own["kind"] not in one["kinds"]:
            found.append(Expected(f"states_feature@{shop.in_job(one['feature'])}", "measure" if own is None else "stop"))
    return found


def connections(shop):
    lines = [{shop.in_template(line["from"]), shop.in_template(line["to"])} for line in shop.job.get("lines") or []]
    found = []
    for one in shop.apply(shop.bicycle["connections"]):
        if any(shop.places[one[side].split(".")[0]].part is None for side in "ab"):
            continue
        key = f"connected@{shop.in_job(one['a'])},{shop.in_job(one['b'])}"
        missing = "add" if one.get("guards", "nothing") == "nothing" else "stop"
        found.append(Expected(key, "ok" if {one["a"], one["b"]} in lines else missing))
    return found
