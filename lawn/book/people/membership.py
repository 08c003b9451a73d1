"""Households, their members and invitations: what the server itself writes into a book.

Household and member records travel to the phones like all others, so they are made through the same counter.
"""

import hashlib
import secrets
import uuid
from datetime import UTC, datetime, timedelta
from typing import Any

from django.db import transaction
from django.db.models import QuerySet

from lawn.book.merging.merge import Write
from lawn.book.people import access
from lawn.book.sync import record
from lawn.book.sync.feed import Feed, changing
from lawn.models import CalendarLink, Household, Invitation, Member, Person
from lawn.models.ids import new_id
from lawn.models.record import Kept

INVITATION_LASTS = timedelta(days=7)
# Open ones of a household at once: a party's worth. Unused ones are forgotten a while after they have run out.
MOST_OPEN = 20
_FORGOTTEN = timedelta(days=30)
# Of those that were used, with the open ones, the newest are shown.
MOST_SHOWN = 200
# The node part of stamps made by the server (see lawn.book.merging.clock).
_SERVER_NODE = "00000000"


class LastKeeper(Exception):
    """A household must keep one keeper: nobody else could invite, remove or take over."""


class TooManyInvitations(Exception):
    """The household has as many open invitations as may stand open at once."""


class InvitationClosed(Exception):
    """The invitation cannot be used; `code` says why: unknown, used, withdrawn or expired."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


def server_stamp(now: datetime) -> str:
    """Return the stamp of a write by the server."""
    return f"{int(now.timestamp() * 1000):013d}-0000-{_SERVER_NODE}"


def fill(row: Kept, t: str, groups: dict[str, dict[str, Any]], by: uuid.UUID, now: datetime) -> None:
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
        fill(household, "household", {"name": {"name": name}}, member_id, now)
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
        # The same place as before (F49), but not the powers: an invitation is to be a member.
        _write(feed, known, {"active": {"active": True}, "role": {"role": role}}, known.id, now)
    return known


def _write(feed: Feed, member: Member, groups: dict[str, dict[str, Any]], by: uuid.UUID, now: datetime) -> None:
    """Change groups of a member's record, and no others, so that every phone hears of it."""
    fill(member, "member", groups, by, now)
    member.save(update_fields=[*groups, "versions", "extra"])  # a server-only group has one field of its own name
    feed.touch("member", member.id)


def set_role(actor: Member, member_id: uuid.UUID, role: str, now: datetime) -> Member:
    """Make a member keeper ("keeper") or member ("member") of the household; return them.

    Raises NoAccess for nobody of this household, PermissionError where the actor is no keeper, LastKeeper.
    """
    with changing(actor.household_id, 1) as feed:
        actor, member = _both(actor, member_id)
        if not actor.is_keeper:
            raise PermissionError("Only a keeper of the household gives roles.")
        if not member.active:
            raise access.NoAccess("member")
        if role != member.role:
            _not_the_last(member)
            _write(feed, member, {"role": {"role": role}}, actor.id, now)
            _take_back_invitations(member, now)
    return member


def remove(actor: Member, member_id: uuid.UUID, now: datetime) -> Member:
    """End a membership, by a keeper or by oneself; return the former member.

    Everything they wrote stays. Their phones stay known, so that what is still on them can be held for the keeper.
    Raises NoAccess for nobody of this household, PermissionError where the actor is neither, LastKeeper.
    """
    with changing(actor.household_id, 1) as feed:
        actor, member = _both(actor, member_id)
        if not actor.active or (member.id != actor.id and not actor.is_keeper):
            raise PermissionError("Only a keeper of the household removes others.")
        if member.active:
            _not_the_last(member)
            _write(feed, member, {"active": {"active": False}}, actor.id, now)
            _take_back_invitations(member, now)
            # who is invited again has the same place: the old link must not come back with it
            access.rows(CalendarLink, member.household_id).filter(member_id=member.id).delete()
    return member


def _both(actor: Member, member_id: uuid.UUID) -> tuple[Member, Member]:
    """Read the actor and the one concerned as they are now that the household's lock is held."""
    members = access.rows(Member, actor.household_id)
    member = members.filter(id=member_id).first()
    if member is None:
        raise access.NoAccess("member")
    return members.get(id=actor.id), member


def _not_the_last(member: Member) -> None:
    keepers = access.rows(Member, member.household_id).filter(role="keeper", active=True)
    if member.is_keeper and not keepers.exclude(id=member.id).exists():
        raise LastKeeper


def _take_back_invitations(member: Member, now: datetime) -> None:
    """Withdraw what a former keeper still has open: it would let them in again by the back door."""
    if not member.is_keeper:
        _open(member.household_id).filter(made_by=member.id).update(withdrawn_at=now)


def _new_member(feed: Feed, member_id: uuid.UUID, person: Person, role: str, units: str, now: datetime) -> Member:
    member = Member(household_id=feed.household_id, id=member_id, person=person, received_at=now, made_by=member_id)
    groups: dict[str, dict[str, Any]] = {
        "name": {"name": person.name},
        "units": {"units": units},
        "role": {"role": role},
        "active": {"active": True},
    }
    fill(member, "member", groups, member_id, now)
    member.save(force_insert=True)
    feed.touch("member", member_id)
    return member


def hash_token(token: str) -> str:
    """Return what is stored of a token. Tokens have 256 bits of chance, so a plain hash cannot be guessed back."""
    return hashlib.sha256(token.encode()).hexdigest()


def create_invitation(member: Member, now: datetime) -> tuple[Invitation, str]:
    """Create an invitation; return it with its token, which is stored nowhere.

    Raises PermissionError when the member is no keeper once the household's lock is held (A11), TooManyInvitations.
    """
    token = secrets.token_urlsafe(32)
    with changing(member.household_id, 0):
        access.keeper_now(member, "Only a keeper of the household can invite.")
        _make_room(member.household_id, now)
        invitation = Invitation(
            token_hash=hash_token(token),
            household_id=member.household_id,
            made_by=member.id,
            created_at=now,
            expires_at=now + INVITATION_LASTS,
        )
        invitation.save(force_insert=True)
    return invitation, token


def _make_room(household_id: uuid.UUID, now: datetime) -> None:
    """Forget what ran out unused long ago; raise TooManyInvitations where too many stand open still."""
    access.rows(Invitation, household_id).filter(used_at=None, expires_at__lt=now - _FORGOTTEN).delete()
    if _open(household_id).filter(expires_at__gt=now).count() >= MOST_OPEN:
        raise TooManyInvitations


def _open(household_id: uuid.UUID) -> QuerySet[Invitation]:
    """Return the invitations neither used nor withdrawn; some of them may be past their time."""
    return access.rows(Invitation, household_id).filter(used_at=None, withdrawn_at=None)


def invitations(member: Member) -> list[Invitation]:
    """Return the household's invitations, newest first. Raises PermissionError when the member is not the keeper."""
    if not member.is_keeper:
        raise PermissionError("Only a keeper of the household sees its invitations.")
    return list(access.rows(Invitation, member.household_id).order_by("-created_at", "-id")[:MOST_SHOWN])


def withdraw(member: Member, invitation_id: uuid.UUID, now: datetime) -> Invitation:
    """Take an invitation back; return it. One withdrawn before stays as it was.

    Raises NoAccess, PermissionError when the member is no keeper once the household's lock is held (A11),
    InvitationClosed when somebody has used it.
    """
    with changing(member.household_id, 0):
        access.keeper_now(member, "Only a keeper of the household withdraws invitations.")
        _open(member.household_id).filter(id=invitation_id).update(withdrawn_at=now)
        found = access.rows(Invitation, member.household_id).filter(id=invitation_id).first()
    if found is None:
        raise access.NoAccess("invitation")
    if found.used_at is not None:
        raise InvitationClosed("used")
    return found


def find_invitation(token: str, now: datetime) -> Invitation:
    """Return an open invitation with its household; raise InvitationClosed."""
    try:
        invitation = access.invitation_by_hash(hash_token(token))
    except access.NoAccess:
        raise InvitationClosed("unknown") from None
    if invitation.used_at is not None:
        raise InvitationClosed("used")
    if invitation.withdrawn_at is not None:
        raise InvitationClosed("withdrawn")
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
        # Two redeem at once, or it is withdrawn meanwhile: only one of them finds the row open.
        still = _open(feed.household_id).filter(token_hash=invitation.token_hash)
        if not still.update(used_at=now.astimezone(UTC), used_by=member.id):
            raise InvitationClosed("used")
        return member
