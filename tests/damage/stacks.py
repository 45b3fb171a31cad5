"""What a plan must say of stacks, with the pieces it put in. Rules: docs/stack.md, From a form to its finding."""
import collections
import itertools
import math
from fractions import Fraction

from expected import Expected, end_of, held
from written import read_text

MOST_SETS = 60_000  # sets of pieces that are tried at most


class Form:
    """One form of a stack with its values in."""

    def __init__(self, definition, stack, shop):
        self.definition, self.stack, self.shop = definition, stack, shop
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

    def add_targets(self, expected):
        """For each value, what puts the form on an end of its window while no pieces are in."""
        total = sum(factor * value.nominal for factor, value, _ in self.terms.values())
        by_id = {term["id"]: term for term in self.stack["terms"]}
        for name, (factor, value, from_part) in self.terms.items():
            for end in (self.low, self.high):
                if from_part and factor and end is not None:
                    exact = Fraction(end * self.divisor - total + factor * value.nominal, factor)
                    expected.targets.append((by_id[name]["value"], "length", exact))

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
        terms = all(value.attested for _, value, from_part in self.terms.values() if from_part)
        return terms and all(limit.attested for limit in self.limits)


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
            form.add_targets(expected)
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
        unattested = not form.attested() or self.unsettled(name, form)
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
