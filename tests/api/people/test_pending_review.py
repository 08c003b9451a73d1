"""F48, S22: what a removed member's phone still held is handed in, waits for a keeper, and is accepted or declined."""

import uuid
from typing import Any

import pytest
from django.utils import timezone

from lawn.book.people import access, membership
from lawn.models import Entry, Member, ParkedOp
from tests.api.conftest import Cast, person, signed_in
from tests.api.things import pending_op
from tests.sync.conftest import phone_of
from tests.sync.phone import Phone

API = "/api/v1"


def member_in(cast: Cast) -> Member:
    assert cast.member.member is not None
    return cast.member.member


@pytest.fixture
def entries(cast: Cast) -> list[str]:
    """Five entries written on a phone whose member was removed before it sent them; then it sends them."""
    phone = phone_of(member_in(cast))
    phone.sync()
    written = [phone.log("mow") for _ in range(5)]
    cast.keeper.post(f"{API}/households/{cast.ours.id}/members/{member_in(cast).id}/remove")
    answer = phone.post(phone.request())
    assert [(result["s"], result["why"]["code"]) for result in answer["results"]] == [("parked", "pending_review")] * 5
    assert answer["changes"] == []
    return written


def held(cast: Cast) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = cast.keeper.get(f"{API}/households/{cast.ours.id}/pending-review").json()[
        "pending_review"
    ]
    return found


def settle(cast: Cast, pending_id: str, how: str) -> Any:
    return cast.keeper.post(f"{API}/households/{cast.ours.id}/pending-review/{pending_id}/{how}")


def keepers_phone(cast: Cast) -> Phone:
    assert cast.keeper.member is not None
    phone = phone_of(cast.keeper.member)
    phone.sync()
    return phone


def test_f48_s22_five_unsent_entries_of_a_removed_member_wait_for_the_keeper_whole(
    cast: Cast, entries: list[str]
) -> None:
    waiting = held(cast)
    assert [one["m"][0]["id"] for one in waiting] == entries
    assert {(one["member_id"], one["member_name"], one["why"]["code"]) for one in waiting} == {
        (str(member_in(cast).id), "Member", "pending_review")
    }
    assert all(one["m"][0]["body"]["kind"] == "mow" and one["hlc"] for one in waiting)
    assert not access.rows(Entry, cast.ours.id).exists()
    assert keepers_phone(cast).all_of("entry") == []


def test_f48_p03_what_is_held_is_listed_as_it_was_written_whatever_the_clock_did(cast: Cast) -> None:
    """One push has one time of arrival, and the phone's clock was set back twice: its numbers are the order."""
    phone, zone = phone_of(member_in(cast)), str(uuid.uuid4())
    cast.keeper.post(f"{API}/households/{cast.ours.id}/members/{member_in(cast).id}/remove")
    written = []
    for text in ("First", "Second", "Third", "Fourth"):
        phone.clock_ms -= 3_600_000
        written.append(phone.write("zone", zone, name={"name": text})["op"])
    phone.post(phone.request())
    waiting = held(cast)
    ops = dict(access.rows(ParkedOp, cast.ours.id).values_list("id", "op"))
    assert [str(ops[uuid.UUID(one["id"])]) for one in waiting] == written
    assert [settle(cast, one["id"], "accept").json()["s"] for one in waiting] == ["applied"] * 4
    assert keepers_phone(cast).see("zone", zone, "name") == {"name": "Fourth"}


def test_f48_s22_accepted_they_stand_in_the_book_as_their_writers(cast: Cast, entries: list[str]) -> None:
    phone = keepers_phone(cast)
    for one in held(cast)[:3]:
        answer = settle(cast, one["id"], "accept")
        assert (answer.status_code, answer.json()["s"]) == (200, "applied")
    phone.sync()
    assert {row["id"] for row in phone.all_of("entry")} == set(entries[:3])
    assert {row["by"] for row in phone.all_of("entry")} == {str(member_in(cast).id)}
    assert [one["m"][0]["id"] for one in held(cast)] == entries[3:]


def test_s22_declined_they_stay_out_of_the_book_and_are_never_deleted(cast: Cast, entries: list[str]) -> None:
    first, *_ = held(cast)
    assert settle(cast, first["id"], "decline").json() == {"id": first["id"]}
    assert [one["m"][0]["id"] for one in held(cast)] == entries[1:]
    assert not access.rows(Entry, cast.ours.id).exists()
    kept = access.rows(ParkedOp, cast.ours.id).get(id=first["id"])
    assert cast.keeper.member is not None
    assert (kept.settled_as, kept.settled_by) == ("declined", cast.keeper.member.id)
    assert kept.raw["m"] == first["m"]


@pytest.mark.parametrize("then", ["accept", "decline"])
@pytest.mark.parametrize("first", ["accept", "decline"])
def test_s22_what_is_settled_is_settled(cast: Cast, entries: list[str], first: str, then: str) -> None:
    one = held(cast)[0]["id"]
    assert settle(cast, one, first).status_code == 200
    count = access.rows(Entry, cast.ours.id).count()
    assert settle(cast, one, then).status_code == 404
    assert access.rows(Entry, cast.ours.id).count() == count


def test_s22_an_entry_that_cannot_be_applied_says_why_and_goes_on_waiting(cast: Cast) -> None:
    bad = {"t": "zone", "id": "0190aaaa-0000-7000-8000-000000000001", "set": {"ground": {"area_m2": -4}}, "base": {}}
    one = pending_op(member_in(cast), [bad])
    answer = settle(cast, str(one.id), "accept").json()
    assert (answer["s"], answer["why"]["code"]) == ("parked", "invalid")
    assert [(waiting["id"], waiting["why"]["code"]) for waiting in held(cast)] == [(str(one.id), "invalid")]
    assert settle(cast, str(one.id), "decline").status_code == 200


def test_s22_only_a_keeper_sees_and_settles_what_is_held(cast: Cast, entries: list[str]) -> None:
    one = held(cast)[0]["id"]
    another = signed_in(membership.add_member(cast.ours.id, person("another"), timezone.now()))
    for caller, status in ((another, 403), (cast.member, 404), (cast.stranger, 404), (cast.anonymous, 401)):
        assert caller.get(f"{API}/households/{cast.ours.id}/pending-review").status_code == status
        for how in ("accept", "decline"):
            assert caller.post(f"{API}/households/{cast.ours.id}/pending-review/{one}/{how}").status_code == status
    assert len(held(cast)) == 5


def test_f49_s22_what_was_held_can_be_accepted_after_its_writer_came_back(cast: Cast, entries: list[str]) -> None:
    link = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    cast.member.post(f"{API}/accounts/join", {"token": link.rsplit("/", 1)[1]})
    assert settle(cast, held(cast)[0]["id"], "accept").json()["s"] == "applied"
    phone = keepers_phone(cast)
    assert [row["id"] for row in phone.all_of("entry")] == entries[:1]
