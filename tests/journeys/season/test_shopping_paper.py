"""The shopping list on paper: one page, with boxes to tick and no buttons."""

import re

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.chromium import Chromium
from tests.journeys.phone import Phone
from tests.journeys.season.test_shopping import planned

_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")
SHOWN = """
const seen = (one) => one && getComputedStyle(one).display !== "none";
return {
  box: seen(document.querySelector(".shopping__box")),
  buttons: [...document.querySelectorAll(".shopping button:not(.figure)")].filter(seen).length,
  bar: seen(document.querySelector(".place-bar")),
};
"""


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
def test_the_list_is_one_page_with_boxes_and_without_buttons(phone: Phone, book: Book, sheet: str) -> None:
    assert isinstance(phone, Chromium)
    planned(book)
    acts.signed_in(phone, book.email)
    phone.open("/season/shopping")
    phone.see_role("button", "Bought 2 bags of Plain feed")
    phone.see_role("button", "Print the list")
    phone.page.emulate_media(media="print")
    assert phone.evaluate(SHOWN) == {"box": True, "buttons": 0, "bar": False}
    assert len(_PAGE.findall(phone.page.pdf(format=sheet))) == 1
