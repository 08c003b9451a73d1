"""F48, F49, S22: what a former member's phone still holds reaches a keeper; nothing of the book reaches the phone."""

import uuid
from typing import Any

import pytest
from django.utils import timezone

from lawn.book.people import access, membership
from lawn.book.sync import apply
from lawn.models import Entry, Op, ParkedOp
from tests.sync.conftest import House, signed_in

ZONE = "0190aaaa-0000-7000-8000-000000000001"


@pytest.fixture
def removed(house: House) -> House:
    """A member with five entries unsent is removed from a household with a zone."""
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    house.mine.sync()
    house.theirs.sync()
    for number in range(5):
        house.theirs.log("observation", text=f"Seen {number}")
    access.rows(type(house.member), house.member.household_id).filter(id=house.member.id).update(active=False)
    return house


def hand_in(house: House) -> dict[str, Any]:
    """Send what waits, once; verdicts and cursor are stored."""
    house.theirs.take(house.theirs.post(house.theirs.request()))
    return house.theirs.answer


def waiting(house: House) -> list[ParkedOp]:
    found = access.rows(ParkedOp, house.keeper.household_id).filter(pending=True, settled_at=None)
    return sorted(found, key=lambda parked: parked.raw["dseq"])


def test_f48_s22_the_five_entries_are_held_and_none_is_in_the_book(removed: House) -> None:
    head, sent = removed.household.seq, list(removed.theirs.outbox)
    answer = hand_in(removed)
    assert [(r["s"], r["why"]["code"]) for r in answer["results"]] == [("parked", "pending_review")] * 5
    assert removed.theirs.outbox == []
    assert (removed.household.seq, Entry.objects.count()) == (head, 0)
    assert [parked.raw for parked in waiting(removed)] == sent


def test_f48_p10_the_answer_shows_nothing_of_the_household(removed: House) -> None:
    removed.mine.write("zone", ZONE, name={"name": "Changed since"})
    removed.mine.sync()
    before = removed.theirs.cursor
    answer = hand_in(removed)
    assert (answer["changes"], answer["cursor"], answer["head"], answer["has_more"]) == ([], before, before, False)
    assert (answer["digest"], answer["epoch"], answer["reset"]) == (None, None, False)


@pytest.mark.parametrize("body", [{"ops": []}, {"ops": None}, []])
def test_f48_p10_without_entries_a_former_member_is_a_stranger(removed: House, body: Any) -> None:
    asked = {**removed.theirs.request(), **body} if isinstance(body, dict) else body
    client = signed_in(removed.member)
    assert client.post(removed.path, asked, content_type="application/json").status_code == 404
    for route in ("bootstrap", "digest", "events"):
        assert client.get(removed.path.replace("/sync", f"/{route}")).status_code == 404


def test_f48_another_persons_phone_hands_in_nothing(removed: House) -> None:
    asked = {**removed.theirs.request(), "device": str(removed.mine.device)}
    assert signed_in(removed.member).post(removed.path, asked, content_type="application/json").status_code == 404
    assert waiting(removed) == []


def test_f48_f04_handed_in_twice_is_held_once(removed: House) -> None:
    request = removed.theirs.request()
    answers = [removed.theirs.post(request)["results"] for _ in range(2)]
    assert [result["s"] for result in answers[1]] == ["parked"] * 5
    assert len(waiting(removed)) == 5


def test_f48_what_was_applied_before_the_removal_stays_applied(house: House) -> None:
    """F4 on top: the answer to the last push was lost, and the member removed meanwhile."""
    entry = house.theirs.log("mow")
    request = house.theirs.request()
    house.theirs.post(request)
    access.rows(type(house.member), house.member.household_id).filter(id=house.member.id).update(active=False)
    assert [result["s"] for result in house.theirs.post(request)["results"]] == ["duplicate"]
    assert Entry.objects.filter(id=entry).exists()


def test_f48_an_accepted_entry_is_in_the_book_as_its_writers(removed: House) -> None:
    hand_in(removed)
    first = waiting(removed)[0]
    result = apply.accept_pending(removed.keeper, first.id, timezone.now())
    assert (result["s"], result["op"]) == ("applied", str(first.op))
    removed.mine.sync()
    (entry,) = removed.mine.all_of("entry")
    assert (entry["body"]["text"], entry["by"]) == ("Seen 0", str(removed.member.id))
    assert removed.mine.digest == removed.mine.answer["digest"]
    settled = ParkedOp.objects.get(id=first.id)
    assert (settled.settled_as, settled.settled_by) == ("accepted", removed.keeper.id)
    assert Op.objects.get(id=first.op).result["s"] == "applied"


def test_f48_a_declined_entry_stays_out_and_is_kept_whole(removed: House) -> None:
    hand_in(removed)
    first = waiting(removed)[0]
    apply.decline_pending(removed.keeper, first.id, timezone.now())
    kept = ParkedOp.objects.get(id=first.id)
    assert (kept.settled_as, kept.raw) == ("declined", first.raw)
    assert Entry.objects.count() == 0
    assert len(waiting(removed)) == 4


@pytest.mark.parametrize("again", [apply.accept_pending, apply.decline_pending])
def test_f48_what_is_settled_is_settled_once(removed: House, again: Any) -> None:
    hand_in(removed)
    first = waiting(removed)[0]
    apply.accept_pending(removed.keeper, first.id, timezone.now())
    with pytest.raises(access.NoAccess):
        again(removed.keeper, first.id, timezone.now())
    assert Entry.objects.count() == 1


def test_f48_p10_a_keeper_settles_nothing_of_another_household(removed: House) -> None:
    hand_in(removed)
    other = membership.create_household(removed.keeper.person, "Second home", "us", timezone.now())
    with pytest.raises(access.NoAccess):
        apply.accept_pending(other, waiting(removed)[0].id, timezone.now())


def test_f48_one_that_cannot_be_applied_says_why_and_waits_on(removed: House) -> None:
    removed.theirs.outbox = []
    removed.theirs.dseq = 0
    removed.theirs.write("zone", ZONE, ground={"area_m2": -4, "method": "shapes"})
    hand_in(removed)
    (held,) = waiting(removed)
    result = apply.accept_pending(removed.keeper, held.id, timezone.now())
    assert (result["s"], result["why"]["code"]) == ("parked", "invalid")
    assert [parked.why["code"] for parked in waiting(removed)] == ["invalid"]


def test_f48_past_the_cap_is_later_and_nothing_is_lost(removed: House, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apply, "MOST_PENDING", 4)
    sent = removed.theirs.request()
    response = signed_in(removed.member).post(removed.path, sent, content_type="application/json")
    assert (response.status_code, response.json()["code"]) == (429, "too_many_pending")
    assert int(response["Retry-After"]) > 0
    assert waiting(removed) == []
    removed.theirs.outbox = removed.theirs.outbox[:4]
    assert len(hand_in(removed)["results"]) == 4


def test_f49_removed_and_invited_again_works_on_in_the_same_place(removed: House) -> None:
    """The same phone, the same line of numbers: what was held meanwhile is the keeper's, what comes now is applied."""
    hand_in(removed)
    again = membership.add_member(removed.member.household_id, removed.member.person, timezone.now())
    assert again.id == removed.member.id
    entry = removed.theirs.log("mow")
    removed.theirs.sync()
    removed.mine.sync()
    assert f"entry:{entry}" in removed.mine.records
    assert removed.theirs.records == removed.mine.records
    assert len(waiting(removed)) == 5
    apply.accept_pending(removed.keeper, waiting(removed)[0].id, timezone.now())
    removed.theirs.sync()
    assert len(removed.theirs.all_of("entry")) == 2


def test_f56_f48_a_hole_of_a_former_member_is_a_hole(removed: House) -> None:
    removed.theirs.save()
    answer = hand_in(removed)
    assert [r["why"]["code"] for r in answer["results"]] == ["pending_review"] * 5 + ["hole"]
    assert uuid.UUID(answer["results"][-1]["op"])
