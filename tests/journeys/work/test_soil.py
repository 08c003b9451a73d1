"""Soil warmth without signal: read in words and as a table, and moved by a thermometer in the ground."""

import re
from datetime import date, timedelta

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

# Means in °C from this month on: soil rises past 50 °F within weeks, whatever the day this is walked on.
FROM_NOW_C = (6.0, 11.0, 16.0, 20.0, 22.0, 21.0, 18.0, 14.0, 10.0, 5.0, 2.0, 2.0)
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
SAID = """
const said = [...document.querySelectorAll("li.line")].find((one) => one.textContent.includes(arguments[0]));
return said?.textContent ?? "";
"""
TODAY = "return document.querySelector('tr[aria-current=date] td')?.textContent ?? ''"


# Where what lies under the chart begins, each time the page changes, and whether the chart was there.
WATCH = """
window.soilTops = [];
new MutationObserver(() => {
  const below = document.querySelector("section[aria-label=Chart] > :last-child");
  if (!below) return;
  const drawn = !!document.querySelector(".plot canvas");
  window.soilTops.push([drawn, Math.round(below.getBoundingClientRect().top + scrollY)]);
}).observe(document.body, { childList: true, subtree: true });
"""


def spring(book: Book) -> None:
    """A climate in which spring has begun, whatever day it is."""
    means = [FROM_NOW_C[(month - date.today().month) % 12] for month in range(1, 13)]
    book.settle({"climate": {"monthly_mean_c": means, "climate_from": "months"}})


def window(phone: Phone) -> date:
    """The day from which crabgrass is said to sprout, a month or so ahead."""
    said = str(phone.evaluate(SAID, "Crabgrass sprouts"))
    found = re.search(r"Warmer from about (\d+) (\w{3})", said)
    assert found, said
    day, month = int(found[1]), MONTHS.index(found[2]) + 1
    year = date.today().year + (month < date.today().month)
    return date(year, month, day)


def soil_now(phone: Phone) -> int:
    """The figure of today in the table, in °F."""
    return int(re.sub(r"\D.*", "", str(phone.evaluate(TODAY))))


def read_soil(phone: Phone, fahrenheit: str) -> None:
    """Add a reading from the page of soil warmth."""
    phone.tap("button", "Add a reading")
    phone.choose("What you read", "Soil")
    phone.fill("Temperature", fahrenheit)
    phone.fill("Depth in the soil", "4")
    phone.tap("button", "Save the reading")
    phone.see("Reading saved.")


def see_soil(phone: Phone, temperature: str) -> None:
    """It is among the readings, and what stands above goes by it."""
    phone.wait(lambda: phone.evaluate(SAID, temperature), f"no reading of {temperature}")
    phone.wait(lambda: phone.evaluate("return !document.querySelector('[aria-busy=true]')"), "still working")
    phone.see(re.compile(r"Corrected by your reading of"))


def test_a_soil_reading_changes_the_window(phone: Phone, book: Book, server: Server) -> None:
    spring(book)
    acts.signed_in(phone, book.email)
    acts.wait_installed(phone)
    server.stop()
    phone.open("/weather")
    phone.evaluate(WATCH)
    phone.tap("link", "Show soil warmth")
    phone.see(re.compile("Soil now .* deep"))
    phone.wait(lambda: phone.evaluate("return window.soilTops.some(([drawn]) => drawn)"), "no chart is drawn")
    tops = phone.evaluate("return window.soilTops")
    assert len({top for _, top in tops}) == 1, tops  # the chart's room was held while its code came
    assert tops[0][0] is False
    phone.see(re.compile("By the climate alone"))
    phone.see(re.compile("Rises past 50"))
    phone.see_role("img", re.compile("Soil warmth from"))
    assert phone.axe() + phone.layout_faults() == []
    before, was = window(phone), soil_now(phone)
    read_soil(phone, "60")
    see_soil(phone, "60\u00a0°F")
    phone.wait(lambda: soil_now(phone) > was, "a warm reading does not warm the soil of today")
    warmer, warm = window(phone), soil_now(phone)
    assert date.today() - timedelta(days=1) <= warmer < before
    acts.place(phone, "Log")
    phone.tap("link", re.compile("^Reading"))
    phone.tap("link", "Show soil warmth")
    phone.see_role("heading", "Soil warmth")
    see_soil(phone, "60\u00a0°F")
    for _ in range(2):  # twice, since the warm one of today counts as much as a cold one
        read_soil(phone, "36")
        see_soil(phone, "36\u00a0°F")
    phone.wait(lambda: soil_now(phone) < warm, "cold readings do not cool the soil of today")
    assert window(phone) > warmer
    server.start()
    phone.wait(lambda: acts.waiting(phone) == 0, "the outbox does not empty", 120)
    read = [one["body"] for one in book.entries() if one["body"]["kind"] == "reading"]
    assert [one["temperature_typed"]["amount"] for one in read] == ["60", "36", "36"]


def test_without_place_and_climate_the_page_says_what_is_missing(phone: Phone, book: Book) -> None:
    acts.signed_in(phone, book.email)
    phone.open("/weather/soil")
    phone.see("No climate yet")
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("link", "Add place and climate")
    phone.see_role("heading", "Place and weather")


LARGE = "document.documentElement.style.fontSize = arguments[0]"
WEARS = "document.documentElement.dataset.theme = arguments[0]"
INK = """
const canvas = document.querySelector('.plot canvas');
const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
let light = 0, seen = 0; // most of it is the rim of paper about the words
for (let at = 0; at < data.length; at += 4) if (data[at + 3] > 200) { seen += 1; light += data[at]; }
return seen ? light / seen : -1;
"""
SIZE = "const c = document.querySelector('.plot canvas'); return [c.clientWidth, c.clientHeight]"


@pytest.mark.parametrize("turned", [False, True])
def test_the_chart_is_drawn_again_in_dusk_colors_and_where_room_or_letters_change(
    phone: Phone, book: Book, turned: bool
) -> None:
    spring(book)
    phone.size(*((640, 360) if turned else (360, 640)))
    acts.signed_in(phone, book.email)
    phone.open("/weather/soil")
    phone.wait(lambda: phone.evaluate("return !!document.querySelector('.plot canvas')"), "no chart")
    phone.evaluate(WEARS, "light")
    phone.wait(lambda: phone.evaluate(INK) > 140, "not drawn on light paper")
    phone.evaluate(WEARS, "dusk")
    phone.wait(lambda: 0 <= phone.evaluate(INK) < 140, "not drawn again on dark paper")
    phone.evaluate(WEARS, "light")
    wide, tall = phone.evaluate(SIZE)
    phone.evaluate(LARGE, "200%")
    phone.wait(lambda: phone.evaluate(SIZE)[1] == 2 * tall, "not drawn again for larger letters")
    assert phone.layout_faults() == []
    phone.evaluate(LARGE, "")
    phone.size(*((360, 640) if turned else (640, 360)))
    phone.wait(lambda: phone.evaluate(SIZE)[0] != wide, "not drawn again for another width")
    assert phone.layout_faults() == []
