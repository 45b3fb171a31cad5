"""What a plan must say of places that are open, features that decide, and lines that are missing (docs/formats.md)."""
from expected import Expected
from written import ATTESTED, UNITS, Unreadable, read_node, read_text


def open_places(shop):
    empty = [place for place in shop.places.values() if place.part is None]
    return [Expected(f"place_filled@{place.name}", "add") for place in empty if place.form.get("optional") != "true"]


def used_parts(shop):
    """A used part is never passed over: its inspection, and each reading of wear against its limit."""
    if shop.catalog.conditions is None:
        return []
    pieces = [(place.name, place.part, place.condition) for place in shop.places.values() if place.part and place.used]
    for line in shop.job.get("lines") or []:
        part = shop.parts.get(line["part"], {})
        if part.get("used") == "true" or part.get("condition"):
            pieces.append((line["id"], part, part.get("condition")))
    return [one for piece in pieces for one in of_used(shop, *piece)]


def of_used(shop, name, part, condition):
    if not condition:
        material = part.get("material", "unknown")
        rules = [one for one in shop.catalog.conditions if part["family"] in one["families"]]
        rules = [one for one in rules if material in one.get("materials", [material])]
        return [Expected(f"used_part@{name}", rules[0]["without"] if rules else "measure")]
    found = [Expected(f"used_part@{name}", "ok" if condition["result"] == "sound" else "stop")]
    return found + [Expected(f"used_wear@{name}.{one['id']}", worn(shop, one)) for one in condition.get("wear", [])]


def worn(shop, reading):
    dimension, low, high = limits(reading["limit"])
    value = read_node(reading["value"], dimension, None)
    if value.nominal is None:
        return "measure"
    if not isinstance(reading["value"], dict) and not names_origin(reading["value"]):
        value.origin = "measured"
    if not value.stated and (error := shop.reading_error(value)):
        value.low, value.high = value.low + error[0], value.high + error[1]
    if (low is not None and value.high < low) or (high is not None and value.low > high):
        return "stop"
    inside = (low is None or value.low >= low) and (high is None or value.high <= high)
    return "ok" if inside and value.attested else "measure"


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
            found.append(Expected(f"states_feature@{shop.in_job(one['feature'])}", "measure" if own is None else "stop"))
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
        missing = "add" if one.get("guards", "nothing") == "nothing" else "stop"
        one_fluid = line is not None and len(fluids([*ends, shop.parts.get(line["part"], {})])) < 2
        found.append(Expected(key, missing if line is None else "ok" if one_fluid else "stop"))
    return found


def fluids(parts):
    """Lever, hose and caliper are one vessel: the fluids they are made for."""
    return {one["fluid"] for part in parts for one in (part.get("interfaces") or {}).values() if "fluid" in one}
