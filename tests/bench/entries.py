"""Invented entries for the bench: small mows, and the spreading jobs and passes of the demo over and over."""

import itertools
import random
import secrets
import uuid
from datetime import UTC, date, datetime
from typing import Any

from lawn.demo.scenario import Scenario
from lawn.demo.season import entries_of

Entry = dict[str, Any]
# However many, they end in May 2026: what is dated ahead is refused.
START_MS, SPAN_MS = 1_500_000_000_000, 280_000_000_000
_BETWEEN_MS = 20_000_000  # at most


def new_id(at_ms: int) -> str:
    """A UUIDv7 of that moment (RFC 9562, 5.7), as phones make them."""
    value = at_ms << 80 | 7 << 76 | secrets.randbits(12) << 64 | 2 << 62 | secrets.randbits(62)
    return str(uuid.UUID(int=value))


def mows(count: int) -> list[Entry]:
    """The smallest entries there are, some hours apart."""
    return [_of(number, _mow(number), count) for number in range(count)]


def passes(count: int) -> list[Entry]:
    """Walks and passes as the demo's household puts them down, round and round, each with amounts of its own."""
    known = [body for body in _demo_bodies() if body["kind"] in ("spread", "pass")]
    return [
        _of(number, _varied(body), count) for number, body in zip(range(count), itertools.cycle(known), strict=False)
    ]


def years(count: int, zone_ids: list[str], now_ms: int) -> list[Entry]:
    """Ten years of a household up to now: eight mows of a zone to two spreading jobs and passes, evenly spread."""
    step = 10 * 365 * 86_400_000 // count
    jobs = iter(passes(count // 5 + 1))
    bodies = [dict(next(jobs)["body"]) if number % 5 == 4 else _mow(number) for number in range(count)]
    named = [{**body, "zone_ids": [zone_ids[number % len(zone_ids)]]} for number, body in enumerate(bodies)]
    return [_at(now_ms - (count - number) * step, body) for number, body in enumerate(named)]


def _varied(value: Any) -> Any:
    """The same with each measured amount a little different, so that packing cannot point to the one before."""
    if isinstance(value, float):
        return round(value * (0.9 + 0.2 * random.random()), 4)  # no secret
    if isinstance(value, dict):
        return {name: _varied(inner) for name, inner in value.items()}
    return [_varied(inner) for inner in value] if isinstance(value, list) else value


def _demo_bodies() -> list[dict[str, Any]]:
    scenario = Scenario(date(2026, 9, 1))
    people = {row["key"]: str(uuid.uuid5(uuid.NAMESPACE_OID, row["key"])) for row in scenario.people}
    items = [item for entry in entries_of(scenario, people) for item in entry.items]
    return [dict(item["body"]) for item in items if "body" in item]


def _of(number: int, body: dict[str, Any], count: int) -> Entry:
    return _at(START_MS + number * min(_BETWEEN_MS, SPAN_MS // count), body)


def _at(at_ms: int, body: dict[str, Any]) -> Entry:
    done = datetime.fromtimestamp(at_ms // 1000, UTC).isoformat().replace("+00:00", "+02:00")
    return {"id": new_id(at_ms), "body": {**body, "occurred_at": done}}


def _mow(number: int) -> dict[str, Any]:
    return {"kind": "mow", "zone_ids": [], "cut_height_mm": 60 + number % 20}
