"""Without signal the app opens at every place and keeps what is entered, whatever happens to its page."""

import re

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.chromium import Chromium
from tests.journeys.phone import Phone
from tests.journeys.server import Server

ADDRESSES = {
    "/": "Today",
    "/ground": "Ground",
    "/ground/new": "Measure a zone",
    "/shed": "Shed",
    "/shed/product/new": "New product",
    "/shed/spreader/new": "New spreader",
    "/season": "Season",
    "/log": "Log",
    "/household": "Trial yard",
    "/spread": "New spreading job",
}


@pytest.fixture
def kept(phone: Phone, book: Book) -> Phone:
    """A phone that has the app and a household with one zone."""
    book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    return phone


def test_every_place_opens_anew_while_the_server_is_stopped(kept: Phone, server: Server) -> None:
    server.stop()
    kept.restart()
    for path, heading in ADDRESSES.items():
        kept.open(path)
        kept.see_role("heading", heading)
        kept.reload()
        kept.see_role("heading", heading)
        assert kept.path() == path


def test_every_place_opens_anew_with_the_network_emulated_away(kept: Phone, server: Server) -> None:
    if not isinstance(kept, Chromium):
        server.stop()  # WebKit has no such emulation: cut for real, and only moving about within the app is new
        for name in acts.PLACES:
            acts.place(kept, name)
        return
    kept.offline(True)
    for path, heading in ADDRESSES.items():
        kept.open(path)
        kept.see_role("heading", heading)
    assert kept.evaluate("return fetch('/api/v1/accounts/me').then(() => 'reached', () => 'cut')") == "cut"


def test_a_mow_ticked_as_the_server_dies_is_sent_when_it_is_back(kept: Phone, server: Server) -> None:
    server.kill()
    kept.tap("button", "Mowed: Verge")
    kept.see("Verge: mow logged.")
    kept.reload()
    kept.see_role("button", "Mowed again: Verge")
    kept.see("Waiting to be sent")
    server.start()
    kept.reload()
    acts.all_saved(kept)
    kept.gone("Waiting to be sent")


def test_a_mow_is_taken_back_within_ten_seconds(kept: Phone) -> None:
    kept.tap("button", "Mowed: Verge")
    kept.tap("button", "Undo")
    kept.see("Undone.")
    kept.see_role("button", "Mowed: Verge")
    kept.see("Not mowed yet")
    kept.reload()
    kept.see("Not mowed yet")


# How many animation frames after the tap the page is taken away.
@pytest.mark.parametrize("frames", [0, 1, 3])
def test_f01_a_page_killed_after_the_tap_leaves_a_whole_entry_or_none(kept: Phone, server: Server, frames: int) -> None:
    server.stop()
    kept.see_role("button", "Mowed: Verge")
    kept.evaluate(TAP, "Mowed: Verge", frames)
    kept.kill_page()
    kept.open("/")
    kept.see_role("heading", "Today")  # whose book it is outlives the kill, seconds after the sign-in
    acts.place(kept, "Log")
    acts.place(kept, "Today")
    kept.see_role("button", re.compile("^Mowed( again)?: Verge"))
    entries = [item for op in acts.outbox(kept) for item in op["m"]]
    assert [item["body"]["kind"] for item in entries] in ([], ["mow"])
    kept.see_role("button", "Mowed again: Verge" if entries else "Mowed: Verge")
    kept.rest()
    assert kept.sees_role("button", "Mowed again: Verge") == bool(entries)


TAP = """
__journey.one("button", arguments[0]).click();
const frame = () => new Promise((done) => requestAnimationFrame(done));
let waited = Promise.resolve();
for (let left = arguments[1]; left > 0; left -= 1) waited = waited.then(frame);
return waited.then(() => true);
"""
