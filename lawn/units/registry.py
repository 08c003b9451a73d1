"""The one Pint registry: what people write on labels and in imports, as SI; and the phone's factors.

Every number is kept as an exact fraction until the last step, so that 48 lb is 21.77243376 kg and not
a neighbour of it. The foot is the international foot (0.3048 m exactly); the US survey foot, retired
at the end of 2022 (NIST, Federal Register 85 FR 62698), is nowhere used, so the acre is 43,560
international square feet.
"""

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from pathlib import Path
from typing import Any

import pint

from lawn.units.numbers_as_written import WrittenError, read_number, tidy

ROOT = Path(__file__).resolve().parents[2]
UNITS_FILE = ROOT / "fixtures" / "units.json"
ENGINE_FILE = ROOT / "lawn" / "engine" / "units" / "table.py"

registry: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction)
registry.define("lawn_acre = 43560 * foot ** 2")
registry.define("thousand_square_feet = 1000 * foot ** 2")
registry.define("hundred_square_metres = 100 * metre ** 2")


class UnitsError(WrittenError):
    """A measurement that cannot be read: code, value as written, message saying what is allowed."""


@dataclass(frozen=True)
class Unit:
    """One unit a person may choose. `meaning` is its Pint expression; `words` how people write it."""

    key: str
    quantity: str
    system: str
    label: str
    meaning: str
    words: tuple[str, ...] = ()
    zero: int = 0  # what it shows where the stored value is 0: 32 for °F

    @property
    def factor(self) -> float:
        """How many SI units (as stored) one of this unit is."""
        return float(self.exact)

    @cached_property
    def exact(self) -> Fraction:
        """The factor without any rounding."""
        base = registry.parse_expression(STORED_IN[self.quantity].meaning)
        return Fraction((registry.parse_expression(self.meaning) / base).to("dimensionless").magnitude)


@dataclass(frozen=True)
class Quantity:
    """A kind of measurement: the SI unit it is stored in, and what it is called in a sentence."""

    si: str
    meaning: str
    says: str


STORED_IN: dict[str, Quantity] = {
    "mass": Quantity("kg", "kilogram", "a weight"),
    "area": Quantity("m2", "metre ** 2", "an area"),
    "length": Quantity("m", "metre", "a length"),
    "height": Quantity("mm", "millimetre", "a height"),
    "speed": Quantity("m/s", "metre / second", "a speed"),
    "rate": Quantity("kg/m2", "kilogram / metre ** 2", "a rate"),
    "nitrogen": Quantity("kg/m2", "kilogram / metre ** 2", "an amount of nitrogen per area"),
    "density": Quantity("kg/m3", "kilogram / metre ** 3", "a bulk density"),
    "volume": Quantity("m3", "metre ** 3", "a volume"),
    "temperature": Quantity("C", "kelvin", "a temperature"),
    "degrees": Quantity("K", "kelvin", "a number of degrees"),
    "degree_days": Quantity("K day", "kelvin * day", "a number of degree days"),
    "soil": Quantity("mg/kg", "milligram / kilogram", "an amount in the soil"),
}

_FT2 = ("ft²", "sq ft", "sqft", "square feet", "square foot", "square ft")
_M2 = ("m²", "sq m", "sqm", "square metres", "square metre", "square meters", "square meter")
_KG = ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")
_INCH = ("in", "inch", "inches", '"', "″")
_FOOT = ("ft", "foot", "feet", "'", "′")
_MM = ("mm", "millimetre", "millimetres", "millimeter", "millimeters")
_CM = ("cm", "centimetre", "centimetres", "centimeter", "centimeters")
_FL_OZ = ("fl oz", "fl ozs", "floz", "fluid ounce", "fluid ounces")
_F = ("f", "°f", "° f", "degf", "deg f", "degrees f", "fahrenheit", "degrees fahrenheit")
_C = ("c", "°c", "° c", "degc", "deg c", "degrees c", "celsius", "degrees celsius")
_FIFTH_NINTHS = "kelvin * 5 / 9"
_PER_KFT2 = "thousand_square_feet"
_PER_100M2 = "hundred_square_metres"

UNITS: tuple[Unit, ...] = (
    Unit("lb", "mass", "us", "lb", "pound", ("lb", "lbs", "pound", "pounds")),
    Unit("oz", "mass", "us", "oz", "ounce", ("oz", "ounce", "ounces")),
    Unit("kg", "mass", "metric", "kg", "kilogram", _KG),
    Unit("g", "mass", "metric", "g", "gram", ("g", "gram", "grams", "gramme", "grammes")),
    Unit("t", "mass", "metric", "t", "tonne", ("t", "tonne", "tonnes")),
    Unit("ft2", "area", "us", "ft²", "foot ** 2", _FT2),
    Unit("kft2", "area", "us", "1,000 ft²", "thousand_square_feet"),
    Unit("yd2", "area", "us", "yd²", "yard ** 2", ("yd²", "sq yd", "square yards", "square yard")),
    Unit("acre", "area", "us", "acre", "lawn_acre", ("acre", "acres", "ac")),
    Unit("m2", "area", "metric", "m²", "metre ** 2", _M2),
    Unit("100m2", "area", "metric", "100 m²", "hundred_square_metres", ("are", "ares")),
    Unit("ha", "area", "metric", "ha", "hectare", ("ha", "hectare", "hectares")),
    Unit("ft", "length", "us", "ft", "foot", _FOOT),
    Unit("in", "length", "us", "in", "inch", _INCH),
    Unit("yd", "length", "us", "yd", "yard", ("yd", "yds", "yard", "yards")),
    Unit("m", "length", "metric", "m", "metre", ("m", "metre", "metres", "meter", "meters")),
    Unit("cm", "length", "metric", "cm", "centimetre", _CM),
    Unit("mm", "length", "metric", "mm", "millimetre", _MM),
    Unit("height_in", "height", "us", "in", "inch", _INCH),
    Unit("height_ft", "height", "us", "ft", "foot", _FOOT),
    Unit("height_mm", "height", "metric", "mm", "millimetre", _MM),
    Unit("height_cm", "height", "metric", "cm", "centimetre", _CM),
    Unit("mph", "speed", "us", "mph", "mile / hour", ("mph", "miles per hour", "mi/h")),
    Unit("ft_s", "speed", "us", "ft/s", "foot / second", ("ft/s", "fps", "feet per second")),
    Unit("km_h", "speed", "metric", "km/h", "kilometre / hour", ("km/h", "kph", "kmh", "km per hour")),
    Unit("m_s", "speed", "metric", "m/s", "metre / second", ("m/s", "metres per second", "meters per second")),
    Unit("lb_kft2", "rate", "us", "lb/1,000 ft²", f"pound / {_PER_KFT2}"),
    Unit("oz_kft2", "rate", "us", "oz/1,000 ft²", f"ounce / {_PER_KFT2}"),
    Unit("lb_acre", "rate", "us", "lb/acre", "pound / lawn_acre"),
    Unit("kg_100m2", "rate", "metric", "kg/100 m²", f"kilogram / {_PER_100M2}"),
    Unit("g_m2", "rate", "metric", "g/m²", "gram / metre ** 2"),
    Unit("kg_ha", "rate", "metric", "kg/ha", "kilogram / hectare"),
    Unit("n_lb_kft2", "nitrogen", "us", "lb N/1,000 ft²", f"pound / {_PER_KFT2}"),
    Unit("n_g_m2", "nitrogen", "metric", "g N/m²", "gram / metre ** 2"),
    Unit("n_kg_100m2", "nitrogen", "metric", "kg N/100 m²", f"kilogram / {_PER_100M2}"),
    Unit("lb_ft3", "density", "us", "lb/ft³", "pound / foot ** 3", ("lb/ft³", "lb/cu ft", "lb per cubic foot")),
    Unit("kg_m3", "density", "metric", "kg/m³", "kilogram / metre ** 3", ("kg/m³", "kg per cubic metre")),
    Unit("kg_l", "density", "metric", "kg/L", "kilogram / litre", ("kg/l", "g/ml", "kg per litre")),
    Unit("fl_oz", "volume", "us", "fl oz", "fluid_ounce", _FL_OZ),
    Unit("qt", "volume", "us", "qt", "quart", ("qt", "qts", "quart", "quarts")),
    Unit("cup", "volume", "us", "cups", "cup", ("cup", "cups")),
    Unit("gal", "volume", "us", "gal", "gallon", ("gal", "gallon", "gallons")),
    Unit("litre", "volume", "metric", "L", "litre", ("l", "litre", "litres", "liter", "liters")),
    Unit("ml", "volume", "metric", "mL", "millilitre", ("ml", "millilitre", "milliliter")),
    Unit("deg_f", "temperature", "us", "°F", _FIFTH_NINTHS, _F, zero=32),
    Unit("deg_c", "temperature", "metric", "°C", "kelvin", _C),
    Unit("degrees_f", "degrees", "us", "°F", _FIFTH_NINTHS, _F),
    Unit("degrees_c", "degrees", "metric", "°C", "kelvin", _C),
    Unit("degree_days_f", "degree_days", "us", "°F days", "kelvin * day * 5 / 9", ("°f days", "f days")),
    Unit("degree_days_c", "degree_days", "metric", "°C days", "kelvin * day", ("°c days", "c days")),
    Unit("ppm", "soil", "us", "ppm", "milligram / kilogram", ("ppm", "parts per million")),
    # Labs count an acre of soil 6 2/3 in deep as 2,000,000 lb, so that 2 lb of it are one part in a million.
    Unit("soil_lb_acre", "soil", "us", "lb/acre", "milligram / kilogram / 2"),
    Unit("mg_kg", "soil", "metric", "mg/kg", "milligram / kilogram", ("mg/kg", "mg per kg")),
)
BY_KEY: dict[str, Unit] = {unit.key: unit for unit in UNITS}

_LEADING = re.compile(
    r"^(?:(?:net|gross|wt|weight|contents|covers|coverage|treats|up to|about|apply|rate|area|at|of)\b:? ?)+"
)
_NUMBER = r"[-+]?(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9.,](?:[0-9., ]*[0-9.,])?)"
_PIECE = re.compile(rf"({_NUMBER})[ -]?([^0-9 ][^0-9]*)")
_SHARE = r"([0-9]+(?:\.[0-9]+)?)"
_ANALYSIS = re.compile(rf"(?:analysis|n-?p-?k)?:? ?{_SHARE}[-–:/ ]+{_SHARE}[-–:/ ]+{_SHARE}")
_PER = re.compile(r"(.*[a-z]) ?(?:/|\bper ) ?(.+)")


@dataclass(frozen=True)
class Measured:
    """What was read. si: the value as stored; typed: amount and unit key as written; text: all of it."""

    si: float
    quantity: str
    typed: dict[str, str]
    text: str


@dataclass(frozen=True)
class Analysis:
    """The three numbers of a label in percent: nitrogen N, phosphate P2O5, potash K2O."""

    n_percent: float
    p2o5_percent: float
    k2o_percent: float


def convert(amount: str, key: str) -> float:
    """SI value of an amount as written and a unit key ("4,800", "ft2" -> 445.934592). Raises UnitsError."""
    unit = _unit(key)
    try:
        return float((read_number(amount, comma=unit.system == "metric") - unit.zero) * unit.exact)
    except WrittenError as bad:
        raise UnitsError(bad.code, bad.value, bad.message) from bad


def back(si: float, key: str) -> float:
    """Give the SI value in the unit named by `key`: the way back of `convert`."""
    return float(Fraction(si) / _unit(key).exact + _unit(key).zero)


def _unit(key: str) -> Unit:
    if key not in BY_KEY:
        raise UnitsError("unit", key, f"There is no unit “{key}”. Known: {', '.join(BY_KEY)}.")
    return BY_KEY[key]


def parse_analysis(text: str) -> Analysis:
    """Read "23-0-9" as three percentages, together no more than 100. Raises UnitsError."""
    found = _ANALYSIS.fullmatch(tidy(text).lower())
    if not found:
        message = f"“{text}” is not an analysis. Enter three numbers with dashes, such as 23-0-9."
        raise UnitsError("analysis", text, message)
    shares = [Fraction(part) for part in found.groups()]
    if sum(shares) > 100:
        message = f"The three numbers of “{text}” come to more than 100 %. Together they may be 0 to 100."
        raise UnitsError("analysis", text, message)
    return Analysis(*(float(share) for share in shares))


def parse(text: str, quantity: str | None = None) -> Measured:
    """Read one measurement as written, such as "covers 4,800 sq ft" or "3 lb per 1,000 sq ft".

    quantity: a key of STORED_IN, or None to take it from the unit. A second figure in brackets
    ("48 lb (21.8 kg)") must agree within 2 percent, as rounded label figures do.
    Raises UnitsError naming what is wrong and what is allowed.
    """
    if quantity is not None and quantity not in STORED_IN:
        raise UnitsError("quantity", quantity, f"Known quantities: {', '.join(STORED_IN)}.")
    wording = _LEADING.sub("", _plain_words(text))
    bracketed = re.fullmatch(r"([^()]+?) ?\(([^()]+)\)", wording)
    if not bracketed:
        return _measurement(wording, quantity, text)
    first = _measurement(bracketed[1], quantity, text)
    second = _measurement(bracketed[2], first.quantity, text)
    if abs(second.si - first.si) > 0.02 * abs(first.si):
        message = f"The two figures in “{text}” differ by more than 2 %. Enter one of them alone."
        raise UnitsError("two_figures", text, message)
    return first


def _plain_words(text: str) -> str:
    """Lower case, one space, ft2 and ft^2 as ft², no full stops after abbreviations, no "bag"."""
    words = re.sub(r"[A-Z]", lambda found: found[0].lower(), tidy(text))  # no letter beyond ASCII becomes one of it
    words = re.sub(r"(ft|yd|m)\^?([23])(?![0-9])", _superscript, words)
    words = re.sub(r"([a-z])\.", r"\1 ", words)
    return re.sub(r" +", " ", re.sub(r"[ -]bags?$", "", words.strip())).strip()


def _superscript(found: re.Match[str]) -> str:
    return found[1] + {"2": "²", "3": "³"}[found[2]]


def _measurement(wording: str, quantity: str | None, text: str) -> Measured:
    """One measurement without brackets: a number and a unit, several of them, or so much per area."""
    if not wording:
        raise UnitsError("empty", text, f"Nothing is written here. {_allowed(quantity)}")
    if (simple := _PIECE.fullmatch(wording)) and (unit := _by_word(simple[2], quantity)):
        si = _times(simple[1], unit)
        return Measured(float(si), unit.quantity, {"amount": simple[1], "unit": unit.key}, text)
    if per := _PER.fullmatch(wording):
        return _per_area(per[1], per[2], quantity, text)
    return _several(wording, quantity, text)


def _per_area(top: str, bottom: str, quantity: str | None, text: str) -> Measured:
    """Read "3 lb" per "1,000 sq ft"; "1 lb n" (or "of nitrogen") makes it an amount of nitrogen."""
    bare = re.sub(r"(?<=[a-z]) (?:of )?(?:n|nitrogen)$", "", top)
    found = quantity or ("rate" if bare == top else "nitrogen")
    if found not in ("rate", "nitrogen") or (found == "rate" and bare != top):
        raise UnitsError("unit", text, f"“{text}” is not {STORED_IN[found].says}. {_allowed(found)}")
    mass = _measurement(bare, "mass", text)
    area = _measurement(bottom if bottom[:1] in "0123456789." else f"1 {bottom}", "area", text)
    if area.si <= 0:
        raise UnitsError("zero_division", text, f"The area in “{text}” must be more than 0.")
    factor = Fraction(BY_KEY[mass.typed["unit"]].exact) * Fraction(area.si).limit_denominator(10**12) ** -1
    key = next((u.key for u in UNITS if u.quantity == found and abs(u.exact / factor - 1) < 1e-9), "")
    typed = {"amount": mass.typed["amount"] if key else text.strip(), "unit": key}
    return Measured(mass.si / area.si, found, typed, text)


def _several(wording: str, quantity: str | None, text: str) -> Measured:
    """Read pieces of one quantity, each unit smaller than the one before: "2 lbs 4 oz", "12 ft 6 in"."""
    pieces = list(_PIECE.finditer(wording))
    if not pieces or "".join(piece[0] for piece in pieces).replace(" ", "") != wording.replace(" ", ""):
        raise UnitsError("not_a_measurement", text, f"“{text}” cannot be read. {_allowed(quantity)}")
    total = Fraction(0)
    units: list[Unit] = []
    for piece in pieces:
        unit = _by_word(piece[2].strip(), units[0].quantity if units else quantity)
        if unit is None or (units and unit.exact >= units[-1].exact):
            allowed = _allowed(units[0].quantity if units else quantity)
            raise UnitsError("unit", text, f"“{piece[2].strip()}” in “{text}” is not a unit for this. {allowed}")
        total += _times(piece[1], unit)
        units.append(unit)
    return Measured(float(total), units[0].quantity, {"amount": text.strip(), "unit": units[0].key}, text)


def _times(number: str, unit: Unit) -> Fraction:
    try:
        return (read_number(number, comma=unit.system == "metric") - unit.zero) * unit.exact
    except WrittenError as bad:
        raise UnitsError(bad.code, bad.value, bad.message) from bad


def _by_word(word: str, quantity: str | None) -> Unit | None:
    fits = (u for u in UNITS if quantity in (None, u.quantity))
    return next((u for u in fits if word in u.words), None)


def _allowed(quantity: str | None) -> str:
    """Name in a sentence the units a person may write for this quantity."""
    if quantity is None:
        return "Enter a number and a unit, such as 48 lb, 4,800 sq ft or 3 lb per 1,000 sq ft."
    labels = [unit.label for unit in UNITS if unit.quantity == quantity]
    return f"Enter a number and one of: {', '.join(labels)}."


def as_file(units: Iterable[Unit] = UNITS) -> str:
    """Write the text of fixtures/units.json, by which the phone reads and formats."""
    head = {
        "about": "Factors by which the phone reads and shows measurements: amount * factor = value as stored; "
        "with a `zero`, (amount - zero) * factor. "
        "Written from lawn/units/registry.py by `manage.py units`; edit there. International foot and pound "
        "(exact: 0.3048 m, 0.45359237 kg; NIST SP 811, appendix B); no US survey foot.",
        "quantities": {key: {"si": q.si, "says": q.says} for key, q in STORED_IN.items()},
    }
    rows = ",\n    ".join(json.dumps(_row(unit), ensure_ascii=False) for unit in units)
    return json.dumps(head, indent=2, ensure_ascii=False)[:-2] + f',\n  "units": [\n    {rows}\n  ]\n}}\n'


def _row(unit: Unit) -> dict[str, Any]:
    return {
        "key": unit.key, "quantity": unit.quantity, "system": unit.system,
        "label": unit.label, "factor": unit.factor, **({"zero": unit.zero} if unit.zero else {}),
        "words": list(unit.words),
    }  # fmt: skip


def as_engine(units: Iterable[Unit] = UNITS) -> str:
    """Write the text of lawn/engine/units/table.py, by which the engine reads what people type."""
    cells = [(u.key, u.quantity, u.system == "metric", u.label, u.factor, u.words, float(u.zero)) for u in units]
    rows = [f"    ({', '.join(_python(one) for one in row)})," for row in cells]
    sorts = [f"    {_python(key)}: ({_python(q.si)}, {_python(q.says)})," for key, q in STORED_IN.items()]
    return "\n".join([_ENGINE_HEAD, "QUANTITIES = {", *sorts, "}", "UNITS = (", *rows, ")  # fmt: skip", ""])


_ENGINE_HEAD = '''\
"""Sorts of measurement and their units: written by `manage.py units` from the Pint registry (lawn/units/registry.py).

Sorts: unit stored in, what it is in a sentence. Units: key, sort, metric, label, units stored in one of it, words,
and what it shows where the stored value is 0.
"""

# ruff: noqa: E501
'''


def _python(value: object) -> str:
    """A value as it stands in a Python file; texts in double quotes."""
    if isinstance(value, tuple):
        return "(" + "".join(f"{_python(one)}, " for one in value).rstrip(" ") + ")"
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else repr(value)
