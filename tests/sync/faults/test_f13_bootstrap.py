"""The bootstrap: a whole book in pages that may be interrupted (F51) and edited in between (F13)."""

import gzip
import json
import uuid
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from lawn.contract import kinds
from tests.factories import KeeperFactory
from tests.sync.conftest import House, phone_of, signed_in
from tests.sync.phone import Phone

ZONE = "0190aaaa-0000-7000-8000-000000000001"
PHOTO_SHA = "a" * 64


class Boot:
    """A phone that takes a whole book as sync.md says, a page at a time."""

    def __init__(self, house: House, limit: int = 7) -> None:
        self.phone = phone_of(house.member)
        self._client, self._path = signed_in(house.member), house.path.replace("/sync", "/bootstrap")
        self._limit = limit
        self.after: str | None = None
        self.head: int | None = None
        self.order: list[str] = []

    def page(self) -> bool:
        """Store one page; return whether more follow."""
        asked: dict[str, str | int] = {"limit": self._limit, **({"after": self.after} if self.after else {})}
        response = self._client.get(self._path, asked)
        assert (response.status_code, response["Content-Type"]) == (200, "application/x-ndjson")
        first, *records, last = (json.loads(line) for line in response.content.splitlines())
        assert set(first) == {"epoch", "schema", "head", "limit"}
        assert len(records) <= self._limit
        self.head = first["head"] if self.head is None else self.head
        for row in records:
            self.phone.records[f"{row['t']}:{row['id']}"] = row
            self.order.append(f"{row['t']}:{row['id']}")
        self.after = last["after"]
        return self.after is not None

    def finish(self) -> Phone:
        """Take the pages that are left, then pull from the first page's head."""
        while self.page():
            pass
        assert self.head is not None
        self.phone.cursor = self.head
        self.phone.sync()
        return self.phone


def fill(house: House, entries: int = 30) -> list[str]:
    """A book with a zone, a conflict and entries; return the ids of the entries, oldest first."""
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    house.mine.sync()
    house.theirs.sync()
    house.mine.write("zone", ZONE, name={"name": "By me"})
    house.theirs.write("zone", ZONE, name={"name": "By them"})
    house.mine.sync()
    house.theirs.sync()
    ids = []
    for day in range(entries):
        ids.append(house.mine.log("mow", zone_ids=[ZONE]))
        house.mine.outbox[-1]["m"][0]["body"]["occurred_at"] = f"2026-04-{day % 28 + 1:02d}T08:00:{day:02d}+02:00"
    house.mine.sync()
    return ids


def test_f51_a_bootstrap_gives_the_whole_book_as_pulling_does(house: House) -> None:
    fill(house)
    house.mine.sync()
    phone = Boot(house).finish()
    assert phone.records == house.mine.records
    assert phone.digest == phone.answer["digest"]


def test_f51_settings_come_first_then_entries_from_the_newest_on_then_conflicts(house: House) -> None:
    fill(house)
    boot = Boot(house)
    boot.finish()
    ts = [one.split(":")[0] for one in boot.order]
    first, last = ts.index("entry"), len(ts) - ts[::-1].index("entry")
    assert set(ts[:first]) == {"household", "member", "zone"}
    assert set(ts[last:]) == {"conflict"}
    times = [boot.phone.records[one]["body"]["occurred_at"] for one in boot.order[first:last]]
    assert times == sorted(times, reverse=True)
    assert len(boot.order) == len(set(boot.order))


@pytest.mark.parametrize("pages", range(1, 6))
def test_f51_a_bootstrap_interrupted_after_any_page_goes_on_there(house: House, pages: int) -> None:
    """The app is closed after some pages; another process goes on from the token that was stored with them."""
    fill(house)
    early = Boot(house)
    for _ in range(pages):
        assert early.page()
    late = Boot(house)
    late.after, late.head, late.phone.records = early.after, early.head, early.phone.records
    phone = late.finish()
    house.mine.sync()
    assert phone.records == house.mine.records
    assert not set(early.order) & set(late.order)


@pytest.mark.parametrize("pages", range(1, 6))
def test_f13_what_is_written_between_pages_is_neither_missed_nor_old(house: House, pages: int) -> None:
    """A zone renamed, an entry re-dated to either end, one struck out and new ones, between any two pages."""
    ids = fill(house)
    boot = Boot(house)
    for _ in range(pages):
        boot.page()
    house.mine.write("zone", ZONE, name={"name": "Renamed between pages"})
    house.mine.write("entry", ids[0], when={"occurred_at": timezone.now().isoformat(timespec="seconds")})
    house.mine.write("entry", ids[-1], when={"occurred_at": "2020-01-01T08:00:00+01:00"})
    house.mine.write("entry", ids[15], void={"void": True})
    house.mine.log("mow", zone_ids=[ZONE])
    house.mine.sync()
    phone = boot.finish()
    assert phone.records == house.mine.records
    assert phone.digest == phone.answer["digest"]


def test_f13_entries_of_one_moment_are_given_once_each(house: House) -> None:
    for _ in range(20):
        house.mine.log("mow")  # all of them at one and the same occurred_at
    house.mine.sync()
    boot = Boot(house, limit=3)
    assert boot.finish().records == house.mine.records
    assert len(boot.order) == len(set(boot.order))


def test_f51_a_page_holds_fewer_records_that_carry_a_picture(house: House) -> None:
    for number in range(4):
        photo = {"of": "zone", "of_id": ZONE, "sha256": PHOTO_SHA, "width_px": 10, "height_px": 10, "size_bytes": 99}
        house.mine.write(
            "photo", f"0190dddd-0000-7000-8000-{number:012x}", photo={**photo, "taken_at": "2026-05-01T08:00Z"}
        )
    house.mine.sync()
    assert {result["s"] for result in house.mine.results.values()} == {"applied"}
    boot = Boot(house, limit=20)
    pages = 0
    while boot.page():
        pages += 1
    assert pages >= 4
    assert sum(one.startswith("photo:") for one in boot.order) == 4
    late = phone_of(house.member)
    answer = late.post(late.request(limit=20))
    assert sum(change["t"] == "photo" for change in answer["changes"]) <= 1
    assert answer["has_more"] is True
    late.sync(limit=20)
    assert len(late.all_of("photo")) == 4


@pytest.mark.parametrize(
    "token", ["x", "!!", "W10", "eyJ9", "WyJ6b25lIiwieCJd", "WyJkcmFpbiIsMV0", "\u00e9", "a" * 3000]
)
def test_f16_a_token_that_is_none_of_ours_is_400_naming_it(house: House, token: str) -> None:
    response = signed_in(house.member).get(house.path.replace("/sync", "/bootstrap"), {"after": token})
    assert (response.status_code, list(response.json()["fields"])) == (400, ["after"])


def test_p10_f50_a_token_of_another_household_shows_only_ones_own(house: House) -> None:
    fill(house)
    boot = Boot(house)
    boot.page()
    boot.page()
    stranger = KeeperFactory.create()
    path = f"/api/v1/households/{stranger.household_id}/bootstrap"
    lines = signed_in(stranger).get(path, {"after": boot.after or ""}).content.splitlines()
    assert [json.loads(line).get("t") for line in lines[1:-1]] == []


def test_a_bootstrap_is_gzipped_where_accepted_and_writes_nothing(house: House) -> None:
    fill(house)
    client = signed_in(house.member)
    client.get(house.path.replace("/sync", "/digest"))
    with CaptureQueriesContext(connection) as seen:
        response = client.get(house.path.replace("/sync", "/bootstrap"), headers={"accept-encoding": "gzip"})
    assert {q["sql"].split()[0] for q in seen} <= {"SELECT", "SAVEPOINT", "RELEASE"}
    assert response["Content-Encoding"] == "gzip"
    first: dict[str, Any] = json.loads(gzip.decompress(response.content).splitlines()[0])
    assert first["schema"] == kinds.schema()
    assert uuid.UUID(first["epoch"]) == house.household.epoch


def test_f51_many_settings_of_one_kind_are_all_given_over_pages(house: House) -> None:
    """Written in the order of their ids from the last to the first, so that no order but the token's own will do."""
    zones = [f"0190aaaa-0000-7000-8000-{number:012d}" for number in range(20)]
    for one in reversed(zones):
        house.mine.write("zone", one, name={"name": one[-2:]})
    house.mine.sync()
    boot = Boot(house)
    boot.finish()
    assert [one for one in boot.order if one.startswith("zone:")] == [f"zone:{one}" for one in zones]
