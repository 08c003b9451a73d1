"""Two members of one household on one phone: each has a book of their own, and nobody sends what another entered."""

import re

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server


def second_person(phone: Phone, link: str) -> str:
    """Join on this phone as somebody new; their address."""
    email = acts.new_email()
    phone.goto(link)
    phone.fill("Your name", "Second Keeper")
    phone.fill("E-mail", email)
    phone.fill("Password", acts.PASSWORD)
    phone.tap("button", "Join")
    phone.see_role("heading", "Today")
    return email


def sign_out(phone: Phone) -> None:
    phone.open("/household")
    phone.tap("button", "Sign out on this phone")


def test_f18_s21_nothing_of_one_member_is_sent_under_the_others_sign_in(
    phone: Phone, server: Server, book: Book
) -> None:
    zone = book.zone("Verge")
    acts.sign_in(phone, book.email)
    acts.wait_installed(phone)
    link = acts.invite(phone)
    phone.open(f"/ground/{zone}/edit")
    phone.see_role("button", "Save the zone")
    server.stop()
    phone.fill("Zone name", "North verge")
    phone.tap("button", "Save the zone")
    phone.see_role("heading", "North verge")

    # A full outbox is asked about; keeping is what happens.
    sign_out(phone)
    phone.see("Not sent yet: 1 entry")
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", "Sign out and keep them here")
    phone.see("First Keeper has 1 entry on this phone that is not sent yet.")
    server.start()

    second_person(phone, link)
    acts.place(phone, "Ground")
    phone.see("Verge")
    assert not phone.sees("North verge")
    phone.see_role("link", re.compile("^All saved$"))
    acts.wait_waiting(phone, 1)  # of the first, in a book of their own

    sign_out(phone)
    phone.see_role("button", "Sign in")
    acts.sign_in(phone, book.email)
    acts.all_saved(phone)
    acts.place(phone, "Ground")
    phone.see("North verge")
    phone.open("/household")
    phone.see("Signed in as First Keeper")
