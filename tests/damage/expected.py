"""One finding as it must be, and the rules that joints and stacks share."""
from written import read_text


class Expected:
    """One finding as it must be. `verdict` is None where interface numbers alone cannot tell."""

    def __init__(self, key, verdict, result=None, operation="", why_not="", margin=None):
        self.key, self.verdict, self.result, self.operation = key, verdict, result, operation
        self.why_not, self.margin = why_not, margin
        self.worse_by = ""  # what else may make it stop or measure, that interface numbers do not tell
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
