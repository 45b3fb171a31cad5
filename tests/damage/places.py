"""What a plan must say of places that are open, features that decide, and lines that are missing (docs/formats.md)."""
from expected import Expected, named
from workshop import materials_of
from written import ATTESTED, UNITS, Unreadable, read_node, read_text

NO_RULE = {"without": "measure"}  # of a used part that no rule of the catalog speaks of


def open_places(shop):
    empty = [place for place in shop.places.values() if place.part is None]
    needed = [place for place in empty if place.form.get("optional") != "true"]
    return [Expected(f"place_filled@{place.name}", "add", additions=("",)) for place in needed]


def used_parts(shop):
    """A used part is never passed over: its inspection, and each reading of wear against its limit."""
    pieces = [
        (place.name, place.form["id"], place.part, place.condition)
        for place in shop.places.values()
        if place.part and place.used
    ]
    for line in shop.job.get("lines") or []:
        part = shop.parts.get(line["part"], {})
        if part.get("used") == "true" or part.get("condition"):
            pieces.append((line["id"], "", part, part.get("condition")))
    return [one for piece in pieces for one in of_used(shop, *piece)]


def of_used(shop, name, place, part, condition):
    rule = next((one for one in shop.catalog.conditions if speaks_of(one, place, part)), NO_RULE)
    guards = rule.get("guards", "nothing")
    if not condition:
        return [Expected(f"used_part@{name}", rule["without"], guards=guards)]
    found = [Expected(f"used_part@{name}", "ok" if condition["result"] == "sound" else "stop", guards=guards)]
    for reading in condition.get("wear", []):
        one = Expected(f"used_wear@{name}.{reading['id']}", "measure", guards=guards)
        worn(shop, name, reading, one)
        found.append(one)
    return found


def speaks_of(rule, place, part):
    fitting = "materials" not in rule or materials_of(part) & {*rule["materials"]}
    return fitting and (part["family"] in rule["families"] or place in rule.get("places", []))


def worn(shop, name, reading, expected):
    dimension, low, high = limits(reading["limit"])
    value = read_node(reading["value"], dimension, None)
    if value.nominal is None:
        return
    if not isinstance(reading["value"], dict) and not names_origin(reading["value"]):
        value.origin = "measured"
    if not value.stated and (error := shop.reading_error(value)):
        value.low, value.high = value.low + error[0], value.high + error[1]
    expected.values = frozenset([named("reading", f"{name}.condition.{reading['id']}", value)])
    expected.result, expected.rests = (value.low, value.high), not value.attested
    expected.take_window(low, high)
    expected.take_margin(None if low is None else value.low - low, None if high is None else high - value.high)
    if (low is not None and value.high < low) or (high is not None and value.low > high):
        expected.verdict = "stop"
    elif expected.margin >= 0 and value.attested:
        expected.verdict = "ok"


def limits(limit):
    for dimension in UNITS:
        try:
            ends = [read_text(limit[end], dimension).nominal if end in limit else None for end in ("from", "to")]
        except (Unreadable, KeyError):
            continue
        return dimension, *ends
    raise Unreadable(str(limit))


def names_origin(text):
    return text.lstrip().startswith("≈") or text.split()[-1] in (*ATTESTED, "assumed")


def features(shop):
    """What a part must say because it decides which joints and stacks there are."""
    found = []
    for one in shop.bicycle["features"]:
        if shop.places[one["feature"].split(".")[0]].part is None:
            continue
        own = shop.interface(one["feature"])
        if own is None or own["kind"] not in one["kinds"]:
            key, guards = f"states_feature@{shop.in_job(one['feature'])}", one.get("guards", "nothing")
            found.append(Expected(key, "measure" if own is None else "stop", guards=guards))
    return found


def connections(shop):
    lines = {}
    for line in shop.job.get("lines") or []:
        lines.setdefault(frozenset((shop.in_template(line["from"]), shop.in_template(line["to"]))), line)
    found = []
    for one in shop.apply(shop.bicycle["connections"]):
        ends = [shop.places[one[side].split(".")[0]].part for side in "ab"]
        if None in ends:
            continue
        key = f"connected@{shop.in_job(one['a'])},{shop.in_job(one['b'])}"
        line = lines.get(frozenset((one["a"], one["b"])))
        guards = one.get("guards", "nothing")
        if line is None:
            missing = ("add", ("",)) if guards == "nothing" else ("stop", ())
            found.append(Expected(key, missing[0], guards=guards, additions=missing[1]))
            continue
        one_fluid = len(fluids([*ends, shop.parts.get(line["part"], {})])) < 2
        found.append(Expected(key, "ok" if one_fluid else "stop", guards=guards))
    return found


def network(shop):
    """Which hand brakes which wheel is asked; a port takes one line; no lines run in a circle."""
    found = [Expected("hands@brakes", "ok" if shop.job.get("hands") else "measure", guards="brake")]
    lines = shop.job.get("lines") or []
    ports, joined, wrong = set(), [], []
    for line in lines:
        ends = [line["from"], line["to"]]
        wrong += [f"port@{end},{line['id']}" for end in ends if end in ports]
        ports |= set(ends)
        trees = [tree for tree in joined if any(end.split(".")[0] in tree for end in ends)]
        places = {end.split(".")[0] for end in ends}
        if any(places <= tree for tree in trees):
            wrong.append(f"circle@{line['id']}")
        joined = [tree for tree in joined if tree not in trees] + [places.union(*trees)]
    found += [Expected(key, "stop") for key in wrong]
    return found + ([Expected("network@lines", "ok")] if lines and not wrong else [])


def fluids(parts):
    """Lever, hose and caliper are one vessel: the fluids they are made for."""
    return {one["fluid"] for part in parts for one in (part.get("interfaces") or {}).values() if "fluid" in one}
