"""Two phones of one household, apart and together again."""

from collections.abc import Callable

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server


def test_f29_of_two_edits_made_apart_one_stands_and_the_other_is_offered(
    new_phone: Callable[[], Phone], server: Server, book: Book
) -> None:
    zone = book.zone("Verge")
    first, second = new_phone(), new_phone()
    for phone in (first, second):
        acts.signed_in(phone, book.email)
        acts.wait_installed(phone)
        phone.open(f"/ground/{zone}/edit")
        phone.see_role("button", "Save the zone")
    server.stop()
    rename(first, "North verge")
    rename(second, "Street verge")
    server.start()
    for phone in (first, second):
        phone.open("/")
        acts.all_saved(phone)

    # The second wrote later, so its name stands; the first one's was kept and is offered.
    for phone in (first, second):
        phone.open("/household")
        phone.see("Changed on two phones")
        phone.see("North verge")
    first.tap("button", "Restore the other: Zone: Street verge")
    first.see("Restored.")
    acts.all_saved(first)
    second.open(f"/ground/{zone}")
    second.see_role("heading", "North verge")
    second.open("/household")
    second.see_role("heading", "Members")
    second.gone("Changed on two phones")


def rename(phone: Phone, name: str) -> None:
    phone.fill("Zone name", name)
    phone.tap("button", "Save the zone")
    phone.see_role("heading", name)
    acts.wait_waiting(phone, 1)


def test_a_mow_of_one_phone_counts_on_the_other(new_phone: Callable[[], Phone], book: Book) -> None:
    book.zone("Verge")
    first, second = new_phone(), new_phone()
    for phone in (first, second):
        acts.signed_in(phone, book.email)
        phone.see("Not mowed yet")
    first.tap("button", "Mowed the whole yard")
    first.see("Whole yard: mow logged.")
    acts.all_saved(first)
    second.open("/")
    second.see_role("button", "Mowed again: Verge")
