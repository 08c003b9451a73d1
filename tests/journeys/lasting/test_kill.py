"""Killed at the worst moment: after the entry is on the disk, before it is sent (F2). F1 stands in test_offline."""

import re

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server


@pytest.fixture
def kept(phone: Phone, book: Book) -> Phone:
    """A phone that has the app and a household with one zone."""
    book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    return phone


def sent(phone: Phone, book: Book) -> None:
    """Wait until the entry is sent. A killed Chromium has kept it, and may have forgotten the cookie of seconds ago."""
    phone.wait(
        lambda: acts.waiting(phone) == 0 or phone.sees(re.compile("Sign in to send")), "neither sent nor asked for"
    )
    if acts.waiting(phone):
        phone.tap("link", re.compile("Sign in to send"))
        phone.tap("link", "Sign in again")
        phone.fill("E-mail", book.email)
        phone.fill("Password", acts.PASSWORD)
        phone.tap("button", "Sign in")
    phone.wait(lambda: acts.waiting(phone) == 0, "the entry is not sent")


def test_f02_an_entry_said_to_be_saved_outlives_a_kill_and_is_sent_once(
    kept: Phone, server: Server, book: Book
) -> None:
    server.stop()
    kept.tap("button", "Mowed: Verge")
    kept.see("Verge: mow logged.")
    kept.kill_page()
    kept.open("/")
    kept.see_role("button", "Mowed again: Verge")
    assert [op["dseq"] for op in acts.outbox(kept)] == [1]
    server.start()
    kept.reload()
    sent(kept, book)
    assert len(book.entries()) == 1


def test_f02_a_page_killed_while_it_sends_leaves_one_entry(kept: Phone, server: Server, book: Book) -> None:
    server.hang()
    kept.tap("button", "Mowed: Verge")
    acts.wait_on_its_way(kept)
    kept.kill_page()
    server.go_on()
    kept.open("/")
    kept.see_role("button", "Mowed again: Verge")
    sent(kept, book)
    assert len(book.entries()) == 1
