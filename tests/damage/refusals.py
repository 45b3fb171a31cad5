"""Why a damaged job is bad input rather than a bicycle that does not work (docs/formats.md)."""


def reasons(shop):
    """Every reason to refuse the job; none where the program has to plan it."""
    found = [*ports(shop)]
    for part in {id(part): part for part in [place.part for place in shop.places.values()] + own_parts(shop) if part}.values():
        found += stands_elsewhere(shop.catalog, part)
    for place in shop.places.values():
        found += mistyped(shop, place)
    return found


def own_parts(shop):
    return shop.job.get("parts") or []


def ports(shop):
    """A line ends at ports that the parts in its places have, and its ends are of their families."""
    for line in shop.job.get("lines") or []:
        families = []
        for side in ("from", "to"):
            name, port = shop.in_template(line[side]).split(".", 1)
            part = shop.places[name].part
            there = {one["id"]: one["family"] for one in (part or {}).get("device", {}).get("ports", [])}
            families += [there[port]] if port in there else []
            if part and port not in there:
                yield f"{part['id']} has no port {port}"
        ends = [one["family"] for one in shop.parts[line["part"]]["line"]["ends"]]
        if len(families) == 2 and sorted(families) != sorted(ends):
            yield f"{line['id']} has ends {ends} for ports {families}"


def stands_elsewhere(catalog, part):
    """A kind of interface that only parts of some material or family can have."""
    for own in (part.get("interfaces") or {}).values():
        only = catalog.kinds[own["kind"]].get("stands_on", {})
        if part.get("material", "unknown") not in only.get("materials", [part.get("material", "unknown")]):
            yield f"no {own['kind']} is of {part.get('material', 'unknown')}"
        if part["family"] not in only.get("families", [part["family"]]):
            yield f"no {own['kind']} belongs to a {part['family']}"


def mistyped(shop, place):
    """One dimension of a feature must be smaller than another."""
    for feature, own in ((place.part or {}).get("interfaces") or {}).items():
        for smaller, larger in shop.catalog.kinds[own["kind"]].get("smaller_than", []):
            one, two = (shop.as_written(f"{place.form['id']}.{feature}.{name}") for name in (smaller, larger))
            if one and two and "unknown" not in (one.origin, two.origin) and one.nominal >= two.nominal:
                yield f"{place.name}.{feature}.{smaller} is not smaller than {larger}"
