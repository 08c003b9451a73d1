"""A zone's own page without signal: when it is next due and why, its last cuts, how warm its soil is."""

import re
from datetime import UTC, datetime, timedelta
from typing import Any

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import NARROW, Phone
from tests.journeys.screens.test_large import LETTERS, ZONE, judged
from tests.journeys.server import Server
from tests.journeys.work.test_tonight import NIGHTS

DRAWING = re.compile("^Height of the grass over time, 3 cuts, 1 more height and the coming days")
ROWS = "return [...document.querySelectorAll('.zone-cuts tbody tr')].map((row) => row.textContent)"
MARKS = """
return ['.height-taken', '.height-third', '.height-band', '.height-level', '.height-look'].map(
  (mark) => document.querySelectorAll('.height-drawing ' + mark).length);
"""
# How high each numeral of the drawing stands on the screen.
NUMERALS = """
return [...document.querySelectorAll('.height-drawing .axes text')].filter((one) => one.textContent)
  .map((one) => one.getBoundingClientRect().height);
"""


def ago(days: int) -> str:
    return (datetime.now(UTC) - timedelta(days=days)).isoformat(timespec="seconds")


def kept_zone(book: Book) -> str:
    """A zone with the longest name there is, in a climate in which it grows on any day, mowed three times."""
    book.settle({"climate": {"monthly_mean_c": [17.0] * 12, "climate_from": "months"}})
    book.settle({"rhythm": {f"mow_{night}": True for night in NIGHTS}})
    wanted: dict[str, Any] = {"grass": {"grass": "tall_fescue"}, "cut": {"cut_height_mm": 76.2}}
    zone = book.zone(ZONE, 200.0, **wanted)
    for days, more in ((18, {"height_before_mm": 101.6}), (11, {"height_before_mm": 127.0, "minutes": 18}), (3, {})):
        mow = {"kind": "mow", "zone_ids": [zone], "cut_height_mm": 76.2, "occurred_at": ago(days), "by": book.member}
        book.enter({**mow, **more})
    look = {"kind": "reading", "measures": "grass", "height_mm": 101.6, "by": book.member}
    book.enter({**look, "zone_ids": [zone], "occurred_at": ago(1)})
    return zone


def open_page(phone: Phone, zone: str) -> None:
    """By the app's own links, once all of it has been worked out."""
    acts.place(phone, "Ground")
    phone.tap("link", re.compile(f"^{ZONE}"))
    phone.see_role("heading", ZONE)
    phone.see_role("button", "Why is it due?")
    phone.see_role("button", re.compile("^Soil now"))
    phone.see_role("img", DRAWING)
    assert phone.evaluate("return location.pathname") == f"/ground/{zone}"


def test_a_zones_page_says_without_signal_what_is_due_and_why_and_what_was_cut(
    phone: Phone, book: Book, server: Server
) -> None:
    zone = kept_zone(book)
    acts.sign_in(phone, book.email)
    acts.wait_installed(phone)
    server.stop()
    open_page(phone, zone)
    phone.see(re.compile(r"By \w{3}[^.]*, likely \w{3}[^.]* to \w{3}"))
    phone.see(re.compile(r"A cut tonight would take [\d.]+%"))
    phone.see(re.compile("No weather forecast. We go by the climate."))
    rows = phone.evaluate(ROWS)
    plain = [re.sub(r"^\d+ \w{3}", "", row.replace("\u00a0", " ")) for row in rows]
    said = ("4 inno cut", "–not noted3 in–not noted–", "5 in3 in40%18", "4 in3 in25%–not noted")
    assert [row.startswith(wanted) for row, wanted in zip(plain, said, strict=True)] == [True] * 4, plain
    assert phone.evaluate(MARKS) == [2, 2, 1, 2, 1]
    phone.see(re.compile(r"Expected today: [\d.]+"))
    phone.see("By the climate alone. No weather is known here. A soil reading makes it surer.")
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", "Why is it due?")
    phone.see_role("dialog", "Why is it due?")
    phone.see(re.compile("Height of cut wanted"))


def test_a_reading_of_the_soil_is_taken_on_the_zones_page_and_counts_there(
    phone: Phone, book: Book, server: Server
) -> None:
    zone = kept_zone(book)
    acts.sign_in(phone, book.email)
    acts.wait_installed(phone)
    server.stop()
    open_page(phone, zone)
    phone.see("63 °F")
    phone.tap("button", "Add a soil reading")
    phone.see_role("dialog", "Add a reading")
    phone.fill("Temperature", "75")
    phone.fill("Depth in the soil", "2")
    phone.tap("button", "Save the reading")
    phone.see(re.compile("Corrected by your reading of "))
    phone.see("Soil now, 2 in deep")
    phone.gone("63 °F")


def test_the_zones_page_fits_the_phone_whatever_its_letters(phone: Phone, book: Book) -> None:
    zone = kept_zone(book)
    acts.sign_in(phone, book.email)
    open_page(phone, zone)
    found = judged(phone, "zone-page")
    assert not found, "\n".join(found)


def test_the_numerals_of_the_drawing_grow_with_the_letters_of_the_page(phone: Phone, book: Book) -> None:
    zone = kept_zone(book)
    acts.sign_in(phone, book.email)
    open_page(phone, zone)
    phone.size(*NARROW)
    usual = min(phone.evaluate(NUMERALS))
    phone.evaluate(LETTERS, "200%")
    phone.wait(lambda: min(phone.evaluate(NUMERALS)) > 1.8 * usual, "the numerals stay as small as they were")
    assert phone.layout_faults() == []
