"""One finding as it must be, every facet of it that follows from interface numbers, and the rules that joints and stacks
share. Rules: docs/fit.md, From a check to its word."""
from written import read_text

NOBODY_KNOWS = object()  # a facet that this script cannot work out


class Expected:
    """One finding as it must be. What is not set must be empty in the plan."""

    def __init__(self, key, verdict, rule=None, **facets):
        self.key, self.verdict = key, verdict
        self.why_not = ""  # why nothing can be said of it
        self.optional = False  # whether the plan may leave it out
        self.result = self.must = self.should = self.without = None  # (low, high); an open end is None
        self.margin, self.governs, self.operation = 0, "none", ""
        self.guards = (rule or {}).get("guards", "nothing")
        self.may_pass = may_pass(rule)
        self.rests = False  # on a value that nobody vouches for, or on what is undecided
        self.differs = False  # some word, pitch or count of the two sides
        self.values = frozenset()  # (symbol, reference, nominal, low, high)
        self.additions = ()  # ids of parts, "" for what is named by its kind
        self.fills = {}  # length of the pieces from the drawer, by slot
        self.press = None
        self.targets = []  # (reference, dimension, nominal that puts the number on an end of its window)
        for name, value in facets.items():
            setattr(self, name, value)

    def take_window(self, low, high):
        """Shown as it is asked; not at all when its ends contradict each other or none is there."""
        if (low, high) != (None, None) and (None in (low, high) or low <= high):
            self.must = (low, high)

    def take_margin(self, below, above):
        """Rooms to the two ends at the worst corner; the nearer one governs, the lower one when both are as near."""
        rooms = [room for room in (below, above) if room is not None]
        if rooms:
            self.margin = min(rooms)
            self.governs = "from" if below == self.margin else "to"


def may_pass(rule):
    """What no rule of the catalog judges nobody may pass."""
    if rule is None:
        return "nobody"
    return rule.get("may_pass", "nobody" if guarded(rule) else "mechanic")


def end_of(window, key, dimension):
    return read_text(window[key], dimension).nominal if window and key in window else None


def window_of(window, dimension):
    ends = (end_of(window, "from", dimension), end_of(window, "to", dimension))
    return None if ends == (None, None) else ends


def named(symbol, reference, value):
    return symbol, reference, value.nominal, value.low, value.high


def guarded(rule):
    return rule.get("guards", "nothing") != "nothing"


def held(rule, unattested, within_wish):
    if guarded(rule) and unattested:
        return "measure"
    return "ok" if within_wish else "accept"
