"""S7, S10 and S13: one counter, one row a record, pages without holes; P4, P5."""

import ast
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from django.db import IntegrityError, connection, models, transaction
from django.test.utils import CaptureQueriesContext

import lawn.models as lawn_models
from lawn.book.sync import feed, pull, record
from lawn.models import Change, Household, Zone
from tests.factories import ZoneFactory
from tests.sync.conftest import House, phone_of

ROOT = Path(__file__).resolve().parents[2]
ZONE = "0190aaaa-0000-7000-8000-000000000001"


def test_s10_one_change_row_a_record_moved_to_the_newest_place(house: House) -> None:
    before = Change.objects.count()
    for text in ("One", "Two", "Three"):
        house.mine.write("zone", ZONE, name={"name": text})
        house.mine.sync()
    row = Change.objects.get(t="zone", id=ZONE)
    assert Change.objects.count() == before + 1
    assert row.seq == house.household.seq


def test_s10_p05_pages_follow_one_another_without_holes(house: House) -> None:
    for number in range(25):
        house.mine.log("observation", text=f"Seen {number}")
    house.mine.sync()
    seen, cursor, pages = [], 0, 0
    while True:
        answer = house.theirs.post({**house.theirs.request(limit=7), "cursor": cursor})
        assert all(cursor < change["seq"] <= answer["cursor"] for change in answer["changes"])
        assert len(answer["changes"]) <= 7
        seen += [change["seq"] for change in answer["changes"]]
        cursor, pages = answer["cursor"], pages + 1
        if not answer["has_more"]:
            break
    assert seen == sorted(set(seen))
    assert set(seen) == set(Change.objects.values_list("seq", flat=True))
    assert (cursor, pages) == (answer["head"], 4)


def test_s10_a_phone_that_is_up_to_date_gets_nothing(house: House) -> None:
    house.mine.sync()
    answer = house.mine.sync()
    assert (answer["changes"], answer["has_more"], answer["cursor"]) == ([], False, answer["head"])


def test_s10_f13_a_record_edited_between_pages_comes_once_more_and_nothing_is_missed(house: House) -> None:
    house.mine.write("zone", ZONE, name={"name": "First"})
    for number in range(10):
        house.mine.log("observation", text=f"Seen {number}")
    house.mine.sync()
    house.theirs.take(house.theirs.post(house.theirs.request(limit=5)))
    house.mine.write("zone", ZONE, name={"name": "Edited between pages"})
    house.mine.sync()
    house.theirs.sync(limit=5)
    assert house.theirs.records == house.mine.records
    assert house.theirs.digest == house.theirs.answer["digest"]


def test_s11_a_cursor_ahead_of_the_book_is_told_to_begin_again(house: House) -> None:
    house.mine.sync()
    house.mine.cursor = house.household.seq + 50
    house.mine.take(house.mine.post(house.mine.request()))
    assert house.mine.answer["reset"] is True
    assert (house.mine.answer["changes"], house.mine.cursor, house.mine.answer["has_more"]) == ([], 0, True)
    assert house.mine.sync()["reset"] is False


def test_p04_the_digest_kept_row_by_row_equals_one_worked_out_whole(house: House) -> None:
    for number in range(5):
        house.mine.write("zone", ZONE, name={"name": f"Name {number}"})
        house.theirs.log("observation", text="Seen")
        assert house.mine.sync()["digest"] == house.mine.digest
        assert house.theirs.sync()["digest"] == house.theirs.digest
    assert house.mine.digest != house.theirs.digest or house.mine.cursor == house.theirs.cursor


def test_f52_a_row_silently_missing_shows_in_the_digest(house: House) -> None:
    entry = house.mine.log("observation", text="Seen")
    house.mine.sync()
    del house.mine.records[f"entry:{entry}"]
    assert house.mine.digest != house.mine.answer["digest"]


def test_p04_new_phone_of_an_old_household_gets_everything(house: House) -> None:
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    house.mine.log("mow", zone_ids=[ZONE])
    house.mine.sync()
    late = phone_of(house.member)
    late.sync()
    assert late.records == house.mine.records


def test_s07_the_counter_is_the_first_write_of_a_push(house: House) -> None:
    house.mine.log("mow")
    with CaptureQueriesContext(
        connection,
    ) as seen:
        house.mine.sync()
    writes = [q["sql"] for q in seen if q["sql"].split()[0] in ("INSERT", "UPDATE", "DELETE")]
    assert writes[0].startswith("UPDATE lawn_household SET seq = seq + ")


def test_s12_a_sync_without_ops_writes_nothing(house: House) -> None:
    house.mine.sync()
    with CaptureQueriesContext(connection) as seen:
        house.mine.sync()
    assert {q["sql"].split()[0] for q in seen} <= {"SELECT", "SAVEPOINT", "RELEASE"}


def test_s12_the_database_is_set_as_the_rule_says(house: House) -> None:
    if connection.vendor != "sqlite":
        return
    with connection.cursor() as cursor:
        found = {name: cursor.execute(f"PRAGMA {name}").fetchone()[0] for name in ("synchronous", "busy_timeout")}
        mode = cursor.execute("PRAGMA journal_mode").fetchone()[0]
    assert (found, mode) == ({"synchronous": 2, "busy_timeout": 20_000}, "wal")
    assert connection.transaction_mode == "IMMEDIATE"  # type: ignore[attr-defined]


def test_s07_the_tripwire_refuses_a_number_given_twice(house: House) -> None:
    taken = Change.objects.first()
    assert taken is not None
    with pytest.raises(IntegrityError), transaction.atomic():
        Change(household_id=taken.household_id, t="zone", id=ZONE, seq=taken.seq).save(force_insert=True)


def test_s07_numbers_taken_and_not_used_are_given_back(house: House) -> None:
    head = house.household.seq
    with feed.changing(house.household.id, 10) as open_feed:
        assert open_feed.touch("zone", ZoneFactory.create(household=house.household).id) == head + 1
    assert house.household.seq == head + 1


def test_s07_a_feed_gives_no_more_numbers_than_it_took(house: House) -> None:
    with pytest.raises(ValueError, match="more changes"), feed.changing(house.household.id, 0) as open_feed:
        open_feed.touch("zone", house.household.id)


def test_s07_an_attempt_that_fails_puts_numbers_and_digest_back(house: House) -> None:
    before = house.household

    def fail(open_feed: feed.Feed) -> None:
        with open_feed.attempt():
            open_feed.touch("zone", before.id)
            raise KeyError

    with feed.changing(before.id, 5) as open_feed, pytest.raises(KeyError):
        fail(open_feed)
    after = house.household
    assert (after.seq, after.digest_a, after.digest_b) == (before.seq, before.digest_a, before.digest_b)
    assert not Change.objects.filter(t="zone").exists()


def book_models() -> list[type[models.Model]]:
    found = [getattr(lawn_models, name) for name in lawn_models.__all__]
    # the mark is one row about the database server itself, and holds nothing of anybody's book
    # people, their sessions and the knocking at the doors belong to no household
    # what a weather service says of a rounded place is nobody's, and says nothing of who asked
    none = ("Person", "Household", "StoreMark", "Session", "SignIn", "ThrottleCount", "WeatherPlace")
    return [model for model in found if model.__name__ not in none]


# found before any household is known: who is this person, whose invitation is this token, whose calendar
DIRECTORY = {"member_by_person", "invitation primary key", "calendar_link_token_once"}


@pytest.mark.parametrize("model", book_models(), ids=lambda model: model.__name__)
def test_s13_every_key_and_index_leads_with_the_household(model: type[models.Model]) -> None:
    options: Any = model._meta
    leads = {index.name: index.fields[0] for index in options.indexes}
    leads |= {c.name: c.fields[0] for c in options.constraints if isinstance(c, models.UniqueConstraint)}
    primary = options.pk.field_names[0] if options.is_composite_pk else options.pk.name
    leads[f"{options.model_name} primary key"] = primary.removesuffix("_id")
    assert {name for name, field in leads.items() if field != "household"} <= DIRECTORY
    assert not [field.name for field in options.local_fields if field.db_index and not field.primary_key]


def test_p10_s13_only_access_asks_a_model_for_rows() -> None:
    """Isolation is proved once: elsewhere in the book and the API no household's rows are asked of a manager.

    A person belongs to no household: the accounts may ask for people.
    """
    asked = []
    for path in [*ROOT.glob("lawn/book/**/*.py"), *ROOT.glob("api/**/*.py")]:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Attribute) and node.attr in ("objects", "_default_manager", "_base_manager"):
                asked.append((path.name, ast.unparse(node.value)))
    assert {name for name, model in asked if model != "Person"} == {"access.py"}


def test_the_two_households_share_no_counter(house: House) -> None:
    other = Household.objects.exclude(id=house.household.id)
    ZoneFactory.create()
    assert Zone.objects.filter(household_id__in=other).exists()
    head = house.household.seq
    house.theirs.log("mow")
    house.theirs.sync()
    assert house.household.seq == head + 1
    assert set(other.values_list("seq", flat=True)) == {0}


def meanwhile(monkeypatch: pytest.MonkeyPatch, act: Callable[[], object]) -> None:
    """Let something happen while the next page is read: after its rows were found, before their records are."""
    wired = record.wired

    def read(*asked: Any) -> Any:
        monkeypatch.setattr(record, "wired", wired)
        act()
        return wired(*asked)

    monkeypatch.setattr(record, "wired", read)


def test_s10_p05_what_is_committed_while_a_page_is_read_comes_with_the_next(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    house.mine.log("mow")
    house.mine.sync()
    house.mine.write("zone", ZONE, name={"name": "Meanwhile"})
    meanwhile(monkeypatch, house.mine.sync)
    first = pull.page(house.household.id, 0)
    assert [change["id"] for change in pull.page(house.household.id, first.cursor).changes] == [ZONE]


@pytest.mark.django_db(transaction=True)
def test_s10_f08_a_page_shows_one_moment_though_another_phone_writes_meanwhile(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    house.mine.write("zone", ZONE, name={"name": "Before"})
    house.mine.sync()
    house.mine.write("zone", ZONE, name={"name": "Meanwhile"})

    def beside() -> None:
        with ThreadPoolExecutor(1) as other:
            other.submit(house.mine.sync).result()
            other.submit(lambda: connection.close()).result()

    meanwhile(monkeypatch, beside)
    shown = {change["id"]: change["groups"] for change in pull.page(house.household.id, 0).changes}
    assert shown[ZONE]["name"]["value"] == {"name": "Before"}
    assert house.mine.see("zone", ZONE, "name") == {"name": "Meanwhile"}
