"""What must hold of every plan: the rules as a plain reading has them, in whatever order jobs arrive."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawn.engine.limits.found import LOOSENS, SAYS
from tests.handbook.test_limits import LAWN, rules
from tests.properties.asking import value

Json = dict[str, Any]
DAY = st.dates(date(2025, 1, 1), date(2026, 12, 31))
FEED = st.fixed_dictionaries(
    {"date": DAY.map(str), "n_kg_m2": st.floats(0, 0.004), "slow_n_share": st.sampled_from([0.0, 0.5, 1.0])},
)
FEEDS = st.lists(FEED, max_size=8)
QUICK, DAYS, YEAR = 0.0025, 28, 0.01
PLAIN = [
    {"kind": "quick_once", "most_kg_m2": QUICK},
    {"kind": "quick_days", "over_days": DAYS},
    {"kind": "year", "most_kg_m2": YEAR},
]


def named(feeds: list[Json]) -> list[Json]:
    return [{"id": f"j{at}", "zone": "z"} | one for at, one in enumerate(feeds)]


def found(jobs: list[Json], rows: list[Json], **more: Any) -> set[tuple[str, str]]:
    answer = value("limits.check", jobs=jobs, zones=[LAWN], rules=rows, **more)
    return {(one["job"], one["kind"]) for one in answer["breaches"]}


def quick(one: Json) -> float:
    return float(one["n_kg_m2"] * (1 - one["slow_n_share"]))


@given(FEEDS)
def test_quick_nitrogen_and_the_year_are_added_as_a_plain_reading_adds_them(feeds: list[Json]) -> None:
    jobs = sorted(named(feeds), key=lambda one: (one["date"], one["id"]))
    broken = found(jobs, PLAIN)
    for at, job in enumerate(jobs):
        day = date.fromisoformat(job["date"])
        before = [(day - date.fromisoformat(one["date"]), one) for one in jobs[: at + 1]]
        month = sum(quick(one) for ago, one in before if ago < timedelta(DAYS))
        year = sum(one["n_kg_m2"] for ago, one in before if ago < timedelta(365))
        told = {kind for one, kind in broken if one == job["id"]}
        if abs(month - QUICK) > 1e-9 and quick(job):
            assert bool(told & {"quick_once", "quick_days"}) == (month > QUICK)
        if abs(year - YEAR) > 1e-9 and job["n_kg_m2"]:
            # a calendar year is part of the 365 days before its end, but for the last day of a leap year
            assert ("year" in told) == (year > YEAR)


@given(FEEDS, st.randoms())
def test_the_order_in_which_jobs_arrive_does_not_matter(feeds: list[Json], chance: Any) -> None:
    jobs = [job for at, job in enumerate(named(feeds)) if job["date"] not in {one["date"] for one in feeds[:at]}]
    mixed = list(jobs)
    chance.shuffle(mixed)
    assert found(jobs, rules()) == found(mixed, rules())


@given(FEEDS, FEED)
def test_one_job_more_never_makes_another_right(feeds: list[Json], more: Json) -> None:
    jobs = [job for job in named(feeds) if job["date"] != more["date"]]
    amounts = {"quick_once", "all_once", "year", "closed"}
    before = {one for one in found(jobs, rules()) if one[1] in amounts}
    assert before <= found([*jobs, {"id": "more", "zone": "z"} | more], rules())


@settings(max_examples=60)
@given(FEEDS, st.sampled_from(["us_md", "us_nj", "us_mn", "us_fl_marion", "us_ny_suffolk", "us_vt"]))
def test_what_is_wrong_at_a_place_is_wrong_where_nobody_knows_the_place(feeds: list[Json], place: str) -> None:
    here = found(
        named(feeds), [row for row in rules(place) if row["kind"] not in ("slow_least", "quick_days", "all_days")]
    )
    jobs = {job for job, _ in here}
    assert jobs <= {job for job, _ in found(named(feeds), rules())}


@given(FEEDS)
def test_a_job_moved_to_the_day_it_is_right_from_is_right_by_that_rule(feeds: list[Json]) -> None:
    jobs = named(feeds[:2])
    answer = value("limits.check", jobs=jobs, zones=[LAWN], rules=rules())
    for one in answer["breaches"]:
        if one["right_from"] is None or one["kind"] in ("spacing_quick", "spacing_slow"):
            continue
        moved = [job | ({"date": one["right_from"]} if job["id"] == one["job"] else {}) for job in jobs]
        assert (one["job"], one["kind"]) not in found(moved, rules())


MONTH_DAY = st.dates(date(2024, 1, 1), date(2024, 12, 31)).map(lambda day: f"{day:%m-%d}")  # a leap year has them all


def closed_on(day: date, rows: list[tuple[str, str]]) -> bool:
    """Whether a day lies in a closed time, told by walking the time from its first day to its last."""
    for first, last in rows:
        inside = [f"{date(2024, 1, 1) + timedelta(at):%m-%d}" for at in range(366)]
        begin, end = inside.index(first), inside.index(last)
        span = inside[begin : end + 1] if begin <= end else inside[begin:] + inside[: end + 1]
        if f"{day:%m-%d}" in span:
            return True
    return False


@settings(max_examples=60)
@given(st.lists(st.tuples(MONTH_DAY, MONTH_DAY), min_size=1, max_size=3), DAY)
def test_a_closed_job_is_right_from_the_first_open_day_after_it(rows: list[tuple[str, str]], day: date) -> None:
    closed = [{"kind": "closed", "from": first, "to": last} for first, last in rows]
    job = {"id": "j", "zone": "z", "date": str(day), "n_kg_m2": 0.001}
    told = value("limits.check", jobs=[job], zones=[LAWN], rules=closed)["breaches"]
    assert bool(told) == closed_on(day, rows)
    if told:
        after = (day + timedelta(ahead) for ahead in range(1, 1100))
        right = next((str(one) for one in after if not closed_on(one, rows)), None)
        assert told[0]["right_from"] == right


@pytest.mark.parametrize("words", [*[row[2] for row in SAYS.values()], *LOOSENS.values()])
def test_a_sentence_is_short_plain_and_says_first_what_to_do(words: str) -> None:
    parts = [part for part in words.split(". ") if part]
    assert 1 <= len(parts) <= 3
    assert words.endswith(".")
    assert ";" not in words
    assert all(len(part.split()) <= 16 for part in parts), words
    assert not {"aim", "sort", "kg", "lb", "tracks"} & set(words.lower().replace(".", "").split())
