"""A weather service outside: down and said so, its forecast with its age, and kept when signal goes."""

import re
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.api.weather.outside import Outside, daily, good, says, serving
from tests.journeys import acts
from tests.journeys.book import start_book
from tests.journeys.phone import Phone
from tests.journeys.server import Server, asking


def open_weather(phone: Phone) -> None:
    phone.open("/weather")
    phone.see_role("heading", "Place and weather")


def type_place(phone: Phone, latitude: str, longitude: str) -> None:
    phone.tap("button", re.compile("^(Add|Edit) the place"))
    phone.fill("Latitude", latitude)
    phone.fill("Longitude", longitude)
    phone.tap("button", "Save the place")


@pytest.fixture
def outside() -> Iterator[Outside]:
    """A weather service of this journey's own."""
    with serving(says({}, 500)) as service:
        yield service


@pytest.fixture
def weathered(built_frontend: object, outside: Outside) -> Iterator[Server]:
    """A server that asks that service."""
    with asking(outside.url) as server:
        yield server


def test_a_service_that_is_down_is_said_and_nothing_waits_for_it(
    make_phone: Callable[..., Phone], weathered: Server, outside: Outside, tmp_path: Path
) -> None:
    book = start_book(weathered)
    phone = make_phone(weathered.url, tmp_path)
    try:
        acts.sign_in(phone, book.email)
        open_weather(phone)
        phone.see("Off. Evenfall goes by the climate.")
        assert outside.asked == []
        type_place(phone, "41.649", "-70.12")
        phone.tap("button", "Turn on the forecast")
        phone.see("41.6° N, 70.1° W")
        phone.see("No name, no address and nothing from your log leaves it.")
        phone.tap("button", "Turn it on")
        phone.see("The weather service has trouble.")
        assert phone.axe() + phone.layout_faults() == []
        outside.answer = good
        phone.tap("button", "Look up the climate")
        phone.tap("button", "Look it up")
        phone.see(re.compile("the weather service, "))
        assert all("latitude=41.6&longitude=-70.1&" in asked for asked in outside.asked)
    finally:
        phone.quit()


def test_a_forecast_comes_with_its_age_and_stays_when_signal_goes(
    make_phone: Callable[..., Phone], weathered: Server, outside: Outside, tmp_path: Path
) -> None:
    outside.answer = says(daily(date.today() - timedelta(days=2), 10))
    book = start_book(weathered)
    phone = make_phone(weathered.url, tmp_path)
    try:
        acts.sign_in(phone, book.email)
        acts.wait_installed(phone)
        open_weather(phone)
        type_place(phone, "41.649", "-70.12")
        phone.tap("button", "Turn on the forecast")
        phone.tap("button", "Turn it on")
        phone.see("Forecast of today")
        phone.see("10 days are on this phone.")
        weathered.stop()
        phone.restart()
        open_weather(phone)
        phone.see("Forecast of today")
        phone.see("10 days are on this phone.")
    finally:
        phone.quit()
