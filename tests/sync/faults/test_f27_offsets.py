"""F27, S6: zone offsets and daylight saving. A job's time is shown and summed by, and decides nothing in merging."""

import json
from datetime import UTC, date, datetime
from typing import Any

import pytest

from lawn.models import Conflict, Entry
from tests.folding import totals_of
from tests.sync.conftest import House, signed_in

ZONE = "0190aaaa-0000-7000-8000-000000000001"
PRODUCT = "0190bbbb-0000-7000-8000-000000000001"
# one moment, as phones in three places write it (ISO 8601-1:2019, 4.3.13: local time with its shift from UTC)
ONE_MOMENT = ("2026-05-01T18:30:00+02:00", "2026-05-01T16:30:00Z", "2026-05-01T22:15:00+05:45")
# Central Europe, 2026 (Directive 2000/84/EC): clocks go on at 01:00 UTC on 29 March, back at 01:00 UTC on 25 October
BEFORE_BACK, AFTER_BACK = "2026-10-25T02:30:00+02:00", "2026-10-25T02:10:00+01:00"


def settle(house: House) -> None:
    """Both sync until quiet."""
    for phone in (house.mine, house.theirs, house.mine, house.theirs):
        phone.sync()


def newest_first(house: House) -> list[str]:
    """The entries' ids in the order in which a new phone is given them."""
    answer: Any = signed_in(house.keeper).get(house.path.replace("/sync", "/bootstrap"))
    rows = [json.loads(line) for line in answer.getvalue().decode().splitlines()]
    return [row["id"] for row in rows if row.get("t") == "entry"]


def test_f27_s06_one_moment_written_with_other_offsets_stays_as_written_and_is_one_moment(house: House) -> None:
    ids = [house.mine.log("mow", zone_ids=[ZONE], occurred_at=text) for text in ONE_MOMENT]
    settle(house)
    written = [house.theirs.records[f"entry:{one}"]["body"]["occurred_at"] for one in ids]
    assert tuple(written) == ONE_MOMENT
    assert set(Entry.objects.values_list("occurred_at", flat=True)) == {datetime(2026, 5, 1, 16, 30, tzinfo=UTC)}
    # the same instant is a tie, which their ids decide, for every phone alike
    assert newest_first(house) == sorted(ids, reverse=True)


def test_f27_the_hour_that_comes_twice_is_told_apart_by_its_offset(house: House) -> None:
    """02:10 after the clocks went back is later than 02:30 before, although it reads earlier."""
    after = house.mine.log("mow", occurred_at=AFTER_BACK)
    before = house.theirs.log("mow", occurred_at=BEFORE_BACK)
    settle(house)
    assert newest_first(house) == [after, before]
    assert house.mine.records == house.theirs.records


def test_f27_the_hour_that_is_left_out_takes_no_time(house: House) -> None:
    last, first = "2026-03-29T01:59:00+01:00", "2026-03-29T03:01:00+02:00"
    ids = [house.mine.log("mow", occurred_at=text) for text in (first, last)]
    settle(house)
    assert newest_first(house) == ids
    times = sorted(Entry.objects.values_list("occurred_at", flat=True))
    assert (times[1] - times[0]).total_seconds() == 120


def test_f27_stock_is_summed_by_the_moment_and_not_by_what_the_clock_read(house: House) -> None:
    """A bag is counted before the clocks go back; 3 kg are spread after it, at a time that reads earlier."""
    walk = {"zone_ids": [ZONE], "product_id": PRODUCT, "used_kg": 3, "zones": [{"zone_id": ZONE, "n_kg_m2": 0.004}]}
    rest = {"aim": {}, "area_m2": 100, "target_kg_m2": 0.03, "sort": "fertilizer"}
    house.mine.log("spread", occurred_at=AFTER_BACK, **walk, **rest)
    house.theirs.log("stock_count", occurred_at=BEFORE_BACK, product_id=PRODUCT, left_kg=10)
    settle(house)
    totals = totals_of(house.keeper.household_id, date(2026, 11, 1))
    assert totals["products"][PRODUCT]["left_kg"] == 7


def test_f27_a_job_counts_for_the_day_its_person_wrote_down(house: House) -> None:
    """Late on New Year's Eve where it was done; in UTC the next year has begun."""
    house.mine.log("mow", zone_ids=[ZONE], occurred_at="2025-12-31T22:30:00-05:00")
    settle(house)
    assert totals_of(house.keeper.household_id, date(2026, 1, 2))["zones"][ZONE]["last_mow"] == "2025-12-31"


@pytest.mark.parametrize("later_write_says", ["1951-07-01T06:00:00-07:00", "2026-06-01T00:00:00+14:00"])
def test_f27_s06_of_two_times_given_at_once_the_later_written_stands_whatever_they_say(
    house: House, later_write_says: str
) -> None:
    """The stamps decide: neither the times themselves, their offsets, nor which arrives last."""
    entry = house.mine.log("mow", occurred_at=ONE_MOMENT[0])
    settle(house)
    house.mine.clock_ms += 60_000
    house.mine.write("entry", entry, when={"occurred_at": later_write_says})
    house.theirs.write("entry", entry, when={"occurred_at": ONE_MOMENT[2]})
    settle(house)
    assert house.mine.records == house.theirs.records
    assert house.theirs.see("entry", entry, "when") == {"occurred_at": later_write_says}
    assert Entry.objects.get().occurred_at == datetime.fromisoformat(later_write_says)
    assert Conflict.objects.get().lost["value"] == {"occurred_at": ONE_MOMENT[2]}


def test_f27_s06_the_same_time_with_another_offset_is_a_change_like_any_other(house: House) -> None:
    """Whoever saw the first replaces it; nothing is dropped because the moment is the same."""
    entry = house.mine.log("mow", occurred_at=ONE_MOMENT[0])
    settle(house)
    house.theirs.write("entry", entry, when={"occurred_at": ONE_MOMENT[1]})
    settle(house)
    house.mine.write("entry", entry, when={"occurred_at": ONE_MOMENT[2]})
    settle(house)
    assert house.theirs.see("entry", entry, "when") == {"occurred_at": ONE_MOMENT[2]}
    assert house.theirs.records[f"entry:{entry}"]["body"]["occurred_at"] == ONE_MOMENT[0]
    assert Conflict.objects.count() == 0
