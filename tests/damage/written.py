"""Values as they are written (docs/notation.md, docs/formats.md), read with exact fractions."""
import copy
import functools
import math
import re
from fractions import Fraction

INCH = Fraction(25_400_000)
PSI = Fraction("4.4482216152605") / Fraction("0.0254") ** 2  # pound-force over square inch, in pascal
ATTESTED = ("measured", "maker", "standard")

UNITS = {
    "length": {
        **{"mm": 10**6, "cm": 10**7, "m": 10**9, "µm": 10**3, "μm": 10**3, "um": 10**3, "nm": 1},
        **{"in": INCH, "inch": INCH, '"': INCH},
    },
    "angle": {"°": 10**6, "deg": 10**6, "degree": 10**6, "degrees": 10**6},
    "torque": {"N·m": 10**6, "Nm": 10**6},
    "force": {"N": 10**3, "kN": 10**6},
    "mass": {"g": 10**3, "kg": 10**6, "mg": 1},
    "pressure": {"bar": 10**5, "kPa": 10**3, "MPa": 10**6, "Pa": 1, "psi": PSI},
    "duration": {"s": 10**3, "min": 60_000, "h": 3_600_000},
    "count": {"": 1},
}
NUMBER = r"(?:\d+-\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[.,]\d+)"
SIGNED = rf"[+\-−]?{NUMBER}"
VALUE = re.compile(
    rf"(?P<about>≈\s*)?(?P<first>{SIGNED})\s*"
    rf"(?:\.\.\s*(?P<last>{SIGNED})|±\s*(?P<both>{NUMBER})|(?P<a>[+\-−]{NUMBER})\s*/\s*(?P<b>[+\-−]?{NUMBER}))?"
    r"\s*(?P<unit>[^\s\d]\S*(?: m)?)?(?:\s+(?P<origin>measured|maker|standard|assumed))?"
)


class Unreadable(Exception):
    """Text that this reader does not know."""


class Value:
    """An amount in base units with its limits, and how sure it is."""

    def __init__(self, dimension, nominal, low, high, origin, stated, tool=""):
        self.dimension, self.nominal, self.low, self.high = dimension, nominal, low, high
        self.origin, self.stated, self.tool = origin, stated, tool

    @property
    def attested(self):
        return self.origin in ATTESTED


def number(text):
    text = text.replace("−", "-").replace(",", ".")
    sign, text = (-1, text[1:]) if text.startswith("-") else (1, text.lstrip("+"))
    if "-" in text:
        whole, part = text.split("-")
        return sign * (Fraction(whole) + Fraction(part))
    return sign * Fraction(text)


def nearest(exact):
    return math.floor(exact + Fraction(1, 2))


def unit_of(word, dimension):
    if word in ("measured", "maker", "standard", "assumed"):
        return None
    factor = UNITS[dimension].get(word or "")
    if factor is None and not (dimension == "length" and word in ("tpi", "TPI")):
        raise Unreadable(f"unit {word!r} of a {dimension}")
    return factor


def read_text(text, dimension):
    """Value with origin None where the text names none; low and high are None for `?`."""
    return copy.copy(read_once(str(text), dimension))


@functools.lru_cache(maxsize=None)
def read_once(text, dimension):
    text = text.strip()
    if text.startswith("?") or text == "unknown":
        return Value(dimension, None, None, None, "unknown", False)
    match = VALUE.fullmatch(text)
    if not match:
        raise Unreadable(text)
    word, origin = match["unit"], match["origin"]
    if word in ATTESTED + ("assumed",):
        word, origin = "", word
    if match["about"]:
        origin = "assumed"
    first = number(match["first"])
    if word in ("tpi", "TPI"):
        exact = INCH / first
        return Value(dimension, nearest(exact), math.floor(exact), math.ceil(exact), origin, False)
    factor = unit_of(word, dimension)
    low = high = first
    if match["last"]:
        high = number(match["last"])
    elif match["both"]:
        low, high = first - number(match["both"]), first + number(match["both"])
    elif match["a"]:
        ends = sorted((number(match["a"]), number(match["b"])))
        low, high = first + ends[0], first + ends[1]
    least, most = math.floor(low * factor), math.ceil(high * factor)
    nominal = (least + most) // 2 if match["last"] else nearest(first * factor)
    return Value(dimension, nominal, least, most, origin, any(match[name] for name in ("last", "both", "a")))


def read_deviations(text, dimension):
    around = read_text("0 " + text, dimension)
    return around.low, around.high


def read_node(node, dimension, paper):
    """A value of a document: text, or a map that carries where it comes from."""
    if isinstance(node, dict):
        value = read_text(node["value"], dimension)
        named = [key for key in ("measured", "maker", "standard", "assumed") if key in node]
        if value.nominal is not None:
            value.origin = named[0]
        if "measured" in node:
            value.tool = node["measured"]["with"]
        return value
    value = read_text(node, dimension)
    if value.origin is None:
        value.origin = "maker" if paper else "assumed"
    return value
