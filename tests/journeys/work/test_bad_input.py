"""Bad input is told beside its field, with what is allowed, and nothing written is lost."""

import re

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone


@pytest.fixture
def home(phone: Phone, book: Book) -> Phone:
    """A signed-in phone."""
    acts.signed_in(phone, book.email)
    return phone


def test_a_bad_length_is_told_and_the_rest_of_the_form_stands(home: Phone) -> None:
    acts.place(home, "Ground")
    home.tap("link", "Measure a zone")
    home.fill("Zone name", "Verge")
    home.fill("Length", "fifty")
    home.fill("Width", "40")
    home.tap("button", "Save the zone")
    home.see_complaint("Length", re.compile(r"\w+ .*\."))
    assert (home.value("Zone name"), home.value("Length"), home.value("Width")) == ("Verge", "fifty", "40")
    home.reload()
    home.see("Unsaved changes")
    assert (home.value("Zone name"), home.value("Length"), home.value("Width")) == ("Verge", "fifty", "40")
    home.fill("Length", "50")
    home.tap("button", "Save the zone")
    home.see_role("heading", "Verge")


def test_a_negative_weight_and_a_share_over_a_hundred_are_told_with_what_is_allowed(home: Phone) -> None:
    acts.place(home, "Shed")
    home.tap("link", "Add a product")
    home.fill("Name", "Plain feed")
    home.fill("Net weight", "-50")
    home.fill("Nitrogen, N", "140")
    home.tap("button", "Save")
    home.see_complaint("Net weight", re.compile(r"lb"))
    home.see_complaint("Nitrogen, N", "100")
    assert (home.value("Name"), home.value("Net weight"), home.value("Nitrogen, N")) == ("Plain feed", "-50", "140")


def test_more_left_than_there_was_is_refused_beside_the_field(home: Phone, book: Book) -> None:
    book.zone("Verge")
    book.product("Plain feed")
    book.spreader("Push rotary")
    home.open("/spread")
    home.tap("checkbox", re.compile("^Verge"))
    acts.choose_walk(home, "Plain feed", "Push rotary")
    home.tap("button", re.compile("^Start pass 1 at dial"))
    home.tap("button", "Pass 1 done")
    home.fill("Weight left, hopper and bag", "900")
    home.see_complaint("Weight left, hopper and bag", re.compile(r"lb"))
    home.fill("Weight left, hopper and bag", "10")
    home.tap("button", "Save pass 1")
    home.see_role("heading", "Next dial")


def test_a_wrong_password_is_told_and_the_address_stays(phone: Phone, book: Book) -> None:
    phone.open("/enter")
    phone.fill("E-mail", book.email)
    phone.fill("Password", "not the right words")
    phone.tap("button", "Sign in")
    phone.see(re.compile("password", re.IGNORECASE))
    phone.see(re.compile(r"do not|not fit|wrong|match", re.IGNORECASE))
    assert phone.value("E-mail") == book.email
