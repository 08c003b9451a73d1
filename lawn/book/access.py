"""The only way to a household's rows, so that isolation is proved once (P10, S13).

Nothing else in lawn.book or api asks a model's manager for a record: a row is reached by naming its household, and a
household by showing a person who is its member now.
"""

import uuid
from collections.abc import Sequence
from typing import TypeVar

from django.db.models import Model, QuerySet

from lawn import sessions
from lawn.models import Device, Household, Invitation, Member, Person

Row = TypeVar("Row", bound=Model)


class NoAccess(Exception):
    """The household, device or invitation does not exist, as far as this person may know."""


def rows(model: type[Row], household_id: uuid.UUID) -> QuerySet[Row]:
    """Return the rows of one household."""
    key = "id" if issubclass(model, Household) else "household_id"
    return model._default_manager.filter(**{key: household_id})


def add(rows_made: Sequence[Model]) -> None:
    """Store new rows of one model at once, each of which names its household."""
    if rows_made:
        type(rows_made[0])._default_manager.bulk_create(rows_made)


def member_of(person: Person, household_id: uuid.UUID) -> Member:
    """Return the person's active membership; raise NoAccess where there is none."""
    found = rows(Member, household_id).filter(person_id=person.id, active=True).first()
    if found is None:
        raise NoAccess("household")
    return found


def is_member(person_id: uuid.UUID, household_id: uuid.UUID, session: str) -> bool:
    """Whether a person is in the household now and the session (its hash) still lives: two look-ups by key.

    For what stays open longer than a request: it is asked before each message that goes out.
    """
    here = rows(Member, household_id).filter(person_id=person_id, active=True).exists()
    return here and sessions.lives(session, person_id)


def memberships(person: Person) -> QuerySet[Member]:
    """Return the person's active memberships with their households, oldest first."""
    return Member.objects.filter(person_id=person.id, active=True).select_related("household").order_by("id")


def device_of(member: Member, device_id: uuid.UUID) -> Device:
    """Return the member's own device; raise NoAccess for another's, an unknown or a signed-out one."""
    found = rows(Device, member.household_id).filter(id=device_id, member_id=member.id, closed_at=None).first()
    if found is None:
        raise NoAccess("device")
    return found


def invitation_by_hash(token_hash: str) -> Invitation:
    """Return an invitation with its household, found by what only its holder knows; raise NoAccess."""
    found = Invitation.objects.select_related("household").filter(token_hash=token_hash).first()
    if found is None:
        raise NoAccess("invitation")
    return found
