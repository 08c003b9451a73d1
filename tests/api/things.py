"""One of everything that a household's routes name by an id: a route with a new hole fails until it is made here."""

import uuid
from collections.abc import Callable
from typing import Any

from django.utils import timezone

from lawn.book.people import access, devices, membership
from lawn.book.sync.author import Pen
from lawn.models import Device, Household, Member, ParkedOp, Person
from lawn.photos import upload
from tests import pictures

PICTURE = pictures.jpeg(pictures.quarters(40, 30))


def _owner(household: Household, wanted: Member | None) -> Member:
    """The one wanted where they are of this household, else its keeper."""
    if wanted is not None and wanted.household_id == household.id:
        return wanted
    return Member.objects.get(household=household, role="keeper")


def _member(household: Household, _: Member | None) -> str:
    person = Person.objects.create_user(email=f"{uuid.uuid4()}@example.org", password=None, name="Fen")
    return str(membership.add_member(household.id, person, timezone.now()).id)


def _device(household: Household, wanted: Member | None) -> str:
    return str(devices.register(_owner(household, wanted), "Phone", timezone.now()).id)


def _invitation(household: Household, _: Member | None) -> str:
    return str(membership.create_invitation(_owner(household, None), timezone.now())[0].id)


def pending_op(member: Member, items: list[dict[str, Any]] | None = None) -> ParkedOp:
    """An op of this member's own phone, as it is held after their removal."""
    op = Pen(member, Device(id=uuid.uuid4())).op(items or [zone_item()], timezone.now())
    held = ParkedOp(
        household_id=member.household_id,
        op=uuid.UUID(op["op"]),
        hash=op["hash"],
        device_id=uuid.uuid4(),
        member_id=member.id,
        raw=op,
        why={"code": "pending_review", "message": "Held."},
        received_at=timezone.now(),
        pending=True,
    )
    access.add([held])
    return held


def zone_item(name: str = "Verge") -> dict[str, Any]:
    """A new zone, as a phone writes it."""
    return {"t": "zone", "id": str(uuid.uuid4()), "set": {"name": {"name": name}}, "base": {}}


def _held(household: Household, _: Member | None) -> str:
    return str(pending_op(_owner(household, None)).id)


def _picture(household: Household, _: Member | None) -> str:
    name = pictures.name(PICTURE)
    upload.take(household.id, name, upload.Chunk(0, len(PICTURE), PICTURE))
    return name


MAKERS: dict[str, Callable[[Household, Member | None], str]] = {
    "member": _member,
    "device": _device,
    "invitation": _invitation,
    "pending": _held,
    "sha256": _picture,
}


def things(names: list[str], household: Household, wanted: Member | None) -> dict[str, str]:
    """One thing of a household for each hole in an address but the household's own."""
    return {name: MAKERS[name](household, wanted) for name in names if name != "household"}
