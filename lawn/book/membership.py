"""Households, their members, phones and invitations: what the server itself writes into a book.

Household and member records travel to the phones like all others, so they are made through the same counter.
"""

import hashlib
import secrets
import uuid
from datetime import UTC, datetime, timedelta
from typing import Any

from django.db import transaction

from lawn.book import access, record
from lawn.book.feed import Feed, changing
from lawn.book.merge import Write
from lawn.models import Device, Household, Invitation, Member, Person
from lawn.models.ids import new_id
from lawn.models.record import Kept

INVITATION_LASTS = timedelta(days=7)
# The node part of stamps made by the server (see lawn.book.clock).
_SERVER_NODE = "00000000"


class InvitationClosed(Exception):
    """The invitation is unknown, used or past its time; `code` says which: unknown, used or expired."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


def server_stamp(now: datetime) -> str:
    """Return the stamp of a write by the server."""
    return f"{int(now.timestamp() * 1000):013d}-0000-{_SERVER_NODE}"


def _fill(row: Kept, t: str, groups: dict[str, dict[str, Any]], by: uuid.UUID, now: datetime) -> None:
    """Set the groups of a row not yet saved, each under a version of its own making."""
    version, stamp = str(new_id()), server_stamp(now)
    writes = {group: Write(version, stamp, value, str(by)) for group, value in groups.items()}
    for name, value in record.columns(t, row, writes).items():
        setattr(row, name, value)


def create_household(person: Person, name: str, units: str, now: datetime) -> Member:
    """Create a household with this person as its keeper; return the member (its .household is the household).

    `units` is "us" or "metric". The household's own place of the person is named as the person is.
    """
    member_id = new_id()
    with transaction.atomic():
        household = Household(received_at=now, made_by=member_id)
        _fill(household, "household", {"name": {"name": name}}, member_id, now)
        household.save(force_insert=True)
        with changing(household.id, 2) as feed:
            feed.touch("household", household.id)
            member = _new_member(feed, member_id, person, "keeper", units, now)
    member.household.refresh_from_db()
    return member


def add_member(
    household_id: uuid.UUID, person: Person, now: datetime, role: str = "member", units: str = "us"
) -> Member:
    """Make a person a member (or again an active one); return the member."""
    with changing(household_id, 1) as feed:
        return _join(feed, person, role, units, now)


def _join(feed: Feed, person: Person, role: str, units: str, now: datetime) -> Member:
    known = access.rows(Member, feed.household_id).filter(person=person).first()
    if known is None:
        return _new_member(feed, new_id(), person, role, units, now)
    if not known.active:
        _activate(feed, known, now)
    return known


def _activate(feed: Feed, member: Member, now: datetime) -> None:
    _fill(member, "member", {"active": {"active": True}}, member.id, now)
    member.save(update_fields=["active", "versions", "extra"])
    feed.touch("member", member.id)


def _new_member(feed: Feed, member_id: uuid.UUID, person: Person, role: str, units: str, now: datetime) -> Member:
    member = Member(household_id=feed.household_id, id=member_id, person=person, received_at=now, made_by=member_id)
    groups: dict[str, dict[str, Any]] = {
        "name": {"name": person.name},
        "units": {"units": units},
        "role": {"role": role},
        "active": {"active": True},
    }
    _fill(member, "member", groups, member_id, now)
    member.save(force_insert=True)
    feed.touch("member", member_id)
    return member


def add_device(member: Member, name: str, now: datetime) -> Device:
    """Register a phone of this member; return the device, whose id the phone sends with every sync."""
    device = Device(household_id=member.household_id, member_id=member.id, name=name[:80], created_at=now)
    device.save(force_insert=True)
    return device


def hash_token(token: str) -> str:
    """Return what is stored of a token. Tokens have 256 bits of chance, so a plain hash cannot be guessed back."""
    return hashlib.sha256(token.encode()).hexdigest()


def create_invitation(member: Member, now: datetime) -> tuple[Invitation, str]:
    """Create an invitation; return it with its token, which is stored nowhere.

    Raises PermissionError when the member is not the keeper.
    """
    if not member.is_keeper:
        raise PermissionError("Only a keeper of the household can invite.")
    token = secrets.token_urlsafe(32)
    invitation = Invitation(
        token_hash=hash_token(token),
        household_id=member.household_id,
        made_by=member.id,
        created_at=now,
        expires_at=now + INVITATION_LASTS,
    )
    invitation.save(force_insert=True)
    return invitation, token


def find_invitation(token: str, now: datetime) -> Invitation:
    """Return an open invitation with its household; raise InvitationClosed."""
    try:
        invitation = access.invitation_by_hash(hash_token(token))
    except access.NoAccess:
        raise InvitationClosed("unknown") from None
    if invitation.used_at is not None:
        raise InvitationClosed("used")
    if not invitation.is_open(now):
        raise InvitationClosed("expired")
    return invitation


def redeem(token: str, person: Person, now: datetime, units: str = "us") -> Member:
    """Let the person in by an invitation, once; return the member.

    A person who is already in the household stays as they are and the invitation stays open.
    Raises InvitationClosed.
    """
    invitation = find_invitation(token, now)
    with changing(invitation.household_id, 1) as feed:
        member = access.rows(Member, feed.household_id).filter(person=person, active=True).first()
        if member is not None:
            return member
        member = _join(feed, person, "member", units, now)
        # Two redeem at once: only one of them finds the row unused.
        unused = access.rows(Invitation, feed.household_id).filter(token_hash=invitation.token_hash, used_at=None)
        if not unused.update(used_at=now.astimezone(UTC), used_by=member.id):
            raise InvitationClosed("used")
        return member
