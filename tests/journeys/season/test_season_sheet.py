"""The sheet of the year without signal: steps moved by keys, by drag and in the list, rules that answer, paper."""

import re
from datetime import date, timedelta
from typing import Any

import pytest

from lawn.engine.limits.rows import KINDS
from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.chromium import Chromium
from tests.journeys.phone import Phone
from tests.journeys.season.hands import drag, press
from tests.journeys.server import Server

MONTHS_C = [-4, -2, 4, 10, 16, 21, 24, 23, 18, 11, 5, -1]
# All but the label's own, so that what is walked here is the same on any day of the year.
NO_RULES = [{"kind": kind, "off": True, "date": "2026-01-01"} for kind in sorted(KINDS)]
FLAG = """return document.querySelector(`button.season-flag[data-step="${arguments[0]}"]`)"""
WHERE = """
const on = document.querySelector(`button.season-flag[data-step="${arguments[0]}"]`);
return on?.getAttribute("aria-label") ?? "";
"""
FOCUSED = "return document.activeElement?.dataset?.step ?? ''"
IN_VIEW = "document.querySelector('.season-sheet').scrollIntoView({block: 'start', behavior: 'instant'})"
TODAY_SEEN = """
const box = document.querySelector(".season-sheet");
const line = box.querySelector(".sheet-today")?.getBoundingClientRect();
if (!line) return box.scrollLeft === 0; // in the first days of January the year of the next step is the one before
const { left, right } = box.getBoundingClientRect();
return left <= line.left && line.right <= right;
"""
NO_PRINTER = "window.printed = 0; window.print = () => { window.printed += 1; }"
MONTH = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def say(day: date) -> str:
    """As the app writes a day of a year that goes without saying."""
    return f"{day.day} {MONTH[day.month - 1]}"


def monday(today: date) -> date:
    """A Monday from which twenty weeks lie in one calendar year, four weeks ahead or early in the next year."""
    soon = today + timedelta(28 - today.weekday())
    if (soon + timedelta(weeks=20)).year == today.year:
        return soon
    early = date(today.year + 1, 1, 10)
    return early + timedelta((7 - early.weekday()) % 7)


class Year:
    """A household with two feeds planned eight weeks apart, of a product that waits six weeks by its label."""

    def __init__(self, book: Book, name: str = "Front lawn") -> None:
        self.first = monday(date.today())
        book.settle({
            "climate": {"monthly_mean_c": MONTHS_C, "climate_from": "months"},
            "rules": {"own_rules": NO_RULES},
        })  # fmt: skip
        zone = book.zone(name, grass={"grass": "tall_fescue"})
        wait = {"interval_days": 42.0}
        product = book.product("Steady granules", caution=wait)
        plan = book.write("plan", {
            "year": {"starts_on": f"{self.first.year}-01-01", "southern": False},
            "aim": {"level": "middle", "clippings": "left"},
        })  # fmt: skip
        put = {"product": {"product_id": product, "rate_kg_m2": 0.005}}
        self.feed = book.step(plan, "feed", [zone], self.first, **put)
        self.next = book.step(plan, "feed", [zone], self.first + timedelta(weeks=8), **put)
        self.aerate = book.step(plan, "aerate", [zone], self.first + timedelta(weeks=3))

    def days(self, weeks: int) -> str:
        """The days of the first feed so many weeks on, as they are said."""
        day = self.first + timedelta(weeks=weeks)
        return f"{say(day)} to {say(day + timedelta(6))}"


def flag(phone: Phone, step: str) -> Any:
    return phone.wait(lambda: phone.element(FLAG, step), "no flag")


def see_at(phone: Phone, step: str, days: str) -> None:
    """Its flag stands on these days."""
    phone.wait(lambda: days in str(phone.evaluate(WHERE, step)), f"not on {days}")


def windows(book: Book, step: str) -> list[str]:
    """First days of a step as the server has had them, the newest last."""
    book.cursor = 0
    found = []
    while True:
        answer = book.sync([])
        found += [one for one in answer["changes"] if one["id"] == step]
        book.cursor = answer["cursor"]
        if not answer["has_more"]:
            return [one["groups"]["window"]["value"]["from_on"] for one in found]


@pytest.fixture
def year(book: Book) -> Year:
    return Year(book)


def opened(phone: Phone, book: Book, server: Server) -> None:
    """Season opened without signal, the sheet drawn."""
    acts.signed_in(phone, book.email)
    acts.wait_installed(phone)
    server.stop()
    phone.open("/season")
    phone.see_role("heading", "The year")
    drawn(phone)


def drawn(phone: Phone) -> None:
    """The sheet is there, with what the grass needs in this climate."""
    phone.see_role("img", re.compile("The year as a sheet"))
    phone.wait(lambda: phone.evaluate("return !!document.querySelector('.season-sheet .sheet-need')"), "no need drawn")


def test_a_step_is_moved_by_keys_and_the_move_is_taken_back(
    phone: Phone, book: Book, year: Year, server: Server
) -> None:
    opened(phone, book, server)
    assert phone.axe() + phone.layout_faults() == []
    press(phone, flag(phone, year.feed), "ArrowRight")
    phone.see(re.compile("1 week later"))
    phone.see("No rule speaks against it.")
    phone.screenshot("season-sheet-moving")
    assert phone.axe() + phone.layout_faults() == []
    press(phone, flag(phone, year.feed), "Escape")
    phone.gone("1 week later")
    see_at(phone, year.feed, year.days(0))
    press(phone, flag(phone, year.feed), "ArrowRight")
    phone.see("No rule speaks against it.")
    press(phone, flag(phone, year.feed), "Enter")
    phone.see(re.compile("Feed moved to"))
    see_at(phone, year.feed, year.days(1))
    assert phone.evaluate(FOCUSED) == year.feed
    assert "stays where it is" in str(phone.evaluate(WHERE, year.feed))
    phone.tap("button", "Undo")
    see_at(phone, year.feed, year.days(0))
    phone.rest()
    press(phone, flag(phone, year.feed), "ArrowRight")
    phone.see("No rule speaks against it.")
    press(phone, flag(phone, year.feed), "Enter")
    see_at(phone, year.feed, year.days(1))
    phone.open("/season")
    see_at(phone, year.feed, year.days(1))
    server.start()
    phone.wait(lambda: acts.waiting(phone) == 0, "the outbox does not empty", 120)
    assert windows(book, year.feed)[-1] == (year.first + timedelta(weeks=1)).isoformat()


def test_the_label_answers_while_a_step_is_dragged_and_it_is_not_moved_by_itself(
    phone: Phone, book: Book, year: Year, server: Server
) -> None:
    opened(phone, book, server)
    wide = "return document.querySelector('.season-sheet__paper').getBoundingClientRect().width"
    week = float(phone.evaluate(wide)) * 18 / 1004
    drag(phone, flag(phone, year.feed), 3 * week)
    phone.see(re.compile("Not moved. This breaks a rule"))
    phone.see(re.compile("Too soon by the label. Wait 42 days"))
    phone.see(re.compile("3 weeks later"))
    phone.screenshot("season-sheet-refused")
    assert phone.axe() + phone.layout_faults() == []
    see_at(phone, year.feed, year.days(0))
    phone.tap("button", "Week earlier")
    phone.see(re.compile("2 weeks later"))
    phone.tap("button", "Week earlier")
    phone.see("No rule speaks against it.")
    phone.tap("button", "Move it here")
    see_at(phone, year.feed, year.days(1))
    phone.rest()
    drag(phone, flag(phone, year.aerate), -week)
    phone.see(re.compile("Aerate moved to"))
    see_at(phone, year.aerate, year.days(2))


def test_as_a_list_every_step_is_moved_by_buttons_and_against_a_rule_only_on_purpose(
    phone: Phone, book: Book, year: Year, server: Server
) -> None:
    opened(phone, book, server)
    phone.tap("button", "As a list")
    phone.see(f"Feed: {year.days(0)}")
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", re.compile(f"^Move a week later: Feed, {year.days(0)}"))
    phone.see(re.compile("1 week later"))
    phone.tap("button", "Week later")
    phone.see(re.compile("Too soon by the label. Wait 42 days"))
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", "Cancel")
    phone.see(f"Feed: {year.days(0)}")
    phone.tap("button", re.compile(f"^Move a week later: Feed, {year.days(0)}"))
    phone.tap("button", "Week later")
    phone.see(re.compile("Too soon by the label"))
    phone.tap("button", "Move it anyway")
    phone.see(f"Feed: {year.days(2)}")


def test_the_year_is_printed_on_one_page_without_signal(phone: Phone, book: Book, server: Server) -> None:
    Year(book, name="A front lawn with a name of sixty letters, to see it all fit")
    for number in range(3):
        book.zone(f"Zone {number}", grass={"grass": "kentucky_bluegrass"}, site={"sun": ("sun", "shade")[number % 2]})
    opened(phone, book, server)
    phone.evaluate(NO_PRINTER)
    phone.tap("button", "Print")
    phone.wait(lambda: phone.evaluate("return window.printed === 1"), "nothing was sent to the printer")
    if not isinstance(phone, Chromium):
        return  # its PDF is asked of Chromium alone
    for paper in ("A4", "Letter"):
        phone.evaluate("document.documentElement.dataset.print = 'year'")
        made = phone.page.pdf(format=paper, prefer_css_page_size=True)
        assert len(re.findall(rb"/Type\s*/Page\b", made)) == 1
        (box,) = re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", made)
        assert float(box[0]) > float(box[1])  # on its side
    phone.evaluate("document.documentElement.dataset.print = 'year'")
    phone.page.emulate_media(media="print")
    words = str(phone.evaluate("return document.body.innerText"))
    assert "The year from" in words
    assert "Put down: Steady granules" in words
    assert "Soil tests" not in words
    phone.screenshot("season-sheet-printed")


def test_the_sheet_holds_with_large_letters_on_its_side_and_a_long_name(
    phone: Phone, book: Book, server: Server
) -> None:
    Year(book, name="A front lawn with a name of sixty letters, to see it all fit")
    acts.signed_in(phone, book.email)
    phone.open("/season")
    drawn(phone)
    phone.wait(lambda: phone.evaluate(TODAY_SEEN), "it does not open at today")
    for wide, high in ((640, 360), (360, 640)):
        phone.size(wide, high)
        assert (wide, phone.layout_faults()) == (wide, [])
    phone.evaluate(IN_VIEW)
    phone.screenshot("season-sheet")
    phone.evaluate("document.documentElement.style.fontSize = '200%'")
    phone.evaluate(IN_VIEW)
    phone.screenshot("season-sheet-large")
    assert phone.layout_faults() == []
