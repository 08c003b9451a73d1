"""Tonight's mow: what is due without signal, one tap from a cold start, weeks without a server, the nights."""

import re
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.api.weather.outside import daily, says, serving
from tests.journeys import acts
from tests.journeys.book import Book, start_book
from tests.journeys.lasting.test_clock import DAY_MS, SET_CLOCK
from tests.journeys.phone import Phone
from tests.journeys.server import Server, asking

NIGHTS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
LATE = re.compile(r"\d+ days? late")


def grown_yard(book: Book, mown_days_ago: int = 12) -> None:
    """A zone of a known grass that wants a mow, in a climate in which it grows on any day of the year."""
    book.settle({"climate": {"monthly_mean_c": [17.0] * 12, "climate_from": "months"}})
    mown = (datetime.now(UTC) - timedelta(days=mown_days_ago)).isoformat(timespec="seconds")
    wanted: dict[str, Any] = {"grass": {"grass": "tall_fescue"}, "cut": {"cut_height_mm": 76.0}}
    for name in ("Verge", "Long side"):
        zone = book.zone(name, 200.0, **wanted)
        ago = mown if name == "Verge" else datetime.now(UTC).isoformat(timespec="seconds")
        book.enter({"kind": "mow", "zone_ids": [zone], "cut_height_mm": 76.0, "occurred_at": ago})


@pytest.mark.lasting
def test_a_weeknight_mow_is_one_tap_from_a_cold_start_without_signal(phone: Phone, book: Book, server: Server) -> None:
    grown_yard(book)
    book.settle({"rhythm": {f"mow_{night}": True for night in NIGHTS}})
    acts.sign_in(phone, book.email)
    phone.see(LATE)
    phone.see("Mowing night.")
    phone.see("No weather forecast. We go by the climate.")
    phone.see("1 can wait")
    assert phone.axe() + phone.layout_faults() == []
    acts.wait_installed(phone)
    server.stop()
    phone.restart()
    phone.open()
    phone.see(LATE)
    phone.tap("button", "Mowed: Verge")
    phone.see("Verge: mow logged.")
    phone.see("2 can wait")
    phone.see("Nothing needs a mow now.")


def test_the_nights_are_set_in_household_and_today_goes_by_them(phone: Phone, book: Book) -> None:
    grown_yard(book)
    acts.sign_in(phone, book.email)
    phone.tap("link", "Set your mowing nights")
    phone.tap("button", "Set the mowing nights")
    tomorrow = (date.today() + timedelta(days=1)).strftime("%A")
    phone.tap("checkbox", tomorrow)
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", "Save the nights")
    phone.see(tomorrow)
    phone.tap("link", re.compile("Today"))
    phone.see(f"Next mowing night: {tomorrow[:3]}.")


def test_without_place_and_climate_days_between_mows_decide_and_that_is_said(phone: Phone, book: Book) -> None:
    book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see("No forecast here. Days between mows decide.")
    phone.see("Not mowed yet")
    phone.see_role("link", "Add place and climate")


@pytest.fixture
def weathered(built_frontend: object) -> Iterator[Server]:
    """A server that asks a weather service of this journey's own."""
    days = daily(date.today() - timedelta(days=2), 10)
    with serving(says(days)) as outside, asking(outside.url) as server:
        yield server


def test_three_weeks_without_signal_the_climate_goes_on_and_says_so(
    make_phone: Callable[..., Phone], weathered: Server, tmp_path: Path
) -> None:
    book = start_book(weathered)
    grown_yard(book)
    phone = make_phone(weathered.url, tmp_path)
    try:
        acts.sign_in(phone, book.email)
        phone.open("/weather")
        phone.tap("button", "Add the place")
        phone.fill("Latitude", "41.6")
        phone.fill("Longitude", "-70.1")
        phone.tap("button", "Save the place")
        phone.tap("button", "Turn on the forecast")
        phone.tap("button", "Turn it on")
        phone.see("Forecast of today")
        phone.open("/")
        phone.see(re.compile(r"Sunset .* Forecast of today\."))
        acts.wait_installed(phone)
        weathered.stop()
        phone.evaluate(SET_CLOCK, 21 * DAY_MS)
        phone.evaluate(
            "document.dispatchEvent(new Event('visibilitychange')); window.dispatchEvent(new Event('focus'))"
        )
        acts.place(phone, "Ground")
        acts.place(phone, "Today")
        phone.see(re.compile("No weather forecast. We go by the climate"))
        phone.see(LATE)
    finally:
        phone.quit()
