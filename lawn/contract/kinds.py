"""The record kinds of fixtures/kinds/: which groups and fields there are, and what each allows."""

import json
import re
from collections.abc import Callable
from datetime import date, datetime, timedelta
from functools import cache
from typing import Any

from lawn.contract import forms
from lawn.contract.forms import is_id, is_number
from lawn.contract.table import contract
from lawn.engine.core.numeric import at_least, total
from lawn.engine.dial.scale import MOST_CLICKS
from lawn.engine.log.entries import MOST_ZONES
from lawn.engine.product.label import NUMBERS, WHOLE_PERCENT

Rule = dict[str, Any]
Rules = dict[str, Rule]


def schema() -> int:
    """Return the schema number of the contract, sent with every answer."""
    return int(contract()["schema"])


def groups_of(kind: str) -> dict[str, Rules]:
    """Return {group: {field: rule}} of a kind; for entries, the overlay groups."""
    groups: dict[str, Rules] = contract()["kinds"][kind]["groups"]
    return groups


def settings_fields(kind: str) -> Rules:
    """Return {field: rule} over all groups of a settings kind."""
    return {name: rule for rules in groups_of(kind).values() for name, rule in rules.items()}


def entry_kinds() -> list[str]:
    """Return the kinds of log entry."""
    return list(contract()["kinds"]["entry"]["body"]["kind"]["choices"])


def check_group(kind: str, group: str, value: object, now: datetime | None = None) -> dict[str, str]:
    """Return {field: what is wrong and what is allowed} for a group as written; {} when all is well.

    Unknown groups and fields pass: a newer phone may know more than this server (S15). With `now`, moments are held
    against it: what is noted as done later than a day from now is a slip or a wrong clock.
    """
    if not isinstance(value, dict):
        return {group: f"“{group}” must be a set of named fields."}
    rules = groups_of(kind).get(group)
    if rules is None:
        return {}
    strange = _strange(foreign_to(kind, group), value, "this group")
    wrong = {**_check_fields(rules, value), **_check_ahead(rules, value, now)}
    return {**strange, **wrong, **_check_together(kind, group, value)}


@cache
def foreign_to(kind: str, group: str) -> frozenset[str]:
    """Return the fields that other groups of a settings kind check: here they would be read unchecked in their place.

    The overlays of an entry are read group by group and never laid side by side; there the question does not arise.
    """
    if contract()["kinds"][kind]["shape"] != "settings" or group not in groups_of(kind):
        return frozenset()
    return frozenset(settings_fields(kind)) - frozenset(groups_of(kind)[group])


@cache
def body_fields(entry_kind: str) -> frozenset[str]:
    """Return the fields that entries of a kind carry in their bodies."""
    entry = contract()["kinds"]["entry"]
    return frozenset({*entry["body"], *entry["bodies"][entry_kind]})


@cache
def _foreign_to_body(entry_kind: str) -> frozenset[str]:
    """Return the fields that only entries of other kinds carry."""
    entry = contract()["kinds"]["entry"]
    others = {name for rules in entry["bodies"].values() for name in rules}
    return frozenset(others - set(entry["bodies"][entry_kind]) - set(entry["body"]))


def _strange(foreign: frozenset[str], value: dict[str, Any], here: str) -> dict[str, str]:
    found = sorted(name for name in foreign.intersection(value) if value[name] is not None)
    return {name: f"“{name}” does not belong in {here}." for name in found}


def check_body(body: object, now: datetime | None = None) -> dict[str, str]:
    """Return {field: message} for the unchanging body of a log entry; with `now` as for a group."""
    if not isinstance(body, dict):
        return {"body": "A log entry needs a body of named fields."}
    entry = contract()["kinds"]["entry"]
    wrong = _check_fields(entry["body"], body)
    if "kind" in wrong:
        return wrong
    wrong.update(_check_ahead(entry["body"], body, now))
    wrong.update(_check_fields(entry["bodies"][body["kind"]], body))
    wrong.update(_over_whole(entry["bodies"][body["kind"]], body))
    wrong.update(_none_of_any(entry["bodies"][body["kind"]], body))
    wrong.update(_strange(_foreign_to_body(body["kind"]), body, f"an entry of the kind {body['kind']}"))
    return {**forms.wrong_in_body(body), **wrong}


def server_only(kind: str, group: str) -> bool:
    """Whether a group is written by the server alone."""
    return any(rule.get("server_only") for rule in groups_of(kind).get(group, {}).values())


def _check_fields(rules: Rules, value: dict[str, Any]) -> dict[str, str]:
    wrong = {}
    for name, rule in rules.items():
        message = _wrong(rule, value.get(name))
        if message:
            wrong[name] = message
    return wrong


def _check_ahead(rules: Rules, value: dict[str, Any], now: datetime | None) -> dict[str, str]:
    """Moments further ahead than clocks and time zones stand apart."""
    if now is None:
        return {}
    return {
        name: f"{rule['label']} is {value[name]}; allowed is up to {rule['ahead_days']} day ahead of now."
        for name, rule in rules.items()
        if "ahead_days" in rule
        and _wrong_moment(rule, name, value.get(name)) is None
        and datetime.fromisoformat(value[name]) > now + timedelta(days=rule["ahead_days"])
    }


def _check_together(kind: str, group: str, value: dict[str, Any]) -> dict[str, str]:
    """What no single field's range can say."""
    if (kind, group) == ("spreader", "dial"):
        low, high = value.get("lowest"), value.get("highest")
        if is_number(low) and is_number(high) and not high > low:  # type: ignore[operator]
            return {"highest": f"Highest number on the dial (fully open) must be more than the lowest, {low}."}
        if not forms.has_clicks(low, high, value.get("step")):
            return {"step": f"One click of the dial must part it into 1 to {MOST_CLICKS} clicks."}
    if (kind, group) == ("step", "window") and _days(value, "from_on", "to_on") and value["to_on"] < value["from_on"]:
        return {"to_on": f"Last day is {value['to_on']}; allowed is {value['from_on']} or later."}
    if (kind, group) == ("step", "state") and value.get("entry_id") is not None and value.get("state") != "done":
        return {"entry_id": "Only a step that is done names the entry that did it."}
    return {**_over_whole(groups_of(kind)[group], value), **forms.wrong_in_group(kind, group, value)}


def _days(value: dict[str, Any], *names: str) -> bool:
    """Whether all of these are days as the contract writes them, so that they compare as texts."""
    return all(_wrong_date({}, name, value.get(name)) is None for name in names)


def _over_whole(rules: Rules, value: dict[str, Any]) -> dict[str, str]:
    """Parts of a product that are more than the whole: as lawn/engine/product/label.py refuses them."""
    names = [name for name, _ in NUMBERS if name in rules and value.get(name) is not None]
    if any(_wrong(rules[name], value[name]) for name in names):
        return {}  # one that is wrong by itself is told so
    together = total([float(value[name]) for name in names])
    if at_least(WHOLE_PERCENT, together):
        return {}
    listed = _listed([rules[name]["label"] for name in names])
    return {names[0]: f"{listed} are {together:g}% together; allowed is 0 to {WHOLE_PERCENT:g}% together."}


def _none_of_any(rules: Rules, value: dict[str, Any]) -> dict[str, str]:
    """Of the fields marked `any` one at least must be there: without it the record says nothing."""
    names = [name for name, rule in rules.items() if rule.get("any")]
    if not names or any(value.get(name) is not None for name in names):
        return {}
    listed = "; ".join(rules[name]["label"] for name in names)
    return {names[0]: f"None of these is given: {listed}. At least one must be."}


def _listed(labels: list[str]) -> str:
    return " and ".join(filter(None, ["; ".join(labels[:-1]), labels[-1]]))


def _wrong(rule: Rule, value: object) -> str | None:
    """Return a sentence that names the field, what is wrong and what is allowed; None when it is well."""
    label = rule["label"]
    if value is None or (value == "" and rule["type"] == "text"):
        return f"{label} is missing." if rule.get("required") else None
    return _SORTS[rule["type"]](rule, label, value)


def _wrong_number(rule: Rule, label: str, value: Any) -> str | None:
    low, high, unit = rule["low"], rule["high"], rule.get("unit", "")
    if is_number(value) and low <= value <= high:
        return None
    found = value if isinstance(value, int | float) else "not a number"
    if unit == "share":
        # as a form asks for it: stored from 0 to 1, written in percent
        found = f"{value * 100:g}%" if is_number(value) else found
        return f"{label} is {found}; allowed is {low * 100:g} to {high * 100:g}%."
    return f"{label} is {found}; allowed is {low} to {high} {unit}".rstrip() + "."


def _wrong_integer(rule: Rule, label: str, value: Any) -> str | None:
    if is_number(value) and value != int(value):
        return f"{label} is {value}; allowed are whole numbers from {rule['low']} to {rule['high']}."
    return _wrong_number(rule, label, value)


def _wrong_text(rule: Rule, label: str, value: Any) -> str | None:
    if not isinstance(value, str):
        return f"{label} must be text of at most {rule['max']} characters."
    if len(value) > rule["max"]:
        return f"{label} has {len(value)} characters; allowed are at most {rule['max']}."
    return None


def _wrong_flag(rule: Rule, label: str, value: Any) -> str | None:
    return None if isinstance(value, bool) else f"{label} must be yes or no."


def _wrong_choice(rule: Rule, label: str, value: Any) -> str | None:
    if isinstance(value, str) and value in rule["choices"]:
        return None
    return f"{label} must be one of: {', '.join(rule['choices'])}."


def _wrong_date(rule: Rule, label: str, value: Any) -> str | None:
    if isinstance(value, str) and _DAY.match(value):
        try:
            date.fromisoformat(value)
            return None
        except ValueError:
            pass
    return f"{label} must be a date such as 2026-05-01."


def _wrong_moment(rule: Rule, label: str, value: Any) -> str | None:
    if isinstance(value, str) and _MOMENT.match(value):
        try:
            datetime.fromisoformat(value)
            return None
        except ValueError:
            pass
    return f"{label} must be a date and time with its zone offset, such as 2026-05-01T18:30:00+02:00."


def _wrong_id(rule: Rule, label: str, value: Any) -> str | None:
    return None if is_id(value) else f"{label} must be the id of a record."


def _wrong_ids(rule: Rule, label: str, value: Any) -> str | None:
    if isinstance(value, list) and len(value) <= _MOST_IDS and all(is_id(item) for item in value):
        return None
    return f"{label} must be a list of at most {_MOST_IDS} ids of records."


def _wrong_json(rule: Rule, label: str, value: Any) -> str | None:
    """Anything JSON can say is allowed, in some measure: it is shown back, not computed with."""
    most = rule.get("bytes", _MOST_JSON_BYTES)
    size = len(json.dumps(value, separators=(",", ":"), ensure_ascii=False).encode(errors="surrogatepass"))
    return None if size <= most else f"{label} takes {size} bytes; allowed are at most {most}."


# One spelling of the many ISO 8601 allows: what the engine and every phone can read. Years 1900 to 2199.
_MOMENT = re.compile(r"\A(19|20|21)\d\d-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,6})?)?(Z|[+-]\d\d:\d\d)\Z", re.ASCII)
_MOST_IDS = MOST_ZONES  # as many as the engine takes in one list
_MOST_JSON_BYTES = 4000
_DAY = re.compile(r"\A(19|20|21)\d\d-\d\d-\d\d\Z", re.ASCII)
_SORTS: dict[str, Callable[[Rule, str, Any], str | None]] = {
    "number": _wrong_number,
    "integer": _wrong_integer,
    "text": _wrong_text,
    "flag": _wrong_flag,
    "choice": _wrong_choice,
    "date": _wrong_date,
    "moment": _wrong_moment,
    "id": _wrong_id,
    "ids": _wrong_ids,
    "json": _wrong_json,
}
