"""Records between their rows and the form in which they travel."""

import uuid
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from types import MappingProxyType
from typing import Any

from django.db.models import Model

from lawn.book.merging.merge import Write
from lawn.book.people import access
from lawn.contract import kinds
from lawn.models import (
    Claim,
    Conflict,
    Entry,
    Household,
    Member,
    Mower,
    Photo,
    Plan,
    Product,
    Settlement,
    Spreader,
    Step,
    WeatherMonth,
    Zone,
)
from lawn.models.record import Kept

KEPT_MODELS: dict[str, type[Kept]] = {
    "household": Household,
    "member": Member,
    "zone": Zone,
    "product": Product,
    "spreader": Spreader,
    "mower": Mower,
    "entry": Entry,
    "claim": Claim,
    "settlement": Settlement,
    "photo": Photo,
    "weather_month": WeatherMonth,
    "plan": Plan,
    "step": Step,
}
ALL_MODELS: dict[str, type[Model]] = {**KEPT_MODELS, "conflict": Conflict}
# a kind, a record of it, and its number in the order of changes
Place = tuple[str, uuid.UUID, int]
NOTHING_AT_HAND: Mapping[Place, Model] = MappingProxyType({})
# Made by the server only: a phone may change them but never bring a new one.
SERVER_MADE = ("household", "member")


def instant(moment: datetime) -> str:
    """Return a moment as ISO 8601 in UTC."""
    return moment.astimezone(UTC).isoformat().replace("+00:00", "Z")


def moment_of(written: str) -> datetime:
    """Return a moment as it is stored: in UTC, since PostgreSQL takes no offset of 16 hours and more."""
    return datetime.fromisoformat(written).astimezone(UTC)


def value_of(row: Kept, t: str, group: str) -> dict[str, Any]:
    """Return a group's fields as last written, known and unknown ones; absent fields are left out."""
    unknown: dict[str, Any] = row.extra.get(group, {})
    if isinstance(row, Entry):
        return {**row.overlays.get(group, {}), **unknown}
    # kept in the table, and not handed on: on a phone it would be read in the place of what another group checked
    foreign = kinds.foreign_to(t, group)
    if not foreign.isdisjoint(unknown):
        unknown = {name: value for name, value in unknown.items() if name not in foreign}
    known = kinds.groups_of(t).get(group, {})
    present = {name: getattr(row, name) for name in known if getattr(row, name) is not None}
    return {**present, **unknown}


def groups_of(row: Kept, t: str) -> dict[str, Write]:
    """Return {group: the write that stands} of a row."""
    return {
        group: Write(kept["version"], kept["hlc"], value_of(row, t, group), kept.get("by"))
        for group, kept in row.versions.items()
    }


def columns(t: str, row: Kept, changed: Mapping[str, Write]) -> dict[str, Any]:
    """Return the columns to write for some changed groups, and no others (a neighbour must survive)."""
    versions, extra = dict(row.versions), dict(row.extra)
    found: dict[str, Any] = {"versions": versions, "extra": extra}
    known: dict[str, dict[str, Any]] = {}
    for group, write in changed.items():
        rules = kinds.groups_of(t).get(group, {})
        versions[group] = {"version": write.version, "hlc": write.hlc, "by": write.by}
        extra[group] = {name: value for name, value in write.value.items() if name not in rules}
        if not extra[group]:
            del extra[group]
        known[group] = {name: write.value.get(name) for name in rules}
    if isinstance(row, Entry):
        return {**found, **_entry_columns(row, known)}
    return {**found, **{name: value for fields in known.values() for name, value in fields.items()}}


def _entry_columns(row: Entry, known: dict[str, dict[str, Any]]) -> dict[str, Any]:
    overlays = {group: fields for group, fields in row.overlays.items() if group not in known}
    for group, fields in known.items():
        present = {name: value for name, value in fields.items() if value is not None}
        overlays.update({group: present} if present else {})
    when = overlays.get("when", {}).get("occurred_at", row.body["occurred_at"])
    return {
        "overlays": overlays,
        "void": overlays.get("void", {}).get("void") is True,
        "occurred_at": moment_of(when),
    }


def wire(row: Model, t: str, seq: int) -> dict[str, Any]:
    """Return a whole record as it travels."""
    if isinstance(row, Conflict):
        return _wire_conflict(row, seq)
    assert isinstance(row, Kept)
    groups = {
        group: {"value": write.value, "version": write.version, "hlc": write.hlc}
        for group, write in groups_of(row, t).items()
    }
    by = str(row.made_by) if row.made_by else None
    found = {"seq": seq, "t": t, "id": str(row.id), "by": by, "received_at": instant(row.received_at)}
    if isinstance(row, Entry):
        found["body"] = row.body
    return {**found, "groups": groups}


def _wire_conflict(row: Conflict, seq: int) -> dict[str, Any]:
    body = {
        "t": row.t,
        "id": str(row.record_id),
        "group": row.group,
        "lost": row.lost,
        "won": str(row.won),
        "at": instant(row.at),
    }
    at = instant(row.at)
    return {
        "seq": seq, "t": "conflict", "id": str(row.id), "by": row.lost.get("by"),
        "received_at": at, "body": body, "groups": {},
    }  # fmt: skip


def sizes(household_id: uuid.UUID, places: Iterable[Place]) -> list[int]:
    """Return about how many bytes each record takes when it travels, in the order asked; one query a kind."""
    wanted = list(places)
    ids: dict[str, list[uuid.UUID]] = {}
    for t, record_id, _ in wanted:
        ids.setdefault(t, []).append(record_id)
    found = {t: access.sizes(ALL_MODELS[t], household_id, of_kind) for t, of_kind in ids.items()}
    return [found[t].get(record_id, 0) for t, record_id, _ in wanted]


def fitting(found: Sequence[int], most: int) -> int:
    """Return how many of some sizes, from the first on, come to no more than `most` together."""
    total = 0
    for count, size in enumerate(found):
        total += size
        if total > most:
            return count
    return len(found)


def wired(
    household_id: uuid.UUID, found: Iterable[Place], at_hand: Mapping[Place, Model] = NOTHING_AT_HAND
) -> list[dict[str, Any]]:
    """Return whole records by their places, in the order asked; those not at hand by one query a kind.

    A record at hand need not be read again: at the same number it says the same, since every change moves it on (S10).
    """
    wanted = list(found)
    rows: dict[tuple[str, uuid.UUID], Model] = {place[:2]: at_hand[place] for place in wanted if place in at_hand}
    missing: dict[str, list[uuid.UUID]] = {}
    for t, record_id, _ in wanted:
        if (t, record_id) not in rows:
            missing.setdefault(t, []).append(record_id)
    for t, ids in missing.items():
        found_rows: Iterable[Any] = access.rows(ALL_MODELS[t], household_id).filter(id__in=ids)
        rows.update({(t, row.id): row for row in found_rows})
    return [wire(rows[(t, record_id)], t, seq) for t, record_id, seq in wanted]
