"""Windows of the year's jobs on two climates whose dates come out by hand, and the marks as the pages print them.

The soil is a mean of eleven days weighted 11 (newest) to 1 (zheng_1993), so on a straight rise it is (11 - 1) / 3 days
behind the air; the mean of three days of it is one day more behind: 4 1/3 days.
"""

import pytest

from tests.properties.season.skeletons import skeleton, windows

# North: coldest on 1 January at -10.1 C, 0.2 C warmer each day until 2 July (place 183), then as much cooler.
NORTH = [-10.1 + 0.2 * min(day, 366 - day) for day in range(366)]
# South: coldest on 2 July at 4 C, 0.1 C a day, warmest on 1 January at 22.3 C.
SOUTH = [4 + 0.1 * abs(day - 183) for day in range(366)]


def edge(measure: str, way: str, mark: float, shift: int = 0) -> dict[str, object]:
    field = "edge_potential" if measure == "growth" else "edge_c"
    return {"measure": measure, "way": way, field: mark, "shift_days": shift}


# Places of a leap year: 1 April is 91, 1 June 152, 1 August 213, 1 September 244, 1 October 274.
def test_north_by_hand() -> None:
    jobs = [
        {"job": "pre", "opens": edge("soil", "up", 10), "closes": edge("soil", "up", 13)},
        {"job": "main", "opens": edge("soil", "down", 21), "closes": edge("soil", "down", 15)},
        {"job": "june", "opens": edge("air", "up", 20), "closes": edge("air", "up", 22, -7)},
        {"job": "first frost", "opens": {"measure": "frost", "shift_days": -45}, "closes": {"measure": "frost"}},
    ]
    found = windows(NORTH, jobs, "2028-01-01")  # a leap year, as the climate's
    # Air is 10 C at 100.5, 13 C at 115.5; the soil 4 1/3 later at 104.8 and 119.8, so first on places 105 and 120.
    assert (found["pre"]["opens"], found["pre"]["closes"]) == ("2028-04-15", "2028-04-30")
    # 21 C on the way down at 366 - 155.5 = 210.5, 15 C at 240.5; with 4 1/3 places 215 and 245.
    assert (found["main"]["opens"], found["main"]["closes"]) == ("2028-08-03", "2028-09-02")
    # A week of air is three days behind: 20 C at 150.5 + 3, place 154; 22 C at 163.5, place 164, a week before it 157.
    assert (found["june"]["opens"], found["june"]["closes"]) == ("2028-06-03", "2028-06-06")
    # 9 C on the way down at 366 - 95.5 = 270.5, three days on: place 274; 45 days before it 229.
    assert (found["first frost"]["opens"], found["first frost"]["closes"]) == ("2028-08-17", "2028-10-01")


# On the way up from 2 July: 10 C 60 days on (243) and 4 1/3: place 248 is 5 September; 12.8 C 28 days later.
def test_south_by_hand() -> None:
    jobs = [
        {"job": "summer grass", "opens": edge("soil", "up", 10), "closes": edge("soil", "up", 12.8)},
        {"job": "sow", "opens": edge("soil", "down", 18), "closes": edge("soil", "down", 12)},
        {"job": "high", "opens": {"measure": "month", "month": 6}, "closes": {"measure": "month", "month": 9}},
    ]
    found = windows(SOUTH, jobs, "2028-01-02")
    assert (found["summer grass"]["opens"], found["summer grass"]["closes"]) == ("2028-09-05", "2028-10-03")
    # 18 C on the way down 43 days after 1 January (place 43) and 4 1/3: place 48 is 18 February; 12 C 60 days later.
    assert (found["sow"]["opens"], found["sow"]["closes"]) == ("2028-02-18", "2028-04-18")
    # June to August of the north is December to February.
    assert found["high"]["opens"] in ("2027-12-01", "2028-12-01")


# The marks as printed, in °F: 50 to 55 (msu_2020), 53 to 55 (ncsu_2011) up to 57 (clemson_pc), 65 (uga_green),
# below 70 (uga_poa). A skeleton rounds them to half a degree C at most.
@pytest.mark.parametrize(
    ("key", "job", "opens_f", "closes_f"),
    [
        ("a", "pre_emergent", 50, 55),
        ("b", "pre_emergent", 50, 55),
        ("c", "pre_emergent", 53, 57),
        ("c", "feeds", 65, None),
        ("d", "feeds", 65, None),
        ("f", "warm_feeds", 65, None),
        ("f", "summer_grass_pre_emergent", 50, 55),
        ("c", "winter_grass_pre_emergent", 70, 70),
        ("f", "winter_grass_pre_emergent", 70, 70),
    ],
)
def test_marks_are_the_printed_ones(key: str, job: str, opens_f: float, closes_f: float | None) -> None:
    row = next(row for row in skeleton(key)["jobs"] if row["job"] == job)
    assert row["opens"]["edge_c"] == pytest.approx((opens_f - 32) / 1.8, abs=0.5)
    if closes_f is not None:
        assert row["closes"]["edge_c"] == pytest.approx((closes_f - 32) / 1.8, abs=0.5)


# illinois_n prints when each yearly total goes on: 1 lb early September; 2 lb and early May; 3 lb and late October to
# November, which soldat and umn_falln moved to mid October; 4 lb and mid June, slow-release.
@pytest.mark.parametrize(
    ("aim", "jobs"),
    [
        (1, {"main_feed"}),
        (2, {"main_feed", "spring_feed"}),
        (3, {"main_feed", "spring_feed", "last_feed"}),
        (4, {"main_feed", "spring_feed", "last_feed", "june_feed"}),
    ],
)
def test_the_year_of_a_cool_lawn_is_shared_out_as_printed(aim: int, jobs: set[str]) -> None:
    shares = {
        row["job"]: next(one["share"] for one in row["shares"] if one["aim_lb_kft2"] == aim)
        for row in skeleton("a")["jobs"]
        if row["sort"] == "feed"
    }
    assert {job: share * aim for job, share in shares.items() if share} == pytest.approx(dict.fromkeys(jobs, 1.0))
    assert next(row for row in skeleton("a")["jobs"] if row["job"] == "june_feed")["slow_only"]
