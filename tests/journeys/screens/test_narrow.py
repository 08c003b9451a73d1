"""On a phone of 360 pixels: heads keep clear of their edges, all places have the same head, figures stay on a line."""

import re
from typing import Any

import pytest

from tests.journeys import acts
from tests.journeys.book import Book, new_id
from tests.journeys.phone import Phone

# Room between the words of the title and the upper edge and lower rule of the head, in px.
HEAD_ROOM = """
  const head = document.querySelector(".page__head");
  const words = document.createRange();
  words.selectNodeContents(head.querySelector("h1"));
  const around = head.getBoundingClientRect();
  const title = words.getBoundingClientRect();
  return { above: title.top - around.top, below: around.bottom - title.bottom };
"""
BROKEN_FIGURES = """
  return [...document.querySelectorAll(".figures .figure__value")].flatMap((value) => {
    const words = document.createRange();
    words.selectNodeContents(value);
    const lines = new Set([...words.getClientRects()].map((box) => Math.round(box.bottom / 8)));
    return lines.size > 1 ? [value.textContent] : [];
  });
"""
LEAST_PX = 8


@pytest.fixture
def narrow(phone: Phone, book: Book) -> Phone:
    """A phone of the narrowest size this app is drawn for, with ground, a product and a spreader."""
    verge = book.zone("Verge")
    book.product("Plain 23-0-9")
    other, spreader = book.product("Spring 13-0-5"), book.spreader("Rotary")
    done = {"spread_id": new_id(), "product_id": other, "spreader_id": spreader, "number": 1, "dial": 8.0}
    scale = {"lowest": 1.0, "highest": 24.0, "step": 0.5}
    weighed = {"area_m2": 200.0, "start_kg": 10.0, "left_kg": 6.7, "used_kg": 3.3, "measured": "scale"}
    book.enter({"kind": "pass", "zone_ids": [verge], "dial_scale": scale, **done, **weighed})
    phone.size(360, 640)
    acts.signed_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    return phone


def room(phone: Phone) -> Any:
    phone.rest()
    return phone.evaluate(HEAD_ROOM)


def test_a_long_title_keeps_clear_of_the_edges_of_its_head(narrow: Phone) -> None:
    narrow.open("/shed/product/new")
    narrow.fill("Name", "Pelletised lime of the quarry by the old mill")
    narrow.fill("Net weight", "50")
    narrow.tap("button", "Save")
    narrow.tap("link", re.compile("^Pelletised lime"))
    narrow.see_role("heading", re.compile("^Pelletised lime"))
    found = room(narrow)
    assert min(found["above"], found["below"]) >= LEAST_PX, found


def test_the_walks_title_keeps_clear_of_the_edges_of_its_head(narrow: Phone) -> None:
    narrow.open("/spread")
    narrow.see_role("heading", "New spreading job")
    found = room(narrow)
    assert min(found["above"], found["below"]) >= LEAST_PX, found


def test_every_place_leads_to_the_household_from_its_head(narrow: Phone) -> None:
    for place in ("Today", "Ground", "Shed", "Season", "Log"):
        acts.place(narrow, place)
        narrow.see_role("link", "Household")


def test_figures_stay_on_one_line(narrow: Phone, book: Book) -> None:
    """The spreader is known from another product; a chance is said in the longest words a figure holds."""
    narrow.open("/spread")
    narrow.tap("checkbox", re.compile("^Verge"))
    acts.choose_walk(narrow, "Plain 23-0-9", "Rotary")
    narrow.see("Chance of running out")
    narrow.see(re.compile(r"(under|about) \d+%"))
    narrow.rest()
    assert narrow.evaluate(BROKEN_FIGURES) == []
