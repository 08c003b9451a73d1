"""What came from a former member's phone after their removal: held for a keeper to accept or to decline (S22)."""

import re
import uuid
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from lawn.book.people import access
from lawn.book.sync import apply, record
from lawn.book.sync.pull import MOST_BYTES
from lawn.models import Member, Op, ParkedOp

MOST = 200
_PLACE = re.compile(
    r"\A(?P<at>20[0-9]{2}-[0-9]{2}-[0-9]{2}T[0-9:]{8}(?:\.[0-9]{1,6})?Z)~(?P<dseq>[0-9]{1,16})~(?P<op>[0-9a-f-]{36})\Z"
)


@dataclass(frozen=True)
class Pending:
    """One entry held, and who wrote it; `said` is the op as it came."""

    parked: ParkedOp
    member_name: str
    said: dict[str, Any]


class BadPlace(ValueError):
    """The place to go on from is none of ours."""


@dataclass(frozen=True)
class Waiting:
    """One page of what is held; `after` says where the next begins, None on the last; `count` is of all pages."""

    pending_review: list[Pending]
    after: str | None
    count: int


# As they were written: one push has one time of arrival, and the phone's numbers are their order, whatever its clock
# did meanwhile (P3).
_Order = tuple[datetime, int, str]


def waiting(keeper: Member, after: str | None = None) -> Waiting:
    """Return what is held and not yet settled, oldest first, a page at a time.

    Raises PermissionError for who is no keeper, BadPlace for an `after` no page gave.
    """
    _only_a_keeper(keeper)
    order = _order(keeper.household_id)
    begun = _place(after) if after is not None else None
    left = sorted((place, pending_id) for pending_id, place in order.items() if begun is None or place > begun)[:MOST]
    sizes = access.sizes(ParkedOp, keeper.household_id, [pending_id for _, pending_id in left])
    fits = max(1, record.fitting([sizes[pending_id] for _, pending_id in left], MOST_BYTES))
    page = left[:fits]
    more = bool(page) and max(order.values()) > page[-1][0]
    return Waiting(
        _whole(keeper, [pending_id for _, pending_id in page]), _said(page[-1][0]) if more else None, len(order)
    )


def _order(household_id: uuid.UUID) -> dict[uuid.UUID, _Order]:
    """Return the place of everything held, without reading what it says."""
    found = access.rows(ParkedOp, household_id).filter(pending=True, settled_at=None)
    keys = list(found.values_list("id", "received_at", "op"))
    numbers = access.rows(Op, household_id).filter(id__in=[op for _, _, op in keys]).values_list("id", "dseq")
    dseqs = dict(numbers)
    return {pending_id: (at, dseqs.get(op, 0), str(op)) for pending_id, at, op in keys}


def _whole(keeper: Member, ids: list[uuid.UUID]) -> list[Pending]:
    names = dict(access.rows(Member, keeper.household_id).values_list("id", "name"))
    rows = {row.id: row for row in access.rows(ParkedOp, keeper.household_id).filter(id__in=ids)}
    found = [rows[pending_id] for pending_id in ids]
    return [Pending(parked, names.get(parked.member_id) or "", apply.said_by(parked)) for parked in found]


def _said(place: _Order) -> str:
    return f"{record.instant(place[0])}~{place[1]}~{place[2]}"


def _place(after: str) -> _Order:
    found = _PLACE.match(after)
    try:
        if found is None:
            raise BadPlace
        return datetime.fromisoformat(found["at"]), int(found["dseq"]), found["op"]
    except ValueError as bad:
        raise BadPlace from bad


def accept(keeper: Member, pending_id: uuid.UUID, now: datetime) -> dict[str, Any]:
    """Let an entry in as its writer's; return what became of it, in the form a push is answered in.

    Raises NoAccess for what is not held here or is settled, PermissionError for who is no keeper.
    """
    _only_a_keeper(keeper)
    return apply.accept_pending(keeper, pending_id, now)


def decline(keeper: Member, pending_id: uuid.UUID, now: datetime) -> None:
    """Leave an entry out of the book; it stays on the server, whole and marked as declined.

    Raises NoAccess for what is not held here or is settled, PermissionError for who is no keeper.
    """
    _only_a_keeper(keeper)
    apply.decline_pending(keeper, pending_id, now)


def _only_a_keeper(member: Member) -> None:
    if not member.is_keeper:
        raise PermissionError(apply.ONLY_A_KEEPER)
