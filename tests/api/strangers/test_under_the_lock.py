"""A11: a role or a membership that ends while a request waits for the household's lock counts as ended.

Each test reads a row as a request does at its beginning, lets somebody else end it, and then goes on with the old row.
"""

import uuid
from collections.abc import Callable

import pytest
from django.utils import timezone

from lawn.book.people import access, devices, membership
from lawn.book.sync import apply, pending_review
from lawn.book.sync.author import Pen
from lawn.models import Device, Entry, Invitation, Member, ParkedOp, Stream
from tests.api.conftest import Cast
from tests.api.things import pending_op, zone_item


def row(member: Member | None) -> Member:
    assert member is not None
    return access.rows(Member, member.household_id).get(id=member.id)


@pytest.fixture
def former_keeper(cast: Cast) -> Member:
    """The keeper as they were read before another keeper made them a member."""
    stale, other = row(cast.keeper.member), row(cast.member.member)
    membership.set_role(stale, other.id, "keeper", timezone.now())
    membership.set_role(row(other), stale.id, "member", timezone.now())
    assert stale.is_keeper
    return stale


def removed(cast: Cast) -> Member:
    """The member as they were read before their removal."""
    stale = row(cast.member.member)
    membership.remove(row(cast.keeper.member), stale.id, timezone.now())
    assert stale.active
    return stale


def pushing(member: Member, device: Device) -> Callable[[], object]:
    pen = Pen(member, device)
    entry = {"t": "zone", "id": str(uuid.uuid4()), "set": {"name": {"name": "Verge"}}, "base": {}}
    return lambda: pen.write([[entry]], timezone.now())


def test_a11_a_push_of_who_was_removed_while_it_waited_is_not_applied(cast: Cast) -> None:
    device = devices.register(row(cast.member.member), "Phone", timezone.now())
    push = pushing(removed(cast), device)
    with pytest.raises(access.NoAccess):
        push()
    assert not access.rows(Stream, cast.ours.id).exists()


def test_a11_a_push_of_a_phone_signed_out_while_it_waited_is_not_applied(cast: Cast) -> None:
    member = row(cast.member.member)
    device = devices.register(member, "Phone", timezone.now())
    devices.sign_out(member, device.id, timezone.now())
    with pytest.raises(access.NoAccess):
        pushing(member, device)()


def test_a11_a_push_of_a_former_keeper_renames_no_household(cast: Cast, former_keeper: Member) -> None:
    device = devices.register(row(former_keeper), "Phone", timezone.now())
    name = {"t": "household", "id": str(cast.ours.id), "set": {"name": {"name": "Mine"}}, "base": {}}
    [result] = Pen(former_keeper, device).write([[name]], timezone.now())
    assert result["s"] == "parked"
    cast.ours.refresh_from_db()
    assert cast.ours.name == "Alder Bend"


def test_a11_what_is_handed_in_by_who_is_back_by_now_is_not_held(cast: Cast) -> None:
    member = row(cast.member.member)
    device = devices.register(member, "Phone", timezone.now())
    membership.remove(row(cast.keeper.member), member.id, timezone.now())
    stale = row(member)
    membership.add_member(cast.ours.id, member.person, timezone.now())
    ops = [Pen(stale, device).op([zone_item()], timezone.now())]
    with pytest.raises(access.NoAccess):
        apply.hold(cast.ours.id, device, uuid.uuid4(), stale, ops, timezone.now())
    assert not access.rows(ParkedOp, cast.ours.id).exists()


@pytest.mark.parametrize("settle", [pending_review.accept, pending_review.decline])
def test_a11_a_former_keeper_settles_nothing_that_is_held(
    cast: Cast, former_keeper: Member, settle: Callable[..., object]
) -> None:
    waiting = pending_op(row(cast.member.member))
    with pytest.raises(PermissionError):
        settle(former_keeper, waiting.id, timezone.now())
    waiting.refresh_from_db()
    assert waiting.settled_at is None
    assert not access.rows(Entry, cast.ours.id).exists()


def test_a11_a_former_keeper_makes_and_takes_back_no_invitation(cast: Cast, former_keeper: Member) -> None:
    made, _ = membership.create_invitation(row(cast.member.member), timezone.now())
    with pytest.raises(PermissionError):
        membership.create_invitation(former_keeper, timezone.now())
    with pytest.raises(PermissionError):
        membership.withdraw(former_keeper, made.id, timezone.now())
    assert [one.withdrawn_at for one in access.rows(Invitation, cast.ours.id)] == [None]


def test_a11_who_was_removed_meanwhile_adds_no_phone_and_signs_none_out(cast: Cast) -> None:
    mine = devices.register(row(cast.member.member), "Phone", timezone.now())
    stale = removed(cast)
    with pytest.raises(access.NoAccess):
        devices.register(stale, "Another", timezone.now())
    with pytest.raises(access.NoAccess):
        devices.sign_out(stale, mine.id, timezone.now())


def test_a11_a_former_keeper_signs_out_nobody_elses_phone(cast: Cast, former_keeper: Member) -> None:
    theirs = devices.register(row(cast.member.member), "Phone", timezone.now())
    with pytest.raises(PermissionError):
        devices.sign_out(former_keeper, theirs.id, timezone.now())
