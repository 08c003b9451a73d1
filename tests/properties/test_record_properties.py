"""What must hold for every book: the order entries arrive in never matters, and nothing is counted twice."""

import math
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from lawn.engine.core.dates import day_number, day_text, moment_s
from lawn.engine.core.errors import EngineError
from tests.properties.asking import value

Json = dict[str, Any]
MOMENT = st.builds(
    lambda month, day, hour, offset: f"2026-{month:02d}-{day:02d}T{hour:02d}:00:00{offset}",
    st.integers(1, 12),
    st.integers(1, 28),
    st.integers(0, 23),
    st.sampled_from(["Z", "+02:00", "-08:00"]),
)
FIELDS = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["mow", "spread", "pass", "stock_count", "tray_test"]),
        "occurred_at": MOMENT,
        "zone_ids": st.lists(st.sampled_from("abc"), min_size=1, max_size=3, unique=True),
        "void": st.booleans(),
        "product_id": st.sampled_from("pq"),
        "used_kg": st.floats(0, 20),
        "left_kg": st.floats(0, 40),
        "n": st.one_of(st.none(), st.floats(0, 0.005)),
    }
)


def entries(rows: list[Json]) -> list[Json]:
    """Entries with ids of their own, walks with nitrogen on each zone."""
    found = []
    for at, row in enumerate(rows):
        entry = {key: item for key, item in row.items() if key != "n"} | {"id": f"e{at}"}
        if entry["kind"] == "spread":
            entry["zones"] = [{"zone_id": zone, "n_kg_m2": row["n"]} for zone in entry["zone_ids"]]
        found.append(entry)
    return found


BOOK = st.lists(FIELDS, max_size=12).map(entries)


@given(BOOK, st.randoms())
def test_the_order_of_arrival_never_matters(book: list[Json], mix: Any) -> None:
    before = value("record.totals", entries=book, today="2026-06-15")
    mixed = list(book)
    mix.shuffle(mixed)
    assert value("record.totals", entries=mixed, today="2026-06-15") == before


@given(BOOK)
def test_totals_are_what_a_plain_reading_of_the_book_gives(book: list[Json]) -> None:
    got = value("record.totals", entries=book, today="2026-06-15")
    # dated more than a day ahead of the day asked about, it has not been done
    live = [entry for entry in book if not entry["void"] and entry["occurred_at"][:10] <= "2026-06-16"]
    for zone in "abc":
        here = [entry for entry in live if zone in entry["zone_ids"]]
        row = got["zones"].get(zone)
        assert (row is not None) == bool(here)
        if row is None:
            continue
        fed = [e["zones"][0]["n_kg_m2"] or 0.0 for e in here if e["kind"] == "spread"]
        assert math.isclose(row["n_year_kg_m2"], math.fsum(fed), rel_tol=1e-12, abs_tol=1e-15)
        assert row["passes"] == sum(1 for e in here if e["kind"] == "pass")
        assert (row["last_mow"] is None) == (not any(e["kind"] == "mow" for e in here))


@given(BOOK, st.integers(0, 11))
def test_striking_an_entry_out_is_as_if_it_had_never_been(book: list[Json], at: int) -> None:
    struck = [{**entry, "void": entry["void"] or place == at} for place, entry in enumerate(book)]
    without = [entry for place, entry in enumerate(book) if place != at]
    today = "2026-06-15"
    assert value("record.totals", entries=struck, today=today) == value("record.totals", entries=without, today=today)


@given(st.integers(1, 60), st.integers(0, 200))
def test_a_zone_goes_from_ok_to_due_to_overdue_and_never_back(every: int, since: int) -> None:
    last = date(2026, 1, 1)
    states = []
    for days in (since, since + 1):
        zones = [{"id": "z", "last_mow": last.isoformat(), "mow_every_days": every}]
        row = value("record.due", zones=zones, today=(last + timedelta(days=days)).isoformat())["zones"]["z"]
        states.append(["ok", "due", "overdue"].index(row["state"]))
        assert row["due_on"] == (last + timedelta(days=every)).isoformat()
        assert row["overdue_days"] == max(0, days - every)
    assert states[0] <= states[1]


@given(st.dates(date(1900, 1, 1), date(2200, 12, 31)))
@example(date(1900, 2, 28))
@example(date(2000, 2, 29))
@example(date(2100, 3, 1))
@example(date(2200, 12, 31))
def test_days_are_counted_as_pythons_own_calendar_counts_them(day: date) -> None:
    assert day_number("today", day.isoformat()) == day.toordinal()
    assert day_text(day.toordinal()) == day.isoformat()


@given(st.integers(1900, 2200), st.integers(0, 13), st.integers(0, 32))
@example(1900, 2, 29)
@example(2000, 2, 30)
def test_only_days_of_pythons_own_calendar_are_dates(year: int, month: int, day: int) -> None:
    written = f"{year:04d}-{month:02d}-{day:02d}"
    try:
        wanted = date(year, month, day).toordinal()
    except ValueError:
        with pytest.raises(EngineError):
            day_number("today", written)
    else:
        assert day_number("today", written) == wanted


@given(st.datetimes(datetime(1900, 1, 2), datetime(2200, 12, 30)), st.integers(-14 * 60, 14 * 60))
def test_instants_are_pythons_own(at: datetime, minutes: int) -> None:
    zone = timezone(timedelta(minutes=minutes))
    moment = at.replace(tzinfo=zone)
    since = moment - datetime(1, 1, 1, tzinfo=UTC)
    assert moment_s("occurred_at", moment.isoformat()) == pytest.approx(since.total_seconds() + 86400, abs=1e-4)


DAYS = st.dates(date(2025, 1, 1), date(2028, 12, 31))


@given(st.lists(st.tuples(DAYS, st.sampled_from([0.001, 0.0025, 0.004])), max_size=8), DAYS)
def test_the_two_totals_of_nitrogen_agree_whatever_is_dated_when(feeds: list[tuple[date, float]], today: date) -> None:
    """A feed later this year counted in the book's total and not in the ledger."""
    book = [
        {
            "id": f"w{at}",
            "kind": "spread",
            "occurred_at": f"{day.isoformat()}T12:00:00Z",
            "zone_ids": ["z"],
            "zones": [{"zone_id": "z", "n_kg_m2": n_kg_m2}],
        }
        for at, (day, n_kg_m2) in enumerate(feeds)
    ]
    rows = [{"date": day.isoformat(), "zone": "z", "n_kg_m2": n_kg_m2} for day, n_kg_m2 in feeds]
    told = value("record.totals", entries=book, today=today.isoformat())
    zone = told["zones"].get("z", {"n_year_kg_m2": 0.0})
    ledger = value("feeding.ledger", entries=rows, zone="z", today=today.isoformat(), ceilings={})
    assert math.isclose(zone["n_year_kg_m2"], ledger["n_year_kg_m2"], rel_tol=1e-12, abs_tol=1e-15)
    done = [n for day, n in feeds if day.year == today.year and day <= today + timedelta(days=1)]
    assert math.isclose(zone["n_year_kg_m2"], math.fsum(done), rel_tol=1e-12, abs_tol=1e-15)


@given(BOOK, st.integers(2, 800))
def test_an_entry_dated_ahead_changes_nothing_but_is_named(book: list[Json], days: int) -> None:
    today = date(2026, 6, 15)
    at = (today + timedelta(days=days)).isoformat() + "T10:00:00Z"
    later = [
        {"id": "mow", "kind": "mow", "occurred_at": at, "zone_ids": ["a"], "void": False},
        {"id": "count", "kind": "stock_count", "occurred_at": at, "product_id": "p", "left_kg": 3.0, "void": False},
    ]
    before = value("record.totals", entries=book, today=today.isoformat())
    after = value("record.totals", entries=book + later, today=today.isoformat())
    assert sorted(after.pop("ahead")) == sorted([*before.pop("ahead"), "count", "mow"])
    assert after == before
