"""What two phones wrote apart, settled by anybody, without signal too, and gone on every phone afterwards."""

import re
from collections.abc import Callable

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server


def test_f31_s02_a_deletion_that_met_an_edit_is_offered_and_restored_without_signal(
    new_phone: Callable[[], Phone], server: Server, book: Book
) -> None:
    zone = book.zone("Verge")
    first, second = new_phone(), new_phone()
    for phone in (first, second):
        acts.signed_in(phone, book.email)
        acts.wait_installed(phone)
    first.open(f"/ground/{zone}")
    first.see_role("button", "Remove this zone")
    second.open(f"/ground/{zone}/edit")
    second.see_role("button", "Save the zone")
    server.stop()
    first.tap("button", "Remove this zone")
    first.tap("button", "Remove")
    second.fill("Zone name", "Street verge")
    second.tap("button", "Save the zone")
    for phone in (first, second):
        acts.wait_waiting(phone, 1)
        phone.put_away()
    server.start()
    # The edit arrives first, then the deletion that knew nothing of it: the zone stays.
    for phone in (second, first):
        phone.open("/")
        acts.all_saved(phone)

    first.open("/household")
    first.see("Changed on two phones")
    first.see("Removed")
    first.see("Street verge")
    assert first.axe() + first.layout_faults() == []
    server.stop()
    first.tap("button", "Restore the other: Zone: Street verge")
    first.see("Restored.")
    first.gone("Changed on two phones")
    first.put_away()
    server.start()
    first.open("/")
    acts.all_saved(first)

    second.open("/household")
    second.see_role("heading", "Members")
    second.gone("Changed on two phones")
    acts.place(second, "Ground")
    second.gone("Street verge")
    assert not second.sees_role("link", re.compile("verge"))
