"""Roles, removal, leaving and coming back, over HTTP and as every phone hears of it."""

from typing import Any

import pytest
from django.utils import timezone

from lawn.book.people import access, membership
from lawn.models import Change, Household, Invitation, Member, Person
from lawn.web import sessions
from tests.api.conftest import Caller, Cast
from tests.sync.conftest import phone_of
from tests.sync.phone import Phone

API = "/api/v1"


def id_of(caller: Caller) -> str:
    assert caller.member is not None
    return str(caller.member.id)


def row(caller: Caller) -> Member:
    assert caller.member is not None
    return access.rows(Member, caller.member.household_id).get(id=caller.member.id)


def act(cast: Cast, by: Caller, what: str, on: Caller, body: Any = None) -> Any:
    return by.post(f"{API}/households/{cast.ours.id}/members/{id_of(on)}/{what}", body)


def heard(phone: Phone, member_id: str) -> dict[str, Any]:
    """The member's record as a phone gets it."""
    found = [change for change in phone.sync()["changes"] if (change["t"], change["id"]) == ("member", member_id)]
    return {group: state["value"] for group, state in found[-1]["groups"].items()} if found else {}


def test_a_keeper_gives_a_role_and_every_phone_hears_of_it(cast: Cast) -> None:
    assert cast.member.member is not None
    phone = phone_of(cast.member.member)
    phone.sync()
    answer = act(cast, cast.keeper, "role", cast.member, {"role": "keeper"})
    assert (answer.status_code, answer.json()["role"], answer.json()["active"]) == (200, "keeper", True)
    assert heard(phone, id_of(cast.member))["role"] == {"role": "keeper"}
    assert cast.member.post(f"{API}/households/{cast.ours.id}/invitations").status_code == 201


def test_a_role_changes_nothing_else_of_the_member(cast: Cast) -> None:
    before = row(cast.member)
    act(cast, cast.keeper, "role", cast.member, {"role": "keeper"})
    after = row(cast.member)
    kept = ("name", "units", "active", "person_id", "made_by", "received_at")
    assert [getattr(after, name) for name in kept] == [getattr(before, name) for name in kept]
    assert {group: state for group, state in after.versions.items() if group != "role"} == {
        group: state for group, state in before.versions.items() if group != "role"
    }


def test_a_role_already_held_moves_nothing(cast: Cast) -> None:
    before = Household.objects.get(id=cast.ours.id).seq
    assert act(cast, cast.keeper, "role", cast.member, {"role": "member"}).status_code == 200
    assert Household.objects.get(id=cast.ours.id).seq == before


@pytest.mark.parametrize("what", ["role", "remove"])
def test_the_last_keeper_stays(cast: Cast, what: str) -> None:
    answer = act(cast, cast.keeper, what, cast.keeper, {"role": "member"})
    assert (answer.status_code, answer.json()["code"]) == (409, "last_keeper")
    assert row(cast.keeper).is_keeper
    act(cast, cast.keeper, "role", cast.member, {"role": "keeper"})
    assert act(cast, cast.keeper, what, cast.keeper, {"role": "member"}).status_code == 200
    assert not row(cast.keeper).is_keeper


def test_a_role_there_is_not_is_refused_beside_the_field(cast: Cast) -> None:
    answer = act(cast, cast.keeper, "role", cast.member, {"role": "owner"})
    assert (answer.status_code, list(answer.json()["fields"])) == (400, ["role"])


def test_a_member_gives_no_roles_and_removes_nobody_but_may_leave(cast: Cast) -> None:
    for what, on in (("role", cast.member), ("role", cast.keeper), ("remove", cast.keeper)):
        assert act(cast, cast.member, what, on, {"role": "keeper"}).status_code == 403
    assert act(cast, cast.member, "remove", cast.member).json()["active"] is False
    assert cast.member.get(f"{API}/households/{cast.ours.id}/devices").status_code == 404
    assert cast.member.get(f"{API}/accounts/me").json()["households"] == []


def test_f48_s22_a_removed_members_phone_has_no_access_from_the_next_request_on(cast: Cast) -> None:
    assert cast.member.member is not None
    phone = phone_of(cast.member.member)
    phone.log("mow")
    phone.sync()
    act(cast, cast.keeper, "remove", cast.member)
    body = {
        "proto": 1, "schema": 1, "device": str(phone.device), "incarnation": str(phone.incarnation), "cursor": 0,
    }  # fmt: skip
    refused = cast.member.post(f"{API}/households/{cast.ours.id}/sync", body)
    assert (refused.status_code, refused.json()["code"]) == (404, "not_found")
    assert refused.json() == cast.stranger.post(f"{API}/households/{cast.ours.id}/sync", body).json()


def test_f48_s22_what_a_removed_member_entered_before_stays_for_the_others(cast: Cast) -> None:
    assert cast.member.member is not None
    assert cast.keeper.member is not None
    theirs, mine = phone_of(cast.member.member), phone_of(cast.keeper.member)
    entry = theirs.log("mow")
    theirs.sync()
    act(cast, cast.keeper, "remove", cast.member)
    changes = mine.sync()["changes"]
    assert entry in [change["id"] for change in changes]
    gone = next(change for change in changes if change["id"] == id_of(cast.member))
    assert gone["groups"]["active"]["value"] == {"active": False}


def test_f48_a_removed_keeper_cannot_come_back_by_an_invitation_of_their_own(cast: Cast) -> None:
    act(cast, cast.keeper, "role", cast.member, {"role": "keeper"})
    link = cast.member.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    act(cast, cast.keeper, "remove", cast.member)
    answer = cast.member.post(f"{API}/accounts/join", {"token": link})
    assert (answer.status_code, answer.json()["code"]) == (404, "invitation_withdrawn")
    assert not row(cast.member).active


def test_f49_removed_and_invited_again_is_the_same_place_without_its_powers(cast: Cast) -> None:
    assert cast.member.member is not None
    phone = phone_of(cast.member.member)
    act(cast, cast.keeper, "role", cast.member, {"role": "keeper"})
    act(cast, cast.keeper, "remove", cast.member)
    link = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    joined = cast.member.post(f"{API}/accounts/join", {"token": link.rsplit("/", 1)[1]}).json()
    assert [(home["member_id"], home["role"]) for home in joined["households"]] == [(id_of(cast.member), "member")]
    phone.log("mow")  # the same phone goes on in its own line
    assert [result["s"] for result in phone.sync()["results"]] == ["applied"]
    assert access.rows(Change, cast.ours.id).filter(t="member", id=id_of(cast.member)).count() == 1


def test_removing_twice_is_the_same_as_once(cast: Cast) -> None:
    act(cast, cast.keeper, "remove", cast.member)
    before = Household.objects.get(id=cast.ours.id).seq
    assert act(cast, cast.keeper, "remove", cast.member).json()["active"] is False
    assert act(cast, cast.keeper, "role", cast.member, {"role": "keeper"}).status_code == 404
    assert Household.objects.get(id=cast.ours.id).seq == before


def test_a_keeper_who_was_removed_a_moment_ago_decides_nothing(cast: Cast) -> None:
    """What the request read before the lock counts for nothing: only what stands once the lock is held."""
    stale = row(cast.keeper)
    act(cast, cast.keeper, "role", cast.member, {"role": "keeper"})
    act(cast, cast.member, "remove", cast.keeper)
    assert stale.is_keeper
    with pytest.raises(PermissionError):
        membership.remove(stale, row(cast.member).id, timezone.now())
    with pytest.raises(PermissionError):
        membership.set_role(stale, row(cast.member).id, "member", timezone.now())


# --- invitations as the keeper sees them -----------------------------------------------------------


def test_an_invitation_is_listed_without_its_token_and_can_be_withdrawn(cast: Cast) -> None:
    path = f"{API}/households/{cast.ours.id}/invitations"
    made = cast.keeper.post(path).json()
    token = made["link"].rsplit("/", 1)[1]
    listed = cast.keeper.get(path)
    [kept] = listed.json()["invitations"]
    assert (kept["id"], kept["made_by"], kept["used_at"]) == (made["id"], id_of(cast.keeper), None)
    assert token.encode() not in listed.content
    assert Invitation.objects.get().token_hash.encode() not in listed.content
    gone = cast.keeper.post(f"{path}/{made['id']}/withdraw").json()
    assert gone["withdrawn_at"] is not None
    assert cast.keeper.post(f"{path}/{made['id']}/withdraw").json() == gone
    for answer in (
        cast.anonymous.post(f"{API}/accounts/invitation", {"token": token}),
        cast.stranger.post(f"{API}/accounts/join", {"token": token}),
    ):
        assert (answer.status_code, answer.json()["code"]) == (404, "invitation_withdrawn")


def test_an_invitation_somebody_used_cannot_be_withdrawn(cast: Cast) -> None:
    path = f"{API}/households/{cast.ours.id}/invitations"
    made = cast.keeper.post(path).json()
    cast.stranger.post(f"{API}/accounts/join", {"token": made["link"].rsplit("/", 1)[1]})
    answer = cast.keeper.post(f"{path}/{made['id']}/withdraw")
    assert (answer.status_code, answer.json()["code"]) == (409, "invitation_used")
    person = Person.objects.get(email="stranger@example.org")
    used = next(one for one in cast.keeper.get(path).json()["invitations"] if one["used_at"])
    assert used["used_by"] == str(access.rows(Member, cast.ours.id).get(person=person).id)
    assert used["withdrawn_at"] is None


def test_the_cheap_check_of_what_stays_open_knows_removal_and_sign_out(cast: Cast) -> None:
    session = sessions.key_hash(cast.member.client.session.session_key)
    here = (cast.ours.id, row(cast.member).id, session)
    elsewhere = (cast.theirs.id, row(cast.member).id, session)
    nobody = (cast.ours.id, row(cast.member).id, "")
    keeper = (cast.ours.id, row(cast.keeper).id, sessions.key_hash(cast.keeper.client.session.session_key))
    assert access.still_here({here, elsewhere, nobody, keeper}) == {here, keeper}
    sessions.end(keeper[2])
    assert access.still_here({here, keeper}) == {here}
    Member.objects.filter(id=row(cast.member).id).update(active=False)
    assert access.still_here({here}) == set()
