"""What a plan must say of stacks, with the pieces it put in. Rules: docs/stack.md, From a form to its finding."""
import itertools
import math
from fractions import Fraction

from expected import Expected, end_of, held, named, window_of
from written import Value, read_text

MOST_SETS = 20_000  # sets of pieces that are tried at most
MOST_HOLE_PLAY = 1_000_000  # nm that a piece's hole may be wider than what it goes round


class Form:
    """One form of a stack with its values in."""

    def __init__(self, definition, stack, shop, added=()):
        self.definition, self.stack, self.shop = definition, stack, shop
        self.terms = {}
        here = {slot["id"] for slot in stack.get("slots", [])}
        self.slots = {slot: int(factor) for slot, factor in (definition.get("slots") or {}).items() if slot in here}
        self.missing = False
        by_id = {term["id"]: term for term in stack["terms"]}
        for name, factor in definition["terms"].items():
            term = by_id[name]
            value = read_text(term["fixed"], "length") if "fixed" in term else shop.value(term["value"])
            self.missing = self.missing or value is None
            if value is not None and "fixed" not in term:
                for more in [more for target, more in added if target == term["value"]]:
                    value = longer(value, more)
            self.terms[name] = (int(factor), value, term.get("value"))
        must = definition.get("must")
        self.low, self.high = end_of(must, "from", "length"), end_of(must, "to", "length")
        self.limits = []
        self.take_limits()
        self.ends = None if self.missing else self.without_pieces()
        self.wish = window_of(definition.get("should"), "length")

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
        for factor, value, reference in self.terms.values():
            for end in (self.low, self.high):
                if reference and factor and end is not None:
                    exact = Fraction(end * self.divisor - total + factor * value.nominal, factor)
                    expected.targets.append((reference, "length", exact))

    def sums(self, lengths):
        pieces = sum(factor * lengths.get(slot, 0) for slot, factor in self.slots.items())
        return self.ends[0] + pieces, self.ends[1] + pieces

    def range(self, lengths):
        low, high = self.sums(lengths)
        return Fraction(low, self.divisor), Fraction(high, self.divisor)

    def rooms(self, lengths):
        """Room to either end of the window, rounded down; None where there is no such end."""
        low, high = self.range(lengths)
        below = None if self.low is None else math.floor(low - self.low)
        return below, None if self.high is None else math.floor(self.high - high)

    def values(self, lengths):
        """Its terms, and the pieces in those of its slots that hold any."""
        terms = {
            named(name, reference and self.shop.in_job(reference), value)
            for name, (_, value, reference) in self.terms.items()
        }
        pieces = {(slot, None, *[lengths[slot]] * 3) for slot in self.slots if lengths.get(slot)}
        return frozenset(terms | pieces)

    def off_wish(self, lengths):
        """(whether it does not lie wholly inside its wish, distance of its nominal from the target)."""
        beside = self.wish is not None and self.certainty(lengths, self.wish) != "holds"
        definition = self.definition
        if "target" not in definition and "target_from" not in definition:
            return beside, 0
        target = (
            read_text(definition["target"], "length") if "target" in definition else self.shop.value(definition["target_from"])
        )
        if target is None:
            return beside, 0
        total = sum(factor * value.nominal for factor, value, _ in self.terms.values())
        total += sum(factor * lengths.get(slot, 0) for slot, factor in self.slots.items())
        return beside, abs(Fraction(total, self.divisor) - target.nominal)

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
        terms = all(value.attested for _, value, reference in self.terms.values() if reference)
        return terms and all(limit.attested for limit in self.limits)


def longer(value, more):
    origin = value.origin if more.attested else more.origin
    return Value("length", value.nominal + more.nominal, value.low + more.low, value.high + more.high, origin, True)


class Stack:
    """Findings of one stack, with the pieces that the plan put in; `added` is what adapters add to its terms."""

    def __init__(self, stack, shop, plan_findings, added=()):
        self.stack, self.shop = stack, shop
        self.forms = {form["id"]: Form(form, stack, shop, added) for form in stack["forms"]}
        self.slots = {slot["id"]: slot for slot in stack.get("slots", [])}
        self.complete = {name: form for name, form in self.forms.items() if not form.missing}
        self.lengths = self.lengths_in(plan_findings)
        self.unproven = False
        self.left_out = {name for name, form in self.complete.items() if self.is_hopeless(form)}
        self.counted = {name: form for name, form in self.complete.items() if name not in self.left_out}

    def is_hopeless(self, form):
        """Whether no set of pieces puts this form into its window, whatever the others ask."""
        if form.certainty({}) != "fails":
            return False
        sets = itertools.islice((lengths for _, some in self.by_count() for lengths in some), MOST_SETS)
        return all(form.certainty(lengths) == "fails" for lengths in sets)

    def lengths_of(self, name):
        return self.of(name, self.lengths)

    def of(self, name, lengths):
        """The pieces a form's number counts: none where no set helps it."""
        return {} if name in self.left_out else lengths

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
        form, definition = self.forms[name], self.forms[name].definition
        key = f"{self.stack['id']}.{name}"
        if form.missing:
            return Expected(key, "measure", definition)
        expected, lengths = Expected(key, None, definition), self.lengths_of(name)
        expected.result, without = rounded(form.range(lengths)), rounded(form.range({}))
        expected.without = without if without != expected.result else None
        expected.should, expected.values = form.wish, form.values(lengths)
        expected.take_window(form.low, form.high)
        expected.take_margin(*form.rooms(lengths))
        expected.rests = not form.attested()
        self.judge(name, form, expected)
        if definition.get("cut") == "true" and expected.verdict != "ok":
            expected.result = None
        form.add_targets(expected)
        return expected

    def judge(self, name, form, expected):
        certainty = form.certainty(self.lengths_of(name))
        if certainty == "fails":
            outcome = form.definition.get("below" if expected.governs == "from" else "above", {})
            expected.verdict, expected.operation = outcome.get("says", "stop"), outcome.get("do", "")
            expected.additions = ("",) if expected.verdict == "add" else ()
            return
        if certainty == "open":
            expected.verdict = "measure"
            return
        within = form.wish is None or form.certainty(self.lengths_of(name), form.wish) != "fails"
        others = [self.forms[other].missing or one for other, one in self.sharing(name, form)]
        unsettled = any(one != "holds" for one in others)
        # Of what cannot hold there is nothing to measure: it is named, and the finding rests on nothing for it.
        expected.rests = expected.rests or any(one not in ("holds", "fails") for one in others)
        expected.verdict = held(form.definition, expected.rests or unsettled, within)
        if self.carries(name):
            expected.fills = {self.slots[slot]["label"]: length for slot, length in self.lengths.items() if length}
            if expected.verdict in ("ok", "accept"):
                expected.verdict = "add"

    def sharing(self, name, form):
        """(form, how it stands with the pieces in) for the others that share a slot and have a window."""
        for other, one in self.forms.items():
            if other == name or not set(one.slots) & set(form.slots):
                continue
            certainty = None if one.missing else one.certainty(self.lengths_of(other))
            if one.missing or certainty is not None:
                yield other, "open" if certainty == "holds" and not one.attested() else certainty

    def carries(self, name):
        """The first form that needs the pieces names them."""
        if not any(self.lengths.values()):
            return False
        needy = (one for one, form in self.counted.items() if form.certainty({}) not in (None, "holds"))
        return next(needy, None) == name

    def smallest(self):
        """(sets that hold for certain, else the open ones, of the fewest pieces; how many); None when there are too many."""
        open_sets, tried = [], 0
        for count, sets in self.by_count():
            certain = []
            for lengths in sets:
                tried += 1
                if tried > MOST_SETS:
                    return None
                states = {form.certainty(lengths) for form in self.counted.values()}
                if "fails" not in states:
                    (open_sets if "open" in states else certain).append((count, lengths))
            if certain:
                return [lengths for _, lengths in certain], count
        least = min((count for count, _ in open_sets), default=0)
        return [lengths for count, lengths in open_sets if count == least], least

    def best_states(self):
        """State of each form with the best set in; None where it depends on which of several is taken."""
        found = ([], 0) if self.hopeless() else self.smallest()
        if found is None:
            return None
        every = [{name: one.certainty(self.of(name, lengths)) or "holds" for name, one in self.complete.items()} for lengths in found[0] or [{}]]
        return every[0] if all(one == every[0] for one in every) else None

    def complaint(self):
        """What is wrong with the set of pieces that the plan chose; nothing when none is better."""
        chosen = {slot: length for slot, length in self.lengths.items() if length}
        if not self.counted or not self.slots or (not chosen and self.hopeless()):
            return ""
        found = self.smallest()
        if found is None:
            self.unproven = True
            return ""
        best, least = found
        if not best:
            return f"pieces {chosen} although no set helps" if chosen else ""
        if chosen not in best:
            return f"pieces {chosen} are not one of the smallest sets, of {least} pieces"
        better = [lengths for lengths in best if self.rank(lengths) < self.rank(chosen)]
        return f"pieces {chosen} where {better[0]} come nearer to what is wished" if better else ""

    def rank(self, lengths):
        """Fewest forms beside their wish, then nearest to the targets."""
        off = [form.off_wish(lengths) for form in self.counted.values()]
        return sum(beside for beside, _ in off), sum(distance for _, distance in off)

    def hopeless(self):
        """Whether one form stays outside its window whatever goes into each slot by itself."""
        most = {slot["id"]: self.longest(slot) for slot in self.slots.values()}
        for form in self.counted.values():
            parts = [factor * most[slot] for slot, factor in form.slots.items() if slot in most]
            low, high = form.sums({})
            least, greatest = low + sum(min(0, part) for part in parts), high + sum(max(0, part) for part in parts)
            if form.low is not None and greatest < form.low * form.divisor:
                return True
            if form.high is not None and least > form.high * form.divisor:
                return True
        return False

    def longest(self, slot):
        pieces = sorted((thickness for _, thickness, count in self.rows(slot) for _ in range(count)), reverse=True)
        return sum(pieces[: int(slot["most"])])

    def rows(self, slot):
        """(id, thickness, count) of the pieces that go into a slot: of its kind, with a hole for what it goes round."""
        shaft = self.shop.value(slot["round"]) if "round" in slot else None
        found = []
        for piece in self.shop.shop.get("kit", []):
            if piece["piece"] != slot["piece"]:
                continue
            if "round" in slot:
                if shaft is None or shaft.origin == "unknown" or "bore" not in piece:
                    continue
                if not 0 <= read_text(piece["bore"], "length").nominal - shaft.nominal <= MOST_HOLE_PLAY:
                    continue
            found.append((piece["id"], read_text(piece["thickness"], "length").nominal, int(piece["count"])))
        return found

    def by_count(self):
        """For each number of pieces, the sets of that many as lengths by slot."""
        uses = [(slot["id"], *row) for slot in self.slots.values() for row in self.rows(slot)]
        left = {piece: count for _, piece, _, count in uses}
        room = {slot["id"]: int(slot["most"]) for slot in self.slots.values()}
        for count in range(sum(room.values()) + 1):
            sets = self.sets_of(uses, 0, count, dict(left), dict(room), {})
            first = next(sets, None)
            if first is None:
                return
            yield count, itertools.chain([first], sets)

    def sets_of(self, uses, at, count, left, room, lengths):
        """Every way to put `count` more pieces in, no way twice: each use is taken up or left behind for good."""
        if count == 0:
            yield {slot: length for slot, length in lengths.items() if length}
            return
        for i in range(at, len(uses)):
            slot, piece, thickness, _ = uses[i]
            if left[piece] and room[slot]:
                left[piece], room[slot] = left[piece] - 1, room[slot] - 1
                more = {**lengths, slot: lengths.get(slot, 0) + thickness}
                yield from self.sets_of(uses, i, count - 1, left, room, more)
                left[piece], room[slot] = left[piece] + 1, room[slot] + 1


def rounded(ends):
    return math.floor(ends[0]), math.ceil(ends[1])
