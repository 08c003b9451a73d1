"""Weather on the phone: place typed without signal, a reading, a table looked at before it is taken."""

import json
import re
from collections.abc import Callable
from pathlib import Path

from tests.journeys import acts
from tests.journeys.book import Book, start_book
from tests.journeys.demo import TABLE, give_table
from tests.journeys.phone import Phone
from tests.journeys.server import Server

WEATHER = re.compile("^Place and weather")


def open_weather(phone: Phone) -> None:
    phone.open("/weather")
    phone.see_role("heading", "Place and weather")


def records(phone: Phone, kind: str) -> list[dict[str, object]]:
    """What waits in the outbox for records of a kind."""
    return [item for op in acts.outbox(phone) for item in op["m"] if item["t"] == kind]


def test_place_and_climate_are_typed_without_signal_and_reach_the_others(
    new_phone: Callable[[], Phone], server: Server
) -> None:
    phone, book = new_phone(), start_book(server)
    acts.sign_in(phone, book.email)
    acts.wait_installed(phone)
    server.stop()
    phone.open("/household")
    phone.tap("link", WEATHER)
    phone.see("Tell us roughly where the yard is")
    phone.tap("button", "Add the place")
    phone.tap("button", "Save the place")
    phone.see_complaint("Latitude", "Enter the latitude")
    phone.fill("Latitude", "-41.649")
    phone.fill("Longitude", "190")
    phone.tap("button", "Save the place")
    phone.see_complaint("Longitude", "Allowed is -180 to 180°.")
    assert phone.axe() + phone.layout_faults() == []
    phone.fill("Longitude", "-70.12")
    phone.tap("button", "Save the place")
    phone.see("41.6° S, 70.1° W")
    phone.tap("button", "Add the climate")
    phone.fill("Mean of the warmest month", "73")
    phone.fill("Mean of the coldest month", "80")
    phone.tap("button", "Save the climate")
    phone.see_complaint("Mean of the coldest month", "warmer than the warmest")
    phone.fill("Mean of the coldest month", "27")
    phone.tap("button", "Save the climate")
    phone.see("two numbers")
    sent = {name: value for item in records(phone, "household") for name, value in item["set"].items()}  # type: ignore[attr-defined]
    assert sent["place"] == {"latitude_deg": -41.6, "longitude_deg": -70.1}
    assert sent["climate"]["climate_typed"]["coldest"] == {"amount": "27", "unit": "deg_f"}
    server.start()
    phone.wait(lambda: acts.waiting(phone) == 0, "the outbox does not empty", 120)
    other = new_phone()
    acts.sign_in(other, book.email)
    open_weather(other)
    other.see("41.6° S, 70.1° W")
    other.see("73 °F")


def test_a_reading_of_the_soil_stands_in_the_log_as_it_was_typed(phone: Phone, book: Book) -> None:
    acts.sign_in(phone, book.email)
    acts.place(phone, "Log")
    phone.tap("button", "Add a reading")
    phone.tap("button", "Save the reading")
    phone.see_complaint("Temperature", "Enter the temperature.")
    phone.fill("Temperature", "157")
    phone.tap("button", "Save the reading")
    phone.see_complaint("Temperature", "Allowed is -22 to 140 °F.")
    phone.fill("Temperature", "57")
    phone.fill("Depth in the soil", "4")
    phone.tap("button", "Save the reading")
    phone.see("Soil temperature 57 °F at 4 in")
    acts.all_saved(phone)
    phone.tap("button", "Add a reading")
    assert phone.value("Depth in the soil") == "4", "the next reading begins where the last one was"
    phone.choose("What you read", "Rain")
    phone.fill("Rain in the gauge", "0")
    phone.tap("button", "Save the reading")
    phone.see("Rain 0 in")


def test_a_table_is_looked_at_before_it_is_taken_and_gives_the_days_the_command_gives(
    phone: Phone, book: Book, server: Server, tmp_path: Path
) -> None:
    acts.sign_in(phone, book.email)
    open_weather(phone)
    phone.tap("link", "Import days")
    give_table(phone, TABLE)
    phone.see("3 days, 1 May 2026 to 14 May 2026.")
    phone.see("2 lines left out")
    phone.see("Line 4: “6?” not a number")
    phone.see("Line 6")
    assert phone.axe() + phone.layout_faults() == []
    assert records(phone, "weather_month") == []
    phone.tap("button", "Save 3 days")
    phone.see("3 days, 1 May 2026 to 14 May 2026.")
    phone.wait(lambda: acts.waiting(phone) == 0, "the outbox does not empty")
    file = tmp_path / "days.csv"
    file.write_text(TABLE, encoding="utf-8")
    told = json.loads(server.manage("weather", "--import", str(file), "--json"))
    changes = book.sync([])["changes"]
    months = [change for change in changes if change["t"] == "weather_month"]
    assert [month["groups"]["days"]["value"]["days"] for month in months] == [told]


def test_what_the_headings_leave_open_is_asked(phone: Phone, book: Book) -> None:
    acts.sign_in(phone, book.email)
    phone.open("/weather/import")
    phone.see_role("heading", "Import days")
    find = "return document.querySelector('#weather-file')"
    phone.wait(lambda: phone.element(find), "no way to a file")
    give_open(phone)
    phone.choose("Temperatures are in", "°C")
    phone.choose("Dates are written", "day/month/year")
    phone.see("1 day, 1 May 2026.")


def give_open(phone: Phone) -> None:
    """A table that names no unit, and a date that could be read two ways."""
    import tempfile

    with tempfile.TemporaryDirectory(prefix="evenfall-") as folder:
        file = Path(folder) / "plain.csv"
        file.write_text("date,low,high\n1/5/2026,4,16\n", encoding="utf-8")
        found = phone.element("return document.querySelector('#weather-file')")
        phone.give_file(found, file)
        phone.see("The headings leave something open.")
