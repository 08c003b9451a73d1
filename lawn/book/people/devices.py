"""A household's phones: who writes with which, when it was last heard of, and signing out one that was lost.

A phone rides on its member's session. The tie is the session's hash on the device's row, made when the phone is
registered and made anew at the first round after a sign-in or a changed session.
"""

import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.db import OperationalError, connection, transaction
from django.db.models import Count

from lawn.book.people import access
from lawn.book.sync.feed import changing
from lawn.models import Device, Hole, Member, Person, Stream
from lawn.web import sessions

# How often a round that only pulls may write down that the phone was heard of (S12).
SEEN_EVERY = timedelta(minutes=5)
# Phones of one member that are not signed out; browsers whose store was cleared come again as new ones.
MOST_OPEN = 50


class TooManyPhones(Exception):
    """This member has as many phones in the household as one person may; some must be signed out first."""


@dataclass(frozen=True)
class Known:
    """A phone as its household sees it."""

    device: Device
    member_name: str
    acked_dseq: int
    waiting_holes: int
    this: bool


def register(member: Member, name: str, now: datetime, session: str = "") -> Device:
    """Make a phone of this member known and tie it to the session it asks from; return the device.

    A browser has one book of one person and household, so an older phone tied to the same session has lost its own
    and is no longer ended along with it. Raises NoAccess where the membership has ended once the household's lock is
    held (A11), TooManyPhones.
    """
    with changing(member.household_id, 0):
        access.as_now(member)
        _make_room(member)
        if session:
            _of_member(member).filter(session=session).update(session="")
        device = Device(household_id=member.household_id, member_id=member.id, name=name[:80], created_at=now)
        device.session = session
        device.save(force_insert=True)
    return device


def _make_room(member: Member) -> None:
    """Forget phones signed out before they sent anything; raise TooManyPhones where too many are left open."""
    phones = list(_of_member(member).values_list("id", "closed_at"))
    shut = [device_id for device_id, closed_at in phones if closed_at is not None]
    if shut:
        wrote = access.rows(Stream, member.household_id).filter(device_id__in=shut)
        kept = set(wrote.values_list("device_id", flat=True))
        _of_member(member).filter(id__in=[device_id for device_id in shut if device_id not in kept]).delete()
    if len(phones) - len(shut) >= MOST_OPEN:
        raise TooManyPhones


def listed(household_id: uuid.UUID, session: str) -> list[Known]:
    """Return the household's phones, newest first; `session` tells which of them is asking."""
    names = dict(access.rows(Member, household_id).values_list("id", "name"))
    acked, holes = _acked(household_id), _holes(household_id)
    found = access.rows(Device, household_id).order_by("-id")
    return [
        Known(
            device,
            names.get(device.member_id) or "",
            acked.get(device.id, 0),
            holes.get(device.id, 0),
            bool(session) and device.session == session and device.closed_at is None,
        )
        for device in found
    ]


def _acked(household_id: uuid.UUID) -> dict[uuid.UUID, int]:
    """Return {device: the highest number acknowledged in any of its lines}."""
    lines: dict[uuid.UUID, int] = {}
    for device_id, number in access.rows(Stream, household_id).values_list("device_id", "acked_dseq"):
        lines[device_id] = max(lines.get(device_id, 0), number)
    return lines


def _holes(household_id: uuid.UUID) -> dict[uuid.UUID, int]:
    """Return {device: how many of its numbers will never carry an entry} (F56)."""
    counted = access.rows(Hole, household_id).values("device_id").annotate(holes=Count("device_id"))
    return dict(counted.values_list("device_id", "holes"))


def seen(device: Device, session: str, now: datetime) -> None:
    """Write down that a phone was heard of, and by which session; at most every 5 minutes while neither changes.

    It never waits: where the database is being written to, the next round writes it down. So a pull still takes no
    lock that it could be held up by (S12).
    """
    heard = device.last_seen_at
    if device.session == session and heard is not None and now - heard < SEEN_EVERY:
        return
    with _unhurried(), transaction.atomic():
        mine = access.rows(Device, device.household_id).select_for_update(skip_locked=True).filter(id=device.id)
        if mine.first() is not None:
            access.rows(Device, device.household_id).filter(id=device.id).update(last_seen_at=now, session=session)


@contextmanager
def _unhurried() -> Iterator[None]:
    """Give up at once, and in silence, where SQLite's one writer is busy; PostgreSQL's rows are skipped instead."""
    if connection.vendor != "sqlite" or connection.in_atomic_block:
        yield
        return
    with connection.cursor() as cursor:
        patience = cursor.execute("PRAGMA busy_timeout").fetchone()[0]
        cursor.execute("PRAGMA busy_timeout = 0")
    try:
        yield
    except OperationalError:
        pass
    finally:
        with connection.cursor() as cursor:
            cursor.execute(f"PRAGMA busy_timeout = {int(patience)}")


def sign_out(actor: Member, device_id: uuid.UUID, now: datetime) -> Device:
    """Close a phone and end the session it rides on; return it. It can send nothing more and must sign in anew.

    Raises NoAccess for a phone the household does not know, PermissionError where it is neither the actor's own nor
    the actor a keeper, both as they stand once the household's lock is held (A11).
    """
    with changing(actor.household_id, 0):
        actor = access.as_now(actor)
        device = access.rows(Device, actor.household_id).select_for_update().filter(id=device_id).first()
        if device is None:
            raise access.NoAccess("device")
        if device.member_id != actor.id and not actor.is_keeper:
            raise PermissionError("Only its owner or a keeper signs a phone out.")
        if device.closed_at is None:
            sessions.end(device.session)
            device.closed_at = now
            access.rows(Device, actor.household_id).filter(id=device.id).update(closed_at=now)
    return device


def retie(person: Person, old: str, new: str) -> None:
    """Let a person's phones follow their session to its new key, as after a changed password."""
    for member in access.memberships(person):
        _of_member(member).filter(session=old).update(session=new)


def _of_member(member: Member) -> Any:
    return access.rows(Device, member.household_id).filter(member_id=member.id)
