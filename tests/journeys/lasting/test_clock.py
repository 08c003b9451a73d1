"""The phone's clock is wrong, is mended, jumps: nothing is lost, doubled or put in the wrong order (F25 to F27)."""

import re

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone

DAY_MS = 24 * 3600 * 1000
# Everything of the page that asks for the time gets one that many milliseconds off; 0 mends the clock.
SET_CLOCK = """
window.TrueDate ??= Date;
const off = arguments[0];
class Off extends TrueDate {
  constructor(...given) { if (given.length) super(...given); else super(TrueDate.now() + off); }
  static now() { return TrueDate.now() + off; }
}
window.Date = off ? Off : TrueDate;
"""


@pytest.fixture
def zone(phone: Phone, book: Book) -> str:
    """A zone, on a phone that has the app."""
    made = book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    return made


def rename(phone: Phone, zone: str, name: str) -> None:
    """Give the zone another name, moving about within the page as a thumb does."""
    acts.place(phone, "Ground")
    phone.tap("link", re.compile(r"Verge|^N\d"))
    phone.tap("link", re.compile("^(Edit|Change)"))
    phone.fill("Zone name", name)
    phone.tap("button", "Save the zone")
    phone.see_role("heading", name)
    acts.place(phone, "Today")


def mow(phone: Phone) -> None:
    """Tick a mow off."""
    phone.tap("button", re.compile("^Mowed( again)?: "))
    phone.see(re.compile("mow logged"))


def name_on_server(book: Book, zone: str) -> str:
    """What the zone is called in the household's book."""
    book.cursor = 0
    found = next(record for record in book.sync([])["changes"] if record["id"] == zone)
    return str(found["groups"]["name"]["value"]["name"])


def test_f25_three_years_back_an_edit_still_stands_over_what_it_was_made_on(
    phone: Phone, book: Book, zone: str
) -> None:
    phone.evaluate(SET_CLOCK, -3 * 365 * DAY_MS)
    rename(phone, zone, "N1")
    mow(phone)
    acts.all_saved(phone)
    assert name_on_server(book, zone) == "N1"
    assert len(book.entries()) == 1


def test_f26_two_days_ahead_and_then_mended_the_later_edit_stands(phone: Phone, book: Book, zone: str) -> None:
    phone.evaluate(SET_CLOCK, 2 * DAY_MS)
    rename(phone, zone, "N1")
    acts.all_saved(phone)
    phone.evaluate(SET_CLOCK, 0)
    rename(phone, zone, "N2")
    acts.all_saved(phone)
    assert name_on_server(book, zone) == "N2"
    phone.reload()
    phone.see_role("button", re.compile("Mowed: N2"))


def test_f26_a_mow_dated_two_days_ahead_is_set_aside_whole_and_named(phone: Phone, book: Book, zone: str) -> None:
    """More than a day ahead is more than clocks stand apart: nothing counts it, and it waits for the right day."""
    phone.evaluate(SET_CLOCK, 2 * DAY_MS)
    mow(phone)
    phone.see_role("link", "1 needs fixing")
    assert book.entries() == []
    phone.evaluate(SET_CLOCK, 0)
    phone.tap("link", "1 needs fixing")
    phone.see_role("link", re.compile("^Fix: Mow, "))
    phone.see(re.compile("allowed is up to 1 day ahead of now"))
    assert phone.axe() + phone.layout_faults() == []


def test_f27_a_clock_that_jumps_between_saves_delays_and_doubles_nothing(phone: Phone, book: Book, zone: str) -> None:
    for number, off in enumerate((DAY_MS * 5 // 6, -400 * DAY_MS, 3600 * 1000, 0), start=1):
        phone.evaluate(SET_CLOCK, off)
        mow(phone)  # the words of the mow before may still stand, so the entry itself is waited for
        phone.wait(lambda number=number: len(book.entries()) >= number, "the mow does not arrive")  # type: ignore[misc]
        acts.all_saved(phone)
    assert len(book.entries()) == 4
