"""Phones and invitations are rows that stay: how many one person adds, and how many there may be, has an end."""

from datetime import timedelta

import pytest
from django.utils import timezone

from lawn.book.people import access, devices, membership
from lawn.models import Device, Invitation, Member
from tests.api.conftest import Caller, Cast
from tests.api.people.test_throttles import Rates, rates

__all__ = ["rates"]  # the fixture
API = "/api/v1"


def add(caller: Caller, cast: Cast, what: str) -> int:
    return int(caller.post(f"{API}/households/{cast.ours.id}/{what}", {"name": "Phone"}).status_code)


def member_of(caller: Caller) -> Member:
    assert caller.member is not None
    return caller.member


@pytest.mark.parametrize(("what", "scope"), [("devices", "devices"), ("invitations", "invites")])
def test_phones_and_invitations_are_added_only_so_often_and_looked_at_as_often_as_one_likes(
    cast: Cast, rates: Rates, what: str, scope: str
) -> None:
    rates(**{scope: "2/hour"})
    assert [add(cast.keeper, cast, what) for _ in range(3)] == [201, 201, 429]
    assert add(cast.member, cast, what) == (201 if what == "devices" else 403)
    path = f"{API}/households/{cast.ours.id}/{what}"
    assert [cast.keeper.get(path).status_code for _ in range(3)] == [200] * 3


def test_a_member_has_so_many_phones_and_makes_room_by_signing_one_out(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(devices, "MOST_OPEN", 2)
    assert [add(cast.member, cast, "devices") for _ in range(3)] == [201, 201, 409]
    assert add(cast.keeper, cast, "devices") == 201
    mine = access.rows(Device, cast.ours.id).filter(member_id=member_of(cast.member).id)
    cast.keeper.post(f"{API}/households/{cast.ours.id}/devices/{mine[0].id}/sign-out")
    cast.member.client.force_login(member_of(cast.member).person)
    assert add(cast.member, cast, "devices") == 201
    assert mine.count() == 2, "one signed out before it sent anything is forgotten"


def test_the_refusal_of_a_phone_too_many_says_what_to_do(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(devices, "MOST_OPEN", 0)
    answer = cast.member.post(f"{API}/households/{cast.ours.id}/devices", {"name": "Phone"})
    assert answer.json()["code"] == "too_many_phones"
    assert "Sign out those you no longer use" in answer.json()["message"]


def test_so_many_invitations_stand_open_and_one_taken_back_makes_room(cast: Cast) -> None:
    path = f"{API}/households/{cast.ours.id}/invitations"
    made = [cast.keeper.post(path).json()["id"] for _ in range(membership.MOST_OPEN)]
    late = cast.keeper.post(path)
    assert (late.status_code, late.json()["code"]) == (409, "too_many_invitations")
    cast.keeper.post(f"{path}/{made[0]}/withdraw")
    assert cast.keeper.post(path).status_code == 201


def test_an_invitation_that_ran_out_unused_a_month_ago_is_forgotten_and_a_used_one_is_kept(cast: Cast) -> None:
    keeper, long_ago = member_of(cast.keeper), timezone.now() - timedelta(days=60)
    membership.create_invitation(keeper, long_ago)
    _, token = membership.create_invitation(keeper, long_ago)
    membership.redeem(token, member_of(cast.stranger).person, long_ago + timedelta(days=1))
    membership.create_invitation(keeper, timezone.now())
    kept = access.rows(Invitation, cast.ours.id).order_by("created_at")
    assert [one.used_at is not None for one in kept] == [True, False]
