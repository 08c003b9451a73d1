"""Reads the worked examples of fixtures/published: printed figures with units in, engine calls out.

Units are converted by Pint, not by the project's own code, so that the check stands outside it.
"""

import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pint

PUBLISHED = Path(__file__).resolve().parents[2] / "fixtures" / "published"
FILES = ("worked_applications.json", "worked_growing.json", "worked_spreading.json")
SOURCE_FILES = ("engine_sources.json", "worked_sources.json")
Json = dict[str, Any]

_pint: pint.UnitRegistry[float] = pint.UnitRegistry()
_pint.define("square_1000_foot = 1000 * foot**2")
# Units as the sources write them, in Pint's words; percent and plain numbers are left as they are.
PRINTED = {
    "lb N/1000 ft2": "pound / square_1000_foot",
    "lb/1000 ft2": "pound / square_1000_foot",
    "lb": "pound",
    "USD/lb N": "1 / pound",
    "ft": "foot",
    "in": "inch",
    "ft2": "foot**2",
    "m": "meter",
    "m2": "meter**2",
}
# The end of a name says its unit; the longest end that fits counts.
STORED = {
    "_kg_m2": "kilogram / meter**2",
    "_kg": "kilogram",
    "_m2": "meter**2",
    "_mm": "millimeter",
    "_m": "meter",
    "_per_kg_n": "1 / kilogram",
}


class Check(NamedTuple):
    """One printed figure and the engine call that must give it."""

    example: Json
    rule: Json

    @property
    def name(self) -> str:
        """The example and its figure, for the test's name."""
        return f"{self.example['id']}:{self.rule['figure']}:{self.rule.get('item', '')}".rstrip(":")


def examples() -> list[Json]:
    """Every example of every file."""
    return [row for name in FILES for row in json.loads((PUBLISHED / name).read_text())["examples"]]


def sources() -> Json:
    """The record of every source that an example or the engine names, by its key."""
    found: Json = {}
    for name in SOURCE_FILES:
        records = json.loads((PUBLISHED / name).read_text())["sources"]
        assert not found.keys() & records.keys(), "a source is kept in two files"
        found |= records
    return found


def checks() -> list[Check]:
    """Every figure that a call gives and a source prints; helper steps begin with an underscore."""
    found = [Check(example, rule) for example in examples() for rule in example["checks"]]
    return [check for check in found if not check.rule["figure"].startswith("_")]


def stored_unit(name: str) -> str | None:
    """Pint's word for the unit that a name ends in."""
    fitting = [end for end in STORED if name.endswith(end)]
    return STORED[max(fitting, key=len)] if fitting else None


def to_stored(value: Any, unit: str, name: str, whole_bag: bool = False) -> Any:
    """Turn a printed value into the unit of an argument's or result's name."""
    if isinstance(value, list):
        return [to_stored(item, unit, name, whole_bag) for item in value]
    wanted = stored_unit(name)
    if unit not in PRINTED or wanted is None:
        return value
    if whole_bag:  # mass of a bag, spread in thought on one square metre
        wanted = "kilogram"
    return float((value * _pint(PRINTED[unit])).to(wanted).magnitude)


def arguments(check: Check, earlier: dict[str, float]) -> Json:
    """Fill a rule's arguments: =input, =input/2, =input.place, @earlier result, !printed figure."""
    filled = _fill(check, check.rule["args"], "", earlier)
    assert isinstance(filled, dict)
    return filled


def _fill(check: Check, node: Any, name: str, earlier: dict[str, float]) -> Any:
    if isinstance(node, dict):
        return {key: _fill(check, item, key, earlier) for key, item in node.items()}
    if isinstance(node, list):
        return list(_flat(_fill(check, item, name, earlier) for item in node))
    if isinstance(node, str) and node[:1] == "@":
        return earlier[node[1:]]
    if isinstance(node, str) and node[:1] in "=!":
        return _fact(check, node, name)
    return node


def _flat(items: Iterator[Any]) -> Iterator[Any]:
    for item in items:
        yield from item if isinstance(item, list) else [item]


def _fact(check: Check, word: str, name: str) -> Any:
    pool = check.example["inputs" if word[0] == "=" else "expected"]
    parts = re.fullmatch(r".(\w+)(?:\.(\d+))?(/2)?", word)
    assert parts, word
    fact = pool[parts[1]]
    value = fact["value"] if parts[2] is None else fact["value"][int(parts[2])]
    stored = to_stored(value, fact["unit"], name, bool(check.rule.get("whole_bag_on_one_m2")))
    return stored / 2 if parts[3] else stored


def printed(check: Check) -> tuple[float, Json]:
    """The printed figure (one of a list where the rule names an item) and the record it stands in."""
    fact = check.example["expected"][check.rule["figure"]]
    value = fact["value"][check.rule["item"]] if "item" in check.rule else fact["value"]
    return float(value), fact


def in_printed_unit(check: Check, got: float, unit: str) -> float:
    """Turn the engine's answer back into the unit the source prints, with the source's own pi."""
    if "in_place_of_pi" in check.rule:
        got = got * check.rule["in_place_of_pi"] / math.pi
    if "in_place_of" in check.rule:
        got = got * check.rule["in_place_of"][0] / check.rule["in_place_of"][1]
    wanted = stored_unit(check.rule["read"])
    if check.rule.get("whole_bag_on_one_m2"):
        wanted = "kilogram"
    if unit in PRINTED and wanted is not None:
        return float((got * _pint(wanted)).to(PRINTED[unit]).magnitude)
    return got / float(check.rule.get("dial_per_one", 1))


def agrees(got: float, value: float, fact: Json, click: float | None = None) -> bool:
    """Tell whether a figure is the printed one, rounded as the source says or down to a click of the dial."""
    how = str(fact.get("rounding", ""))
    if click is not None:
        return value - click < got <= value
    if "tolerance" in fact:
        return abs(got - value) <= float(fact["tolerance"])
    step = float(how.split()[-1]) if how.startswith(("nearest", "down to")) else 0.0
    if how.startswith("nearest"):
        return abs(got - value) <= step / 2 * (1 + 1e-9)
    if how.startswith("down to"):
        return value * (1 - 1e-9) <= got < value + step
    assert how == "exact", f"no rule for the rounding {how!r}"
    return math.isclose(got, value, rel_tol=1e-9)
