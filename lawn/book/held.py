"""What came from a former member's phone after their removal: held for a keeper to accept or to decline (S22)."""

import uuid
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from lawn.book import access, apply
from lawn.models import Member, ParkedOp

_apply: Any = apply


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
    held = access.rows(ParkedOp, keeper.household_id).filter(held=True, settled_at=None).order_by("received_at", "id")
    return [Held(parked, names.get(parked.member_id) or "", _apply.said_by(parked)) for parked in held]


def accept(keeper: Member, held_id: uuid.UUID, now: datetime) -> dict[str, Any]:
    """Let an entry in as its writer's; return what became of it, in the form a push is answered in.

    Raises NoAccess for what is not held here or is settled, PermissionError for who is no keeper.
    """
    _only_a_keeper(keeper)
    _waits(keeper, held_id)
    result: dict[str, Any] = _apply.accept_held(keeper, held_id, now)
    return result


def decline(keeper: Member, held_id: uuid.UUID, now: datetime) -> None:
    """Leave an entry out of the book; it stays on the server, whole and marked as declined.

    Raises NoAccess for what is not held here or is settled, PermissionError for who is no keeper.
    """
    _only_a_keeper(keeper)
    _waits(keeper, held_id)
    _apply.decline_held(keeper, held_id, now)


def _only_a_keeper(member: Member) -> None:
    if not member.is_keeper:
        raise PermissionError("Only a keeper of the household decides about what is held.")


def _waits(keeper: Member, held_id: uuid.UUID) -> None:
    if not access.rows(ParkedOp, keeper.household_id).filter(id=held_id, held=True, settled_at=None).exists():
        raise access.NoAccess("held")
