"""A strip that got far too much: named at the check, drawn between passes and in the next one, and left out of it."""

import re

import pytest

from tests.journeys import acts
from tests.journeys import heart_acts as heart
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.work.test_yard import PRODUCT, SPREADER, to_the_yard

ZONE = "Kitchen lawn"
OUTLINE = {"points_m": [[0, 0], [20, 0], [20, 10], [0, 10]], "north_deg": 0}
DRAWN = "return document.querySelector('.plan-out') !== null"
LETTERS = "document.documentElement.style.fontSize = arguments[0]; return true"
WEIGHT = "Weight left, hopper and bag"


@pytest.fixture
def yard(phone: Phone, book: Book) -> Phone:
    """A phone of the narrowest size, with one zone of known outline, a product and a spreader."""
    book.zone(ZONE, ground={"area_m2": 200.0, "method": "outline", "outline": OUTLINE})
    book.product(PRODUCT)
    book.spreader(SPREADER)
    phone.size(360, 640)
    acts.signed_in(phone, book.email)
    phone.see_role("button", f"Mowed: {ZONE}")
    return phone


def scorch(phone: Phone) -> None:
    """Two rows walked, and 18 of 22 lb gone: far over the label's rate there."""
    heart.count_to(phone, 2)
    phone.tap("button", "Check")
    phone.see_role("heading", re.compile("^Check"))
    phone.choose("How did you measure?", "Weighed")
    phone.fill(WEIGHT, "4")
    phone.see("Too much is down here")
    phone.tap("button", re.compile("^(Set dial to|Keep)"))
    phone.see_role("heading", re.compile("^Pass 1 of"))


def seen_in_every_light(phone: Phone, name: str) -> None:
    """Sound and drawn on a narrow phone, in letters twice as large, and on its side."""
    for suffix, size, letters in (("", (360, 640), ""), ("-large", (360, 640), "200%"), ("-side", (640, 360), "")):
        phone.size(*size)
        phone.evaluate(LETTERS, letters)
        phone.wait(lambda: phone.evaluate(DRAWN), "the scorched ground is not drawn")
        phone.evaluate("document.querySelector('.plan-out').scrollIntoView({block: 'center'}); return true")
        phone.screenshot(name + suffix)
        phone.evaluate("window.scrollTo(0, 0); return true")
        assert phone.layout_faults() == []
    phone.size(360, 640)
    phone.evaluate(LETTERS, "")


def test_scorched_ground_is_drawn_and_left_out(yard: Phone) -> None:
    """Issue 8, A13."""
    to_the_yard(yard, ZONE)
    scorch(yard)
    heart.count_to(yard, heart.strips(yard)[1])
    yard.tap("button", "Pass 1 done")
    yard.fill(WEIGHT, "3")
    yard.tap("button", "Save pass 1")
    yard.see_role("heading", "Pass 1 saved")
    yard.see("Nothing more goes here")
    yard.see("Left out of the next pass")
    seen_in_every_light(yard, "scorched-next")
    assert yard.axe() == []
    yard.tap("button", re.compile("^Start pass 2|^Walk pass 2"))
    yard.see_role("heading", re.compile("^Pass 2 of"))
    yard.see("Shut the gate over the scorched ground.")
    yard.wait(lambda: yard.evaluate(DRAWN), "the scorched ground is not drawn in the yard")
    yard.screenshot("scorched-yard")
    assert yard.layout_faults() == []
    assert yard.axe() == []
