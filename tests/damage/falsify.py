"""Plans with one thing falsified, which the judge must notice."""
from judge import KNOWN

WORDS = ("ok", "accept", "add", "measure", "rework", "stop")


def shifted(window):
    ends = {**window}
    end = "low" if ends["low"] is not None else "high"
    return {**ends, end: ends[end] - 1}


def in_first(key, change):
    return lambda many: [{**many[0], key: change(many[0][key])}, *many[1:]]


def other_press(press):
    steps = [{**step, "range": {**step["range"], "high": 2 * step["range"]["high"] + 9}} for step in press["steps"]]
    return {**press, "steps": steps}


# name: (field of a finding, what it becomes); tried where the field holds anything
FACETS = {
    "a result": ("result", shifted),
    "a result left out": ("result", lambda _: None),
    "a window": ("must", shifted),
    "a window left out": ("must", lambda _: None),
    "a wish": ("should", shifted),
    "what is without pieces": ("without", shifted),
    "a margin": ("margin", lambda margin: margin + 1),
    "the end that governs": ("governs", lambda end: "none"),
    "an operation": ("operation", lambda _: "something_else"),
    "what it guards": ("guards", lambda guards: "brake" if guards != "brake" else "nothing"),
    "who may pass it": ("may_pass", lambda who: "mechanic" if who != "mechanic" else "nobody"),
    "what it rests on": ("rests_on", lambda _: []),
    "a value left out": ("values", lambda values: values[1:]),
    "another value": ("values", in_first("value", lambda value: {**value, "high": value["high"] + 1})),
    "the place of a value": ("values", in_first("ref", lambda _: "frame.head.bore")),
    "an addition left out": ("additions", lambda _: []),
    "a press fit": ("press", other_press),
    "a press fit left out": ("press", lambda _: None),
}


def falsified(plan, dice):
    """(what, plan): each verdict to each other word, each facet of a finding, findings left out and invented."""
    findings = plan["findings"]
    knowable = [i for i, one in enumerate(findings) if one["law"] in KNOWN]
    for word in WORDS:
        of_word = [i for i in knowable if findings[i]["verdict"] == word]
        for other in WORDS:
            if of_word and other != word:
                yield f"{word} as {other}", with_finding(plan, dice.choice(of_word), verdict=other)
    for what, (field, change) in FACETS.items():
        held = [i for i in knowable if findings[i][field] not in (None, [], "", 0, "none")]
        if field == "press":
            held = [i for i in held if findings[i]["press"]["steps"]]
        if held:
            chosen = dice.choice(held)
            yield what, with_finding(plan, chosen, **{field: change(findings[chosen][field])})
    firm = dice.choice([i for i in knowable if not findings[i]["rests_on"]])
    yield "what it does not rest on", with_finding(plan, firm, rests_on=["a guess"])
    gone = [i for i in knowable if findings[i]["law"] != "radial_room"]
    yield "a finding left out", {**plan, "findings": [one for i, one in enumerate(findings) if i != gone[0]]}
    invented = {**findings[knowable[0]], "rule": "invented", "id": "invented@frame.head"}
    yield "a finding too many", {**plan, "findings": [*findings, invented]}
    yield "a finding twice", {**plan, "findings": [*findings, findings[knowable[0]]]}


def with_finding(plan, index, **changes):
    return {**plan, "findings": [{**one, **changes} if i == index else one for i, one in enumerate(plan["findings"])]}
