"""Catalog and job as plain data: what fills each place, and the values of its interfaces. Follows docs/formats.md."""
import pathlib

import yaml

from written import Unreadable, Value, read_deviations, read_node, read_text


class Plain(str):
    """A scalar written without quotes."""


class Loader(yaml.CSafeLoader if hasattr(yaml, "CSafeLoader") else yaml.SafeLoader):
    """Every scalar as text; keys too."""


def scalar(node):
    return node.value if node.style in ("'", '"', "|", ">") else Plain(node.value)


Loader.yaml_implicit_resolvers = {}
Loader.add_constructor("tag:yaml.org,2002:str", lambda _, node: scalar(node))


def read_yaml(path):
    return yaml.load(pathlib.Path(path).read_text(), Loader)


class Catalog:
    def __init__(self, folder):
        self.kinds, self.parts, self.bicycles, self.sections = {}, {}, {}, {}
        self.conditions, self.substitutes, self.customs = None, None, []
        for path in sorted(pathlib.Path(folder).rglob("*.yaml")):
            document = read_yaml(path)
            for kind in document.get("kinds", []):
                self.kinds[kind["id"]] = kind
            for part in document.get("parts", []):
                self.parts[part["id"]] = part
            if document["cotter"].startswith("bicycle"):
                self.bicycles[document["id"]] = document
            if document["cotter"].startswith("section"):
                self.sections[document["id"]] = document
            if document["cotter"].startswith("conditions"):
                self.conditions = [*(self.conditions or []), *document["used"]]
            if document["cotter"].startswith("customs"):
                self.customs = [*self.customs, *document["brakes"]]
            if document["cotter"].startswith("tools"):
                self.substitutes = [*(self.substitutes or []), *document["substitutes"]]
        self.bicycles = {name: self.with_sections(bicycle) for name, bicycle in self.bicycles.items()}

    def with_sections(self, bicycle):
        """The template with what its places allow of the sections it names."""
        whole = {**bicycle, **{key: list(bicycle.get(key, [])) for key in ("features", "joints", "connections", "stacks")}}
        here = {place["id"] for place in bicycle["places"]}

        def allowed(*references):
            return all(reference.split(".")[0] in here for reference in references)

        for name in bicycle.get("sections", []):
            section = self.sections[name]
            whole["features"] += [one for one in section.get("features", []) if allowed(one["feature"])]
            for key in ("joints", "connections"):
                whole[key] += [one for one in section.get(key, []) if allowed(one["a"], one["b"])]
            for stack in section.get("stacks", []):
                terms = {term["id"]: [term["value"]] if "value" in term else [] for term in stack["terms"]}
                forms = []
                for form in stack["forms"]:
                    named = [reference for term in form["terms"] for reference in terms[term]]
                    if allowed(*named, *(form[key] for key in ("must_from", "must_to") if key in form)):
                        forms.append(form)
                if forms:
                    whole["stacks"].append({**stack, "forms": forms})
        return whole

    def meeting(self, kind_a, kind_b):
        """(how the two kinds meet, whether b is its own side); None where they never do."""
        for own, other, swapped in ((kind_a, kind_b, False), (kind_b, kind_a, True)):
            for meeting in self.kinds[own].get("meets", []):
                if meeting["kind"] == other:
                    return meeting, swapped
        return None, False

    def dimension(self, kind, name):
        return self.kinds[kind].get("dimensions", {}).get(name) if kind in self.kinds else None


def materials_of(part):
    """A part with a composite feature counts as composite, whatever else it is made of."""
    features = (part.get("interfaces") or {}).values()
    return {part.get("material", "unknown")} | {"composite" for own in features if "composite" in own.values()}


class Place:
    """A place of the template, with what fills it."""

    def __init__(self, form, name, part, entry):
        self.form, self.name, self.part, self.values = form, name, part, entry.get("values") or {}
        self.condition = entry.get("condition") or (part or {}).get("condition")
        self.used = bool(self.condition) or "true" in (entry.get("used"), (part or {}).get("used"))

    def interface(self, feature):
        return self.part["interfaces"].get(feature) if self.part and "interfaces" in self.part else None


class Workshop:
    """One job put together."""

    def __init__(self, catalog, job):
        self.catalog, self.job = catalog, job
        self.bicycle = catalog.bicycles[job["bicycle"]]
        self.shop = job.get("shop", {})
        self.parts = {**catalog.parts, **{part["id"]: part for part in job.get("parts", [])}}
        self.places, self.known = {}, {}
        filled = {}
        for name, entry in (job.get("places") or {}).items():
            entry = {"part": entry} if isinstance(entry, str) else (entry or {})
            filled[entry.get("is", name)] = (name, entry)
        for form in self.bicycle["places"]:
            name, entry = filled.get(form["id"], (form["id"], {}))
            self.places[form["id"]] = Place(form, name, self.parts.get(entry.get("part")), entry)
        self.template_names = {place.name: form for form, place in self.places.items()}
        self.facts = self.facts_of_places()
        self.lines = {}
        for line in job.get("lines") or []:
            form = {"id": f"lines/{line['id']}"}
            self.lines[form["id"]] = Place(form, f"lines.{line['id']}", self.parts.get(line.get("part")), {})

    def left_hand(self):
        """The brake of the left hand: as the job says, else by the custom of the shop's country."""
        if self.job.get("hands"):
            return self.job["hands"]["left"]
        country = self.shop.get("country", "")
        return next((one["left"] for one in self.catalog.customs if country in one["countries"]), "front")

    def facts_of_places(self):
        facts = {"hand:left=" + self.left_hand()}
        for name, place in self.places.items():
            if place.part or place.form.get("optional") != "true":
                facts.add(f"place:{name}")
            if not place.part:
                facts.add(f"open:{name}")
                continue
            facts.add(f"family:{name}={place.part['family']}")
            facts.add(f"material:{name}={place.part.get('material', 'unknown')}")
            facts |= {f"used:{name}"} if place.used else set()
            facts |= {f"kind:{name}.{feature}={own['kind']}" for feature, own in place.part.get("interfaces", {}).items()}
        return facts

    def apply(self, entries):
        """Those whose conditions all hold."""
        return [one for one in entries if all(self.holds(fact) for fact in one.get("when", []))]

    def holds(self, fact):
        return fact[1:] not in self.facts if fact.startswith("!") else fact in self.facts

    def joints(self):
        joints = self.apply(self.bicycle["joints"])
        for joint in self.job.get("joints", []):
            joint = {**joint, "a": self.in_template(joint["a"]), "b": self.in_template(joint["b"])}
            if {joint["a"], joint["b"]} not in [{one["a"], one["b"]} for one in joints]:
                joints.append(joint)
        return joints + self.line_joints()

    def line_joints(self):
        """A line meets the devices it ends at wherever the catalog has rules for a feature of both."""
        joints = []
        for line, (key, own) in zip(self.job.get("lines") or [], self.lines.items()):
            for side in ("from", "to"):
                place = self.in_template(line[side]).split(".")[0]
                device = self.place(place)
                for port, one in (device.part or {}).get("interfaces", {}).items():
                    for end, two in (own.part or {}).get("interfaces", {}).items():
                        if self.catalog.meeting(one["kind"], two["kind"])[0]:
                            joints.append({"a": f"{place}.{port}", "b": f"{key}.{end}"})
        return joints

    def place(self, name):
        return self.lines[name] if name in self.lines else self.places[name]

    def stacks(self):
        return [
            {**stack, "forms": self.apply(stack["forms"]), "slots": self.apply(stack.get("slots", []))}
            for stack in self.apply(self.bicycle["stacks"])
        ]

    def in_template(self, reference):
        place, feature = reference.split(".", 1)
        return f"{self.template_names.get(place, place)}.{feature}"

    def in_job(self, reference):
        place, _, feature = reference.partition(".")
        return f"{self.place(place).name}.{feature}"

    def interface(self, reference):
        place, feature = reference.split(".", 1)
        return self.place(place).interface(feature)

    def kit(self):
        """Thickness of the pieces in the drawer by their id."""
        return {one["id"]: read_text(one["thickness"], "length").nominal for one in self.shop.get("kit", [])}

    def tool(self, name):
        tools = self.shop.get("tools", [])
        return next((tool for key in ("id", "kind") for tool in tools if tool.get(key) == name), None)

    def value(self, reference):
        """Value of `place.interface.dimension`; None when nothing says anything about it."""
        if reference not in self.known:
            self.known[reference] = self.read_value(reference)
        return self.known[reference]

    def read_value(self, reference):
        value = self.as_written(reference)
        if value is None:
            return None
        name, feature, dimension = reference.split(".")
        place = self.place(name)
        value = self.as_read(value, self.catalog.dimension(place.interface(feature)["kind"], dimension))
        if place.used and value.origin in ("maker", "standard"):
            value.origin = "assumed"
        return value

    def as_written(self, reference):
        """The value before anything is known of the tool that read it, or of what its part has been through."""
        name, feature, dimension = reference.split(".")
        place = self.place(name)
        interface = place.interface(feature)
        if interface is None:
            return None
        guide = self.catalog.dimension(interface["kind"], dimension)
        if guide is not None and guide.get("thickest_line") == "true" and (self.job.get("lines") or []):
            return self.thickest_line(guide)
        own = place.values.get(f"{feature}.{dimension}")
        node = own if own is not None else interface.get(dimension)
        if guide is None or node is None:
            return None
        paper = None if own is not None else place.part.get("paper")
        return self.filled(read_node(node, guide["is"], paper), guide)

    def part_value(self, part, feature, dimension):
        """Value of a feature of a part that is in no place."""
        own = part["interfaces"][feature]
        guide = self.catalog.dimension(own["kind"], dimension)
        if guide is None or dimension not in own:
            return None
        return self.filled(read_node(own[dimension], guide["is"], part.get("paper")), guide)

    def thickest_line(self, guide):
        """Outside diameter of the line that may be thickest; a used one is assumed."""
        found = []
        for line in self.lines.values():
            value = self.filled(read_node(line.part["line"]["diameter"], "length", line.part.get("paper")), guide)
            if line.used and value.origin != "measured":
                value.origin = "assumed"
            found.append(value)
        return max(found, key=lambda value: value.high)

    def as_read(self, value, guide):
        """What a tool can tell: nothing finer than its resolution, and moved where it reads low."""
        tool = self.tool(value.tool) if value.origin == "measured" and value.tool else None
        if tool is None or self.catalog.substitutes is None:
            return value
        low, high = value.low, value.high
        if error := self.reading_error(value):
            low, high = min(low, value.nominal + error[0]), max(high, value.nominal + error[1])
        for one in self.catalog.substitutes if value.dimension == "length" else []:
            if one["tool"] == tool.get("kind") and one["instead_of"] == guide["measure"]["tool"]:
                low += read_text(one["reads_low"]["from"], "length").nominal
                high += read_text(one["reads_low"]["to"], "length").nominal
                return Value(value.dimension, low + (high - low) // 2, low, high, value.origin, True, value.tool)
        return Value(value.dimension, value.nominal, low, high, value.origin, True, value.tool)

    def filled(self, value, guide):
        """Deviations that were not written, and the whole permitted range of what is unknown."""
        if value.nominal is None:
            low, high = (read_text(guide[end], guide["is"]).nominal for end in ("from", "to"))
            return Value(guide["is"], low + (high - low) // 2, low, high, "unknown", True)
        if value.stated:
            return value
        lower, upper = self.reading_error(value) or read_deviations(guide["unstated"], guide["is"])
        low, high = value.low + lower, value.high + upper
        return Value(value.dimension, value.nominal, low, high, value.origin, True, value.tool)

    def reading_error(self, value):
        tool = self.tool(value.tool) if value.origin == "measured" and value.tool else None
        try:
            step = read_text(tool["resolution"], value.dimension).nominal if tool else None
        except (KeyError, Unreadable):
            return None
        return None if step is None else (-step, step)
