"""A3, A4: answers end at a megabyte, records and households have a measure; what does not fit stays on the phone."""

import gzip
import json
import uuid
from typing import Any

import pytest

from lawn.book.people import membership
from lawn.book.sync import apply, edit, pending_review, pull
from lawn.models import Conflict, Household, ParkedOp, Zone
from tests.factories import NOW
from tests.sync.conftest import House, phone_of, signed_in

ZONE = "0190aaaa-0000-7000-8000-0000000000a3"
HEAVY = {"call": "area.gps", "args": "m" * 200_000}  # the measurements of a very long spreading job
MOST = pull.MOST_BYTES + 300_000  # a page may end one record late, and there are braces round it


def heavy(house: House, count: int) -> list[str]:
    """A book of heavy zones, each a push of its own as it must be."""
    ids = [str(uuid.UUID(int=(7 << 76) + number)) for number in range(count)]
    for record_id in ids:
        house.mine.save(
            {"t": "zone", "id": record_id, "set": {"ground": {"area_m2": 40, "method": "gps", "measured": HEAVY}}}
        )
        house.mine.take(house.mine.post({**house.mine.request(), "cursor": 0, "limit": 1}))
    house.mine.cursor = 0
    return ids


def at(house: House, end: str) -> str:
    return house.path.replace("/sync", f"/{end}")


def test_a03_a_page_of_changes_ends_at_a_megabyte_and_says_that_more_follows(house: House) -> None:
    ids = heavy(house, 12)
    phone, pages = phone_of(house.member), 0
    client = signed_in(house.member)
    while True:
        answer = client.post(house.path, phone.request(), content_type="application/json")
        assert len(answer.content) <= MOST
        phone.take(answer.json())
        pages += 1
        if not phone.answer["has_more"]:
            break
    assert pages >= 3
    assert {row["id"] for row in phone.all_of("zone")} == set(ids)
    assert phone.digest == phone.answer["digest"]


def test_a03_a_page_of_a_whole_book_ends_at_a_megabyte_too(house: House) -> None:
    ids = heavy(house, 12)
    client, after, seen, pages = signed_in(house.member), None, [], 0
    while pages == 0 or after is not None:
        asked: dict[str, Any] = {"limit": 2000, **({"after": after} if after else {})}
        answer = client.get(at(house, "bootstrap"), asked)
        assert len(answer.content) <= MOST
        _, *records, last = map(json.loads, answer.content.splitlines())
        assert records
        seen += [row["id"] for row in records if row["t"] == "zone"]
        after, pages = last["after"], pages + 1
    assert sorted(seen) == sorted(ids)
    assert pages >= 3


def test_a03_a_heavy_bucket_is_parted_further_or_left_to_a_whole_fetch(house: House) -> None:
    ids = heavy(house, 8)
    client, todo, found = signed_in(house.member), [""], set()
    while todo:
        answer = client.get(at(house, "digest"), {"prefix": todo.pop()})
        assert len(answer.content) <= MOST
        bucket = answer.json()
        todo += [bucket["prefix"] + digit for digit, sums in bucket.get("children", {}).items() if sums["count"]]
        found |= {row["id"] for row in bucket.get("records", [])}
    assert set(ids) <= found


# --- what a record may hold ----------------------------------------------------------------------


def test_a04_fields_nobody_knows_have_a_measure_a_record(house: House) -> None:
    most = edit.MOST_UNKNOWN_BYTES
    small = house.mine.write("zone", ZONE, name={"name": "Verge", "newer": "x" * (most // 2)})
    more = house.mine.write("zone", ZONE, later={"said": "x" * (most // 2)})
    known = house.mine.write("zone", ZONE, cut={"cut_height_mm": 60})
    entry = house.mine.save(
        {"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "2026-05-01T18:30:00Z", "newer": "x" * most}}
    )
    house.mine.sync()
    said = {op["op"]: house.mine.results[op["op"]] for op in (small, more, known, entry)}
    assert [one["s"] for one in said.values()] == ["applied", "parked", "applied", "parked"]
    assert {one["why"]["code"] for one in said.values() if one["why"]} == {"too_much"}
    assert apply.said_by(ParkedOp.objects.get(op=more["op"]))["m"] == more["m"]


def test_a04_groups_have_a_measure_a_record_and_writes_an_op(house: House) -> None:
    groups = {f"newer{number}": {"a": number} for number in range(edit.MOST_GROUPS + 1)}
    many = house.mine.write("zone", ZONE, **groups)
    some = house.mine.write("zone", ZONE, **dict(list(groups.items())[:-5]))
    over = house.mine.write("zone", ZONE, **{f"more{number}": {} for number in range(9)})
    items = [
        {"t": "zone", "id": str(uuid.UUID(int=number)), "set": {"name": {"name": "Verge"}}}
        for number in range(edit.MOST_WRITES)
    ]
    wide = house.mine.save(*items)
    house.mine.sync()
    assert [house.mine.results[op["op"]]["s"] for op in (many, some, over, wide)] == [
        "parked", "applied", "parked", "parked",
    ]  # fmt: skip


def test_a04_a_record_heavy_from_before_can_still_be_changed(house: House) -> None:
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    house.mine.sync()
    Zone.objects.update(extra={"old": {"said": "x" * 300_000}})
    house.mine.write("zone", ZONE, name={"name": "Still changed"})
    assert house.mine.sync()["results"][0]["s"] == "applied"


def test_a03_one_push_makes_a_bounded_number_of_conflicts_and_the_rest_comes_with_the_next(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(apply, "MOST_CONFLICTS", 3)
    house.mine.write("zone", ZONE, name={"name": "First"})
    house.mine.sync()
    unseen = [{"t": "zone", "id": ZONE, "set": {"name": {"name": f"{n}"}}, "base": {"name": None}} for n in range(10)]
    ops = [house.theirs.save(item) for item in unseen]
    answer = house.theirs.post(house.theirs.request())
    assert len(answer["results"]) == answer["acked_dseq"] == Conflict.objects.count() == 3
    assert (answer["need_from"], answer["fork_detected"]) == (None, False)
    house.theirs.take(answer)
    house.theirs.sync()
    assert {house.theirs.results[op["op"]]["s"] for op in ops} == {"merged"}
    assert Conflict.objects.count() == 10


# --- what a household may hold -------------------------------------------------------------------


def test_a03_a_full_book_takes_no_more_says_what_to_do_and_goes_on_being_read(house: House, settings: Any) -> None:
    house.mine.log("mow")
    house.mine.sync()
    settings.BOOK_BYTES = Household.objects.get().taken_bytes + 100
    house.mine.log("observation", text="x" * 200)
    head = house.household.seq
    client = signed_in(house.keeper)
    answer = client.post(house.path, house.mine.request(), content_type="application/json")
    assert (answer.status_code, answer.json()["code"]) == (429, "book_full")
    assert "EVENFALL_BOOK_MEGABYTES" in answer.json()["message"]
    assert int(answer["Retry-After"]) >= 60
    assert house.household.seq == head
    pulled = client.post(house.path, {**house.mine.request(), "ops": []}, content_type="application/json")
    assert pulled.status_code == 200
    settings.BOOK_BYTES *= 10
    assert house.mine.sync()["results"][0]["s"] == "applied"


def test_a03_what_came_before_is_answered_though_the_book_is_full(house: House, settings: Any) -> None:
    house.mine.log("mow")
    request = house.mine.request()
    house.mine.post(request)
    settings.BOOK_BYTES = 1
    assert house.mine.post(request)["results"][0]["s"] == "duplicate"


# --- what is held --------------------------------------------------------------------------------


def removed_with(house: House, count: int, size: int) -> list[str]:
    """The member wrote entries, was removed, and then hands them in; return their ids in the order written."""
    ids = [house.theirs.log("observation", text="Seen", newer="x" * size) for _ in range(count)]
    membership.remove(house.keeper, house.member.id, NOW)
    return ids


def test_a03_former_members_hand_in_so_many_bytes_and_the_rest_stays_on_the_phone(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(apply, "MOST_PENDING_BYTES", 30_000)
    removed_with(house, 4, 12_000)
    client = signed_in(house.member)
    first = client.post(house.path, {**house.theirs.request(most=2)}, content_type="application/json")
    assert first.status_code == 200
    house.theirs.take(first.json())
    more = client.post(house.path, house.theirs.request(most=2), content_type="application/json")
    assert (more.status_code, more.json()["code"]) == (429, "too_many_pending")
    assert ParkedOp.objects.filter(pending=True).count() == 2


def test_a03_what_is_held_comes_in_pages_in_the_order_written(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pending_review, "MOST_BYTES", 30_000)
    ids = removed_with(house, 7, 9_000)
    while house.theirs.outbox:
        house.theirs.take(house.theirs.post(house.theirs.request(most=3)))
    client, after, seen, pages = signed_in(house.keeper), None, [], 0
    while pages == 0 or after is not None:
        answer = client.get(at(house, "pending-review"), {"after": after} if after else {})
        assert answer.status_code == 200
        assert len(answer.content) < 50_000
        page = answer.json()
        seen += [one["m"][0]["id"] for one in page["pending_review"]]
        after, pages = page["after"], pages + 1
        assert page["count"] == 7
    assert (seen, pages >= 3) == (ids, True)


def test_a03_a_place_among_what_is_held_that_is_none_is_refused_and_a_settled_one_is_gone_on_from(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pending_review, "MOST_BYTES", 1)
    ids = removed_with(house, 3, 10)
    house.theirs.take(house.theirs.post(house.theirs.request()))
    client = signed_in(house.keeper)
    first = client.get(at(house, "pending-review")).json()
    client.post(at(house, f"pending-review/{first['pending_review'][0]['id']}/decline"))
    second = client.get(at(house, "pending-review"), {"after": first["after"]}).json()
    assert [one["m"][0]["id"] for one in second["pending_review"]] == [ids[1]]
    for bad in ("x", "[]", str(uuid.uuid4()) + "\n"):
        assert client.get(at(house, "pending-review"), {"after": bad}).status_code == 400


def test_a_gzipped_page_holds_no_more_than_a_plain_one(house: House) -> None:
    heavy(house, 6)
    body = phone_of(house.member).request()
    answer = signed_in(house.member).post(
        house.path, body, content_type="application/json", headers={"accept-encoding": "gzip"}
    )
    assert len(gzip.decompress(answer.content)) <= MOST
