"""What a plan must propose where a joint does not go: the cheapest chain of adapters. Rules: docs/bridge.md, tried one by one."""
from expected import NOBODY_KNOWS, guarded
from stacks import Stack
from workshop import materials_of
from written import ATTESTED

MOST_PIECES = 4
MOST_PROPOSALS = 8
ADDS = "adds_"


class Face:
    """One feature that a joint of a chain has: of a part in a place of the bicycle, or of an adapter of the catalog."""

    def __init__(self, own, value):
        self.own, self.kind, self.value = own, own["kind"], value


class Way:
    """An adapter, entered by one of the features it joins and left by the other."""

    def __init__(self, part, enters, leaves, shop):
        self.part, self.enters, self.leaves = part, enters, leaves
        self.price = int(part["price"].split()[0].replace(".", ""))
        self.front, self.back = (
            Face(part["interfaces"][name], lambda dimension, name=name: shop.part_value(part, name, dimension))
            for name in (enters, leaves)
        )

    def values(self):
        """(dimension, value) of both features."""
        for face in (self.front, self.back):
            for name in face.own:
                if value := face.value(name):
                    yield name, value


class Bridges:
    def __init__(self, shop, joints):
        self.shop, self.catalog, self.joints = shop, shop.catalog, joints
        self.ways = [
            Way(part, *pair, shop)
            for part in self.catalog.parts.values()
            if "price" in part and part.get("used") != "true" and "condition" not in part
            for join in part.get("joins", [])
            for pair in (join, join[::-1])
        ]

    def over(self, a, b, found):
        """The findings of one joint, with what the plan proposes for those that stop."""
        ends = [self.face(side) for side in (a, b)]
        asking = [one for one in found if one.verdict == "stop" or (one.verdict == "add" and one.additions == ("",))]
        if not asking or None in ends or any(self.never(face.kind) for face in ends):
            return found
        chain, certainty = self.chosen((a, b), *ends)
        for one in asking if chain else []:
            if self.covers(chain, one, *ends):
                self.propose(chain, certainty, one, (a, b), ends)
        return found

    def face(self, reference):
        own = self.shop.interface(reference)
        return own and Face(own, lambda dimension: self.shop.value(f"{reference}.{dimension}"))

    def never(self, kind):
        return self.catalog.kinds[kind].get("never_bridged") == "true"

    def meeting(self, one, two):
        if one.kind == two.kind or self.never(one.kind) or self.never(two.kind):
            return None, False
        return self.catalog.meeting(one.kind, two.kind)

    def mate(self, one, two):
        """fails, open or holds, by every rule of the two kinds; None where they never meet."""
        meeting, swapped = self.meeting(one, two)
        if meeting is None:
            return None
        sides = {"own": two, "other": one} if swapped else {"own": one, "other": two}
        states = {self.joints.certainty(rule, self.operands(rule, sides), sides) for rule in meeting["rules"]}
        return next((state for state in ("fails", "open") if state in states), "holds")

    def operands(self, rule, sides):
        values = {}
        for role, reference in rule.get("operands", {}).items():
            side, _, dimension = reference.partition(".")
            values[role] = sides[side].value(dimension) if side in sides else self.joints.fixed(reference)
        return values

    def chains(self, start, goal):
        """(state of its worst joint, ways), no joint of which fails."""
        open_ends = [("holds", [], start)]
        for _ in range(MOST_PIECES):
            longer = []
            for state, ways, face in open_ends:
                for way in self.ways:
                    joint = self.mate(face, way.front)
                    if joint in ("holds", "open"):
                        longer.append((self.worse(state, joint), [*ways, way], way.back))
            for state, ways, face in longer:
                if (joint := self.mate(face, goal)) in ("holds", "open"):
                    yield self.worse(state, joint), ways
            open_ends = longer

    @staticmethod
    def worse(one, two):
        return "open" if "open" in (one, two) else "holds"

    def chosen(self, joint, start, goal):
        """The cheapest chain that is not refused, certain ones first, and how sure it is."""
        order = sorted(
            self.chains(start, goal),
            key=lambda one: (one[0] == "open", sum(way.price for way in one[1]), len(one[1]), [w.part["id"] for w in one[1]]),
        )
        for state, ways in order[:MOST_PROPOSALS]:
            if len(ways) > 1 and self.guards(ways, start, goal) != "nothing":
                continue
            if not all(self.other_pairs_fit(way, joint) for way in ways):
                continue
            stacks = self.stacks_accept(ways, joint)
            if stacks != "fails":
                return ways, NOBODY_KNOWS if stacks is NOBODY_KNOWS else self.worse(state, stacks)
        return None, None

    def guards(self, ways, start, goal):
        """What the first guarded rule along the chain guards."""
        faces = [start, *(face for way in ways for face in (way.front, way.back)), goal]
        for one, two in zip(faces[::2], faces[1::2]):
            for rule in self.meeting(one, two)[0]["rules"]:
                if guarded(rule):
                    return rule["guards"]
        return "nothing"

    def other_pairs_fit(self, way, joint):
        """A part that joins two pairs finds a place for the other one at a joint beside this one."""
        for join in way.part["joins"]:
            if {*join} == {way.enters, way.leaves}:
                continue
            one, two = (next(w for w in self.ways if w.part is way.part and w.enters == name).front for name in join)
            if not any(self.fits_between(one, two, beside) for beside in self.beside(joint)):
                return False
        return True

    def beside(self, joint):
        places = {side.split(".")[0] for side in joint}
        for other in self.shop.joints():
            sides = (other["a"], other["b"])
            if places & {side.split(".")[0] for side in sides} and sides != joint and all(map(self.shop.interface, sides)):
                yield [self.face(side) for side in sides]

    def fits_between(self, one, two, ends):
        return any(
            self.mate(ends[0], first) == "holds" and self.mate(second, ends[1]) == "holds"
            for first, second in ((one, two), (two, one))
        )

    def stacks_accept(self, ways, joint):
        added = []
        for way in ways:
            for name, value in way.values():
                if name.startswith(ADDS):
                    target = self.target(name.removeprefix(ADDS), joint)
                    if target is None:
                        return "open"
                    added.append((target, value))
        states = [self.stack_accepts(stack, added) for stack in self.shop.stacks()] if added else []
        return next((state for state in ("fails", NOBODY_KNOWS, "open") if state in states), "holds")

    def target(self, dimension, joint):
        """The joined features go first, then the only other feature of the two parts that has such a dimension."""
        places = [side.split(".")[0] for side in joint]
        for side in joint:
            if self.shop.value(f"{side}.{dimension}"):
                return f"{side}.{dimension}"
        every = [f"{p}.{name}.{dimension}" for p in places for name in self.shop.place(p).part.get("interfaces", {})]
        found = [reference for reference in every if self.shop.value(reference)]
        return found[0] if len(found) == 1 else None

    def stack_accepts(self, stack, added):
        read = {term["id"] for term in stack["terms"] if term.get("value") in [target for target, _ in added]}
        if not read:
            return "holds"
        before, after = Stack(stack, self.shop, []), Stack(stack, self.shop, [], added)
        was, now = before.best_states(), after.best_states()
        if was is None or now is None:
            return NOBODY_KNOWS
        if any(form.missing and read & {*form.terms} for form in after.forms.values()):
            now["missing"] = "open"
        for state in ("fails", "open"):
            if any(now[name] == state and was.get(name) not in (state, "fails") for name in now):
                return state
        return "holds"

    def covers(self, chain, finding, start, goal):
        """Only what the chain asks for itself is answered: at either end all that the rule reads of that feature."""
        meeting, swapped = self.catalog.meeting(start.kind, goal.kind)
        rule = next((one for one in (meeting or {}).get("rules", []) if one["id"] == finding.key.split("@")[0]), None)
        if rule is None:
            return True
        sides = ("other", "own") if swapped else ("own", "other")
        ends = ((sides[0], start, chain[0].front), (sides[1], goal, chain[-1].back))
        return all(self.read(rule, side) <= self.asked(end, adapter) for side, end, adapter in ends)

    @staticmethod
    def read(rule, side):
        operands = [reference.split(".") for reference in rule.get("operands", {}).values()]
        words = [name.split(".")[-1] for pair in rule.get("words", {}).values() for name in [pair[side == "other"]]]
        return {one[1] for one in operands if one[0] == side} | {*words}

    def asked(self, end, adapter):
        meeting, swapped = self.meeting(end, adapter)
        return set().union(*(self.read(rule, "other" if swapped else "own") for rule in meeting["rules"]))

    def propose(self, chain, certainty, finding, joint, ends):
        finding.additions = tuple(way.part["id"] for way in chain)
        finding.differs = False
        chain_guards = self.guards(chain, *ends)
        if finding.guards == "nothing":
            finding.guards = chain_guards
        vouched = self.vouched(chain, ends)
        finding.rests = not vouched or any(value.origin not in ATTESTED for way in chain for _, value in way.values())
        if certainty is NOBODY_KNOWS:
            finding.verdict, finding.why_not = None, "adapters with too many sets of pieces to try"
            return
        life = {finding.guards, chain_guards} - {"nothing"}
        asks_maker = "brake" in life or (life and any(self.composite(side) for side in joint))
        finding.verdict = "measure" if certainty == "open" or asks_maker or (life and not vouched) else "add"

    def vouched(self, chain, ends):
        """Whether every value that some rule along the chain reads is measured, or stated by maker or standard."""
        faces = [ends[0], *(face for way in chain for face in (way.front, way.back)), ends[1]]
        for one, two in zip(faces[::2], faces[1::2]):
            meeting, swapped = self.meeting(one, two)
            sides = {"own": two, "other": one} if swapped else {"own": one, "other": two}
            for rule in meeting["rules"]:
                if any(value is not None and not value.attested for value in self.operands(rule, sides).values()):
                    return False
        return True

    def composite(self, side):
        """It is, or may be because nobody states what it is made of."""
        return bool({"composite", "unknown"} & materials_of(self.shop.place(side.split(".")[0]).part))
