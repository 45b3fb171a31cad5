"""Holds every facet of a plan's findings against what they must be."""
import laws
import places
import press
from expected import NOBODY_KNOWS
from joints import Joints
from stacks import Stack

KNOWN = {*laws.LAWS, "stack", "kinds", "place", "connection", "condition"}  # laws of findings that are worked out
SETS = "smallest sets of pieces"  # a matter of the plan that no finding has for itself


def key_of(finding):
    """Rule and features; a stack's form is named by its rule alone, whichever places it could not read."""
    return finding["rule"] if finding["law"] == "stack" else finding["id"]


def expectations(shop, findings):
    """(expected findings by key, complaints on pieces, ids of stacks with too many sets of pieces to try)."""
    expected = places.open_places(shop) + places.connections(shop) + places.network(shop) + places.features(shop)
    expected += places.used_parts(shop) + Joints(shop).expected()
    complaints, unproven = [], []
    for stack in shop.stacks():
        one = Stack(stack, shop, findings)
        expected += one.expected()
        if complaint := one.complaint():
            complaints.append(f"stack {stack['id']}: {complaint}")
        unproven += [stack["id"]] if one.unproven else []
    return {one.key: one for one in expected}, complaints, unproven


def facets(finding, kit):
    """What a plan says of a finding, in the terms of Expected."""
    window = {name: finding[name] and (finding[name]["low"], finding[name]["high"]) for name in ("result", "must", "should", "without")}
    plain = {name: finding[name] for name in ("verdict", "guards", "may_pass", "operation", "margin", "governs")}
    ids = tuple(one["id"] for one in finding["additions"])
    values = [(one["symbol"], one["ref"], *(one["value"][end] for end in ("nominal", "low", "high"))) for one in finding["values"]]
    fills = {}
    for one in finding["additions"]:
        if one["id"] in kit:
            fills[one["where"]] = fills.get(one["where"], 0) + one["count"] * kit[one["id"]]
    return {
        **plain,
        **window,
        "rests": bool(finding["rests_on"]),
        "differs": bool(finding["mismatches"]),
        "values": frozenset(values),
        "fills": fills,
        "additions": () if fills else ids,
    }


def difference(finding, expected, kit):
    """How a finding of the plan differs from what it must be; nothing when it does not."""
    for name, found in facets(finding, kit).items():
        must = getattr(expected, name)
        if name == "values" and found != must:
            return f"names values {sorted(found - must, key=str)}, must name {sorted(must - found, key=str)}"
        if found != must and must is not NOBODY_KNOWS:
            return f"has {name} {found}, must have {must}"
    return press.differs(finding["press"], expected.press)


def judged_plan(shop, plan):
    """(complaints, keys worked out, why not by key beyond interface numbers)."""
    expected, complaints, unproven = expectations(shop, plan["findings"])
    known, beyond = set(), {f"{SETS} {stack}": "too many sets of pieces to try" for stack in unproven}
    kit, found = shop.kit(), {}
    for finding in plan["findings"]:
        key = key_of(finding)
        if key in found:
            complaints.append(f"{key} stands there twice")
        found[key] = finding
    for key, finding in found.items():
        one = expected.get(key)
        if one is None and finding["law"] in KNOWN:
            complaints.append(f"{key} ({finding['law']}) says {finding['verdict']}, and nothing asks for it")
        elif one is None:
            beyond[key] = finding["law"]
        elif one.verdict is None:
            beyond[key] = one.why_not
        else:
            known.add(key)
            if text := difference(finding, one, kit):
                complaints.append(f"{key} {text}")
    for key, one in expected.items():
        if key not in found and not one.optional:
            complaints.append(f"{key} must say {one.verdict}, and is not there")
    return complaints, known, beyond
