"""S1 and S2 for a household's own weather: a month merges whole, another month is another record, nothing is lost."""

from typing import Any

import pytest

from lawn.contract import kinds
from lawn.models import Household, WeatherMonth
from lawn.weather import importing
from tests.factories import NOW
from tests.sync.conftest import House

MAY = "0190aaaa-0000-7000-8000-000000000005"
DAY: dict[str, Any] = {"date": "2026-05-01", "min_c": 4.0, "max_c": 14.0}


def month(*days: dict[str, Any]) -> dict[str, Any]:
    return {"month": "2026-05-01", "days": list(days)}


def test_days_of_a_month_reach_the_other_phones(house: House) -> None:
    house.mine.write("weather_month", MAY, days=month(DAY))
    house.mine.sync()
    house.theirs.sync()
    assert house.theirs.see("weather_month", MAY, "days") == month(DAY)


def test_s02_of_two_imports_of_one_month_the_later_stands_and_the_other_is_kept(house: House) -> None:
    house.mine.write("weather_month", MAY, days=month(DAY))
    house.mine.sync()
    house.theirs.sync()
    house.theirs.write("weather_month", MAY, days=month({**DAY, "max_c": 15.0}))
    house.mine.clock_ms += 5000
    house.mine.write("weather_month", MAY, days=month({**DAY, "max_c": 16.0}))
    for phone in (house.mine, house.theirs, house.mine, house.theirs):
        phone.sync()
    assert house.mine.records == house.theirs.records
    assert house.mine.see("weather_month", MAY, "days") == month({**DAY, "max_c": 16.0})
    lost = [one["body"]["lost"]["value"] for one in house.mine.all_of("conflict")]
    assert lost == [month({**DAY, "max_c": 15.0})]


@pytest.mark.parametrize(
    "days",
    [
        [],
        "none",
        [{"date": "2026-05-01"}, {"date": "2026-05-01"}],
        [{"date": "2026-05-01"}, {"date": "2026-06-01"}],
        [{"date": "2026-05-32"}],
        [{"date": "2026-05-01", "min_c": "cold"}],
        [{"date": "2026-05-01", "max_c": 61}],
        [{"date": "2026-05-01", "rain_mm": -1}],
        [["2026-05-01"]],
    ],
)
def test_days_that_no_table_could_say_are_refused(days: object) -> None:
    assert "days" in kinds.check_group("weather_month", "days", {"month": "2026-05-01", "days": days})


def test_a_climate_is_twelve_temperatures() -> None:
    good = {"monthly_mean_c": [1.0] * 12, "climate_from": "months"}
    assert kinds.check_group("household", "climate", good) == {}
    for bad in ([1.0] * 11, [1.0] * 11 + [99.0], [1.0] * 11 + [None], "warm"):
        assert "monthly_mean_c" in kinds.check_group("household", "climate", {**good, "monthly_mean_c": bad})


def test_the_commands_import_is_laid_over_what_is_there_day_by_day(house: House) -> None:
    member = house.keeper
    assert [one["s"] for one in importing.write(member, [DAY], "a.csv", NOW)] == ["applied"]
    more = [{"date": "2026-05-02", "rain_mm": 2.0}, {"date": "2026-06-01", "min_c": 8.0}]
    assert [one["s"] for one in importing.write(member, more, "b.csv", NOW)] == ["applied", "applied"]
    rows = {row.month: row.days for row in WeatherMonth.objects.all()}
    assert rows == {"2026-05-01": [DAY, more[0]], "2026-06-01": [more[1]]}
    house.theirs.sync()
    assert len(house.theirs.all_of("weather_month")) == 2
    assert Household.objects.get(id=member.household_id).forecast is None
