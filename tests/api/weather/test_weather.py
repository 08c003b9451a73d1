"""What a household hears of its weather: off until a keeper says so, asked once, whole whatever the service does."""

import json
import threading
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from lawn.models import Household, WeatherPlace
from lawn.weather import provider, series
from lawn.weather.place import place_of
from tests.api.conftest import Cast
from tests.api.weather.outside import Answer, Asked, Outside, daily, good, says
from tests.sync.conftest import phone_of

Serve = Callable[[Answer], Outside]


@pytest.fixture
def serve(settings: Any) -> Iterator[Serve]:
    """Starts a service that answers as told, and has the server ask it."""
    started: list[Outside] = []

    def begin(answer: Answer) -> Outside:
        started.append(Outside(answer))
        settings.WEATHER = settings.WEATHER_ARCHIVE = started[-1].url
        return started[-1]

    yield begin
    for one in started:
        one.shutdown()
        one.server_close()


@pytest.fixture
def placed(cast: Cast) -> Cast:
    """The cast with a place and the forecast on."""
    Household.objects.filter(id=cast.ours.id).update(latitude_deg=41.6449, longitude_deg=-70.0999, forecast=True)
    return cast


def ask(cast: Cast, since: str = "", **headers: str) -> Any:
    return cast.member.get(f"/api/v1/households/{cast.ours.id}/weather?since={since}", **headers)


def told(cast: Cast, since: str = "") -> dict[str, Any]:
    answer = ask(cast, since)
    assert answer.status_code == 200, answer.content
    found: dict[str, Any] = answer.json()
    return found


def later(hours: float) -> None:
    """Make what was asked so much older."""
    for row in WeatherPlace.objects.all():
        assert row.tried_at is not None
        WeatherPlace.objects.filter(pk=row.pk).update(tried_at=row.tried_at - timedelta(hours=hours))


def test_nothing_is_asked_before_a_keeper_has_turned_it_on(cast: Cast, serve: Serve) -> None:
    outside = serve(good)
    Household.objects.filter(id=cast.ours.id).update(latitude_deg=41.6, longitude_deg=-70.1)
    assert (told(cast)["state"], outside.asked) == ("not_on", [])


def test_nothing_is_asked_where_the_server_has_it_off(placed: Cast) -> None:
    assert told(placed)["state"] == "off"


def test_nothing_is_asked_without_a_place(cast: Cast, serve: Serve) -> None:
    outside = serve(good)
    Household.objects.filter(id=cast.ours.id).update(forecast=True, latitude_deg=41.6)
    assert (told(cast)["state"], outside.asked) == ("no_place", [])


def test_the_service_hears_a_place_rounded_to_a_tenth_of_a_degree_and_nothing_else(placed: Cast, serve: Serve) -> None:
    outside = serve(good)
    found = told(placed)
    assert found["place"] == {"latitude_deg": 41.6, "longitude_deg": -70.1}
    assert len(outside.asked) == 1
    asked = outside.asked[0]
    assert "latitude=41.6&longitude=-70.1&" in asked
    for private in (str(placed.ours.id), "Alder", "644", "999"):
        assert private not in asked


def test_days_come_with_their_age_and_what_is_new_since_a_cursor(placed: Cast, serve: Serve) -> None:
    serve(good)
    found = told(placed)
    assert (found["state"], found["trouble"], found["whole"], len(found["days"])) == ("known", "", True, 3)
    assert found["days"][0] == {
        "date": (date.today() - timedelta(days=1)).isoformat(),
        "min_c": 4.0, "max_c": 14.0, "rain_mm": 1.5, "et0_mm": 2.0, "wind_m_s": 3.0,
    }  # fmt: skip
    assert timezone.now() - datetime.fromisoformat(found["fetched_at"]) < timedelta(minutes=5)
    again = told(placed, found["cursor"])
    assert (again["whole"], again["days"]) == (False, [])


def test_only_changed_days_come_again(placed: Cast, serve: Serve) -> None:
    serve(good)
    first = told(placed)
    serve(says(daily(date.today() - timedelta(days=1), 3, temperature_2m_max=[14.0, 14.0, 19.0])))
    later(4)
    again = told(placed, first["cursor"])
    assert [(day["date"], day["max_c"]) for day in again["days"]] == [
        ((date.today() + timedelta(days=1)).isoformat(), 19.0)
    ]
    assert len(told(placed)["days"]) == 3


def test_a_validator_saves_the_answer(placed: Cast, serve: Serve) -> None:
    serve(good)
    first = ask(placed)
    again = ask(placed, first.json()["cursor"], **{"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.content) == (304, b"")
    later(4)
    newer = ask(placed, first.json()["cursor"], **{"If-None-Match": first.headers["ETag"]})
    assert newer.status_code == 200, "the age of what is known is news too"


def test_the_service_is_asked_once_in_three_hours_whoever_asks(placed: Cast, serve: Serve) -> None:
    outside = serve(good)
    Household.objects.filter(id=placed.theirs.id).update(latitude_deg=41.62, longitude_deg=-70.13, forecast=True)
    told(placed)
    told(placed)
    assert placed.stranger.get(f"/api/v1/households/{placed.theirs.id}/weather").json()["state"] == "known"
    assert len(outside.asked) == 1
    later(4)
    told(placed)
    assert len(outside.asked) == 2


ODD: dict[str, tuple[Answer, str]] = {
    "failing": (says({"error": True, "reason": "none"}, 500), "failing"),
    "refusing": (says({}, 429), "failing"),
    "moved": (says(b"", 302), "failing"),
    "no JSON": (says(b"<html>sign in</html>"), "wrong"),
    "other JSON": (says([1, 2]), "wrong"),
    "nested": (says(b"[" * 90_000), "wrong"),
    "no lists": (says({"daily": {"time": "today", "temperature_2m_min": 4}}), "wrong"),
    "empty": (says({"daily": {"time": []}}), "empty"),
    "without figures": (says({"daily": {"time": [date.today().isoformat()]}}), "empty"),
    "impossible figures": (
        says(daily(date.today(), 1, temperature_2m_min=[400], temperature_2m_max=["warm"])),
        "empty",
    ),
    "of another year": (says(daily(date(1999, 1, 1), 3)), "empty"),
    "huge": (says(b'{"daily": "' + b"x" * 2_000_000 + b'"}'), "too_long"),
}


@pytest.mark.parametrize("name", ODD)
def test_an_odd_answer_is_a_word_and_takes_nothing_away(placed: Cast, serve: Serve, name: str) -> None:
    answer, word = ODD[name]
    serve(answer)
    fresh = told(placed)
    assert (fresh["state"], fresh["trouble"], fresh["days"]) == ("waiting", word, [])
    WeatherPlace.objects.all().delete()
    serve(good)
    first = told(placed)
    serve(answer)
    later(4)
    after = told(placed)
    assert (after["state"], after["trouble"], after["days"]) == ("known", word, first["days"])
    assert after["fetched_at"] == first["fetched_at"]


def test_a_silent_service_is_given_up(placed: Cast, serve: Serve, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(provider, "SILENT_S", 0.2)
    over = threading.Event()

    def silent(_: Asked) -> None:
        over.wait(30)

    serve(silent)
    found = told(placed)
    over.set()
    assert (found["state"], found["trouble"]) == ("waiting", "slow")


def test_a_dripping_service_is_given_up(placed: Cast, serve: Serve, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(provider, "WHOLE_S", 0.0)

    def drip(asked: Asked) -> None:
        asked.send_response(200)
        asked.end_headers()
        for _ in range(100):
            asked.wfile.write(b" " * 100)

    serve(drip)
    assert told(placed)["trouble"] == "slow"


def test_a_service_that_is_not_there_is_asked_again_in_twenty_minutes(
    placed: Cast, serve: Serve, settings: Any
) -> None:
    settings.WEATHER = "http://127.0.0.1:9"
    assert told(placed)["trouble"] == "unreachable"
    outside = serve(good)
    told(placed)
    assert outside.asked == []
    later(0.5)
    assert told(placed)["state"] == "known"


def test_days_of_the_past_stay_for_400_days() -> None:
    today = date(2026, 6, 1)
    kept = {"2025-04-01": [1, 4.0], "2025-07-01": [1, 5.0], "2026-06-01": [1, 6.0]}
    days, changed = series.merged(kept, {"2026-06-01": [6.0], "2026-06-02": [7.0]}, 2, today)
    assert (days, changed) == ({"2025-07-01": [1, 5.0], "2026-06-01": [1, 6.0], "2026-06-02": [2, 7.0]}, 1)
    assert series.merged(kept, {"2026-06-01": [6.0]}, 2, today)[1] == 0


def test_a_cursor_of_another_series_brings_everything(placed: Cast, serve: Serve) -> None:
    serve(good)
    for since in ("nonsense", "00000000-0000-0000-0000-000000000000.99", f"{WeatherPlace().series}.-1", "."):
        assert (told(placed, since)["whole"], len(told(placed, since)["days"])) == (True, 3)
    assert ask(placed, "x" * 61).status_code == 400


def test_a_keeper_turns_the_forecast_on_and_every_phone_hears_of_it(cast: Cast) -> None:
    assert cast.member.member is not None
    phone = phone_of(cast.member.member)
    phone.sync()
    address = f"/api/v1/households/{cast.ours.id}/weather/forecast"
    assert cast.member.post(address, {"on": True}).status_code == 403
    assert cast.keeper.post(address, {"on": "perhaps"}).status_code == 400
    answer = cast.keeper.post(address, {"on": True})
    assert (answer.status_code, answer.json()) == (200, {"on": True})
    heard = [change for change in phone.sync()["changes"] if change["t"] == "household"]
    assert heard[-1]["groups"]["forecast"]["value"] == {"forecast": True}
    assert heard[-1]["groups"]["name"]["value"] == {"name": "Alder Bend"}
    assert cast.keeper.post(address, {"on": False}).json() == {"on": False}


def test_no_phone_turns_the_forecast_on_by_itself(cast: Cast) -> None:
    assert cast.keeper.member is not None
    phone = phone_of(cast.keeper.member)
    phone.sync()
    phone.write("household", str(cast.ours.id), forecast={"forecast": True})
    assert [result["s"] for result in phone.sync()["results"]] == ["parked"]
    assert Household.objects.get(id=cast.ours.id).forecast is None


def test_a_climate_is_twelve_means_of_ten_years_asked_once(placed: Cast, serve: Serve) -> None:
    outside = serve(good)
    address = f"/api/v1/households/{placed.ours.id}/weather/climate"
    assert placed.member.post(address).status_code == 403
    found = placed.keeper.post(address).json()
    assert found["state"] == "known"
    assert found["monthly_mean_c"] == pytest.approx(list(range(1, 13)))
    year = datetime.now(UTC).year
    assert found["years"] == f"{year - 10} to {year - 1}"
    assert placed.keeper.post(address).json() == found
    assert len(outside.asked) == 1


@pytest.mark.parametrize("name", ["failing", "no JSON", "empty", "huge"])
def test_a_climate_that_cannot_be_had_is_a_word(placed: Cast, serve: Serve, name: str) -> None:
    serve(ODD[name][0])
    answer = placed.keeper.post(f"/api/v1/households/{placed.ours.id}/weather/climate")
    assert (answer.status_code, answer.json()) == (200, {"state": "trouble", "trouble": ODD[name][1]})


def test_a_climate_needs_a_place_and_a_service(cast: Cast, serve: Serve) -> None:
    address = f"/api/v1/households/{cast.ours.id}/weather/climate"
    assert cast.keeper.post(address).json() == {"state": "off"}
    serve(good)
    assert cast.keeper.post(address).json() == {"state": "no_place"}


def test_a_place_is_rounded_to_the_nearest_tenth() -> None:
    place = place_of(Household(latitude_deg=-41.649, longitude_deg=179.96))
    assert place is not None
    assert (place.latitude_deg, place.longitude_deg) == (-41.6, 180.0)
    assert json.dumps(place) == "[-416, 1800]"
