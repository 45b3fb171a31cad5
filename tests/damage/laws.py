"""The laws of docs/fit.md as linear forms, and what is certain about them when each operand lies anywhere in its range.

A form is (factors by role, constant); a demand is a form that must be at least 0 (or above 0 when strict). Whether some
choice of operands meets all demands is decided by eliminating one role after the other (Fourier and Motzkin), exactly.
"""
import math
from fractions import Fraction

TIP_FREE = 500_000  # nm that a bolt's tip keeps from the bottom of its hole
PITCH = 5_000  # nm within which two pitches are one


def form(constant=0, **factors):
    return {role: Fraction(factor) for role, factor in factors.items()}, Fraction(constant)


def difference(plus, minus):
    return form(**{plus: 1, minus: -1})


HALF = Fraction(1, 2)
# number: one form, or the least of two; default: the window when the rule states none; equal: pairs that must agree
LAWS = {
    "bore_on_shaft": {"number": [difference("bore", "shaft")]},
    "difference": {"number": [difference("a", "b")]},
    "at_most": {"number": [difference("limit", "value")], "default": (0, None)},
    "at_least": {"number": [difference("value", "limit")], "default": (0, None)},
    "range_contains": {"number": [difference("value", "low"), difference("high", "value")], "default": (0, None)},
    "thread": {
        "number": [difference("internal_major", "external_major")],
        "default": (0, 0),
        "equal": [("internal_pitch", "external_pitch", PITCH)],
    },
    "equal_pattern": {
        "number": [difference("circle_a", "circle_b")],
        "default": (0, 0),
        "equal": [("count_a", "count_b", 0)],
    },
    "equal_family": {"number": []},
    "engagement": {"number": [difference("bolt", "through")]},
    "radial_room": {"number": [form(bore=HALF, shaft=-HALF, wall=-1, sleeve=-1, run=-1)]},
    "equal_angle": {"number": [difference("a", "b")], "default": (0, 0)},
    "overlap": {"number": [difference("start_b", "start_a"), difference("end_a", "end_b")], "default": (0, None)},
}


def minus(one):
    return {role: -factor for role, factor in one[0].items()}, -one[1]


def plus_constant(one, constant):
    return one[0], one[1] + constant


def added(one, two):
    factors = {role: one[0].get(role, 0) + two[0].get(role, 0) for role in {*one[0], *two[0]}}
    return factors, one[1] + two[1]


def extreme(one, box, greatest):
    """Least or greatest value of a form over the box."""
    total = one[1]
    for role, factor in one[0].items():
        low, high = box[role]
        total += factor * (high if (factor > 0) == greatest else low)
    return total


def eliminate(demands, role):
    lower, upper, kept = [], [], []
    for factors, constant, strict in demands:
        factor = factors.get(role, 0)
        (lower if factor > 0 else upper if factor < 0 else kept).append((factors, constant, strict))
    for a, a_constant, a_strict in lower:
        for b, b_constant, b_strict in upper:
            p, q = a[role], -b[role]
            joined = {name: a.get(name, 0) * q + b.get(name, 0) * p for name in {*a, *b} - {role}}
            factors = {name: factor for name, factor in joined.items() if factor}
            kept.append((factors, a_constant * q + b_constant * p, a_strict or b_strict))
    return kept


def feasible(demands, box):
    """Whether one point of the box meets every demand; demands are (form, strict)."""
    system = [(dict(one[0]), one[1], strict) for one, strict in demands]
    roles = sorted({role for factors, _, _ in system for role in factors})
    for role in roles:
        low, high = box[role]
        system += [({role: Fraction(1)}, Fraction(-low), False), ({role: Fraction(-1)}, Fraction(high), False)]
    for role in roles:
        system = eliminate(system, role)
    return all(constant > 0 if strict else constant >= 0 for _, constant, strict in system)


def greatest_of_least(forms, box):
    """The greatest value that the least of the forms can have."""
    if len(forms) == 1:
        return extreme(forms[0], box, True)
    system = [({**one[0], "t": Fraction(-1)}, one[1], False) for one in forms]
    roles = sorted({role for one in forms for role in one[0]})
    for role in roles:
        low, high = box[role]
        system += [({role: Fraction(1)}, Fraction(-low), False), ({role: Fraction(-1)}, Fraction(high), False)]
    for role in roles:
        system = eliminate(system, role)
    return min(constant / -factors["t"] for factors, constant, _ in system if factors.get("t", 0) < 0)


class Window:
    """A window on the least of some forms, with further demands of the law at either side."""

    def __init__(self, forms, low, high, box, more_low=(), more_high=(), equal=()):
        self.forms, self.low, self.high, self.box = forms, low, high, box
        self.at_low = [plus_constant(one, -low) for one in forms] if low is not None else []
        self.at_low += more_low
        self.at_high = [plus_constant(minus(one), high) for one in forms] if high is not None else []
        self.more_low, self.more_high = list(more_low), list(more_high)
        pairs = [(one, two, tolerance) for a, b, tolerance in equal for one, two in ((a, b), (b, a))]
        self.equal = [plus_constant(difference(one, two), tolerance) for one, two, tolerance in pairs]

    def met(self, demands, either=()):
        """Whether some point meets all demands and, where there are any, one of `either`."""
        base = [(demand, False) for demand in demands]
        return any(feasible([*base, (one, False)], self.box) for one in either) if either else feasible(base, self.box)

    def certainty(self):
        always = [*self.at_low, *self.more_high, *self.equal]
        if not self.met(always, self.at_high):
            return "fails"
        missed = any(extreme(demand, self.box, False) < 0 for demand in always)
        if self.at_high:  # the least is above the upper end only where every form is
            missed = missed or feasible([(minus(one), True) for one in self.at_high], self.box)
        return "open" if missed else "holds"

    def sides(self):
        """Whether the lower, and whether the upper side cannot be met for itself."""
        return not self.met(self.at_low), not self.met(self.more_high, self.at_high)

    def equals_differ(self):
        return not self.met(self.equal)

    def rooms(self):
        """Room to the lower and to the upper end at the worst corner, rounded down; None where there is no such end."""
        below = [extreme(demand, self.box, False) for demand in self.at_low]
        above = [extreme(demand, self.box, False) for demand in self.more_high]
        if self.at_high:  # missed only where the least of the forms is above the upper end
            above.append(self.high - greatest_of_least(self.forms, self.box))
        return tuple(math.floor(min(side)) if side else None for side in (below, above))

    def shown(self):
        """The window as it is asked: narrowed by the further demands at their worst."""
        number, low, high = self.forms[0], self.low, self.high
        for demand in self.more_low:
            least = math.ceil(extreme(added(number, minus(demand)), self.box, True))
            low = least if low is None else max(low, least)
        for demand in self.more_high:
            most = math.floor(extreme(added(number, demand), self.box, False))
            high = most if high is None else min(high, most)
        return low, high
