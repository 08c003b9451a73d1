"""Households, members, phones and invitations, without HTTP."""

from datetime import timedelta

import pytest

from lawn.book.people import access, membership
from lawn.book.people.membership import INVITATION_LASTS, InvitationClosed
from lawn.models import Change, Household, Invitation, Member
from tests.factories import NOW, DeviceFactory, KeeperFactory, MemberFactory, PersonFactory

pytestmark = pytest.mark.django_db


def test_a_new_household_has_its_keeper_and_two_changes() -> None:
    person = PersonFactory.create(name="Sam")
    keeper = membership.create_household(person, "Alder Bend", "metric", NOW)
    assert (keeper.household.name, keeper.household.seq) == ("Alder Bend", 2)
    assert (keeper.name, keeper.role, keeper.units, keeper.active, keeper.is_keeper) == (
        "Sam", "keeper", "metric", True, True,
    )  # fmt: skip
    changes = Change.objects.filter(household=keeper.household).order_by("seq")
    assert list(changes.values_list("seq", "t", "id")) == [
        (1, "household", keeper.household_id),
        (2, "member", keeper.id),
    ]


def test_an_invitation_lets_one_person_in_once() -> None:
    keeper = KeeperFactory.create()
    invitation, token = membership.create_invitation(keeper, NOW)
    assert token not in str(vars(invitation))
    joined = membership.redeem(token, PersonFactory.create(), NOW)
    assert (joined.household_id, joined.role) == (keeper.household_id, "member")
    with pytest.raises(InvitationClosed, match="used"):
        membership.redeem(token, PersonFactory.create(), NOW)
    assert Invitation.objects.get().used_by == joined.id
    assert Member.objects.filter(household_id=keeper.household_id).count() == 2


def test_an_invitation_lasts_seven_days_and_not_longer() -> None:
    _, token = membership.create_invitation(KeeperFactory.create(), NOW)
    assert membership.find_invitation(token, NOW + INVITATION_LASTS - timedelta(seconds=1))
    with pytest.raises(InvitationClosed, match="expired"):
        membership.redeem(token, PersonFactory.create(), NOW + INVITATION_LASTS)
    assert timedelta(days=7) == INVITATION_LASTS


def test_an_unknown_token_opens_nothing() -> None:
    with pytest.raises(InvitationClosed, match="unknown"):
        membership.find_invitation("guess", NOW)


def test_only_a_keeper_invites() -> None:
    member = MemberFactory.create(household_id=KeeperFactory.create().household_id)
    with pytest.raises(PermissionError):
        membership.create_invitation(member, NOW)
    assert not Invitation.objects.exists()


def test_a_member_who_opens_the_link_again_stays_and_leaves_it_open() -> None:
    keeper = KeeperFactory.create()
    _, token = membership.create_invitation(keeper, NOW)
    assert membership.redeem(token, keeper.person, NOW) == keeper
    assert membership.find_invitation(token, NOW)
    keeper.refresh_from_db()
    assert keeper.role == "keeper"


def test_f49_a_former_member_is_invited_again_under_the_same_id() -> None:
    keeper = KeeperFactory.create()
    former = MemberFactory.create(household_id=keeper.household_id)
    Member.objects.filter(pk=former.pk).update(active=False, name="Renamed")
    with pytest.raises(access.NoAccess):
        access.member_of(former.person, keeper.household_id)
    _, token = membership.create_invitation(keeper, NOW)
    again = membership.redeem(token, former.person, NOW)
    assert (again.id, again.active, again.name) == (former.id, True, "Renamed")
    head = Household.objects.get(id=keeper.household_id).seq
    assert Change.objects.get(t="member", id=former.id).seq == head


def test_memberships_are_a_persons_own_and_active_ones() -> None:
    keeper = KeeperFactory.create()
    KeeperFactory.create()
    second = membership.create_household(keeper.person, "Second", "us", NOW)
    assert [member.id for member in access.memberships(keeper.person)] == [keeper.id, second.id]
    Member.objects.filter(pk=second.pk).update(active=False)
    assert [member.id for member in access.memberships(keeper.person)] == [keeper.id]


def test_a_device_is_its_members_own() -> None:
    device = DeviceFactory.create()
    owner = Member.objects.get(household_id=device.household_id)
    assert access.device_of(owner, device.id) == device
    other = MemberFactory.create(household_id=device.household_id)
    with pytest.raises(access.NoAccess):
        access.device_of(other, device.id)
