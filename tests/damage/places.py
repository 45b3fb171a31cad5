"""What a plan must say of places that are open, features that decide, and lines that are missing (docs/formats.md)."""
from expected import Expected


def open_places(shop):
    empty = [place for place in shop.places.values() if place.part is None and place.form.get("optional") != "true"]
    return [Expected(f"place_filled@{place.name}", "add") for place in empty]


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
