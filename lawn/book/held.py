"""What came from a former member's phone after their removal: held for a keeper to accept or to decline (S22)."""

import uuid
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from lawn.book import access, apply
from lawn.models import Member, ParkedOp


@dataclass(frozen=True)
class Held:
    """One entry held, and who wrote it; `said` is the op as it came."""

    parked: ParkedOp
    member_name: str
    said: dict[str, Any]


def waiting(keeper: Member) -> list[Held]:
    """Return what is held and not yet settled, oldest first. Raises PermissionError for who is no keeper."""
    _only_a_keeper(keeper)
    names = dict(access.rows(Member, keeper.household_id).values_list("id", "name"))
    found = access.rows(ParkedOp, keeper.household_id).filter(held=True, settled_at=None)
    held = [Held(parked, names.get(parked.member_id) or "", apply.said_by(parked)) for parked in found]
    # as they were written: one push has one time of arrival, and the phone's numbers are their order, whatever its
    # clock did meanwhile (P3)
    return sorted(held, key=lambda one: (one.parked.received_at, one.said["dseq"], str(one.parked.op)))


def accept(keeper: Member, held_id: uuid.UUID, now: datetime) -> dict[str, Any]:
    """Let an entry in as its writer's; return what became of it, in the form a push is answered in.

    Raises NoAccess for what is not held here or is settled, PermissionError for who is no keeper.
    """
    _only_a_keeper(keeper)
    return apply.accept_held(keeper, held_id, now)


def decline(keeper: Member, held_id: uuid.UUID, now: datetime) -> None:
    """Leave an entry out of the book; it stays on the server, whole and marked as declined.

    Raises NoAccess for what is not held here or is settled, PermissionError for who is no keeper.
    """
    _only_a_keeper(keeper)
    apply.decline_held(keeper, held_id, now)


def _only_a_keeper(member: Member) -> None:
    if not member.is_keeper:
        raise PermissionError(apply.ONLY_A_KEEPER)
