"""Several tabs of one book: all may write, one sends, and none is needed (S16, F39 to F41)."""

import re
from functools import partial

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

BARE = "/api/v1/accounts/me"  # a page of this origin in which no app runs
TAKEOVER_S = 90.0  # a frozen leader is given 30 s; the rest is room for a crowded machine

# The tables of the first layout, held open by a page that does not let go.
HOLD = """
const name = arguments[0];
const gone = new Promise((done) => { indexedDB.deleteDatabase(name).onsuccess = done; });
return gone.then(() => new Promise((done, fail) => {
  const opening = indexedDB.open(name, 10);
  opening.onupgradeneeded = () => {
    const db = opening.result;
    for (const table of ["base", "drafts", "meta"]) db.createObjectStore(table, {keyPath: "key"});
    const live = db.createObjectStore("live", {keyPath: "key"});
    live.createIndex("t", "t"); live.createIndex("[t+rev]", ["t", "rev"]);
    db.createObjectStore("outbox", {keyPath: "op"}).createIndex("dseq", "dseq");
    db.createObjectStore("parked", {keyPath: "op"});
  };
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    window.held = opening.result;
    window.held.onversionchange = () => undefined;  // heard, and not heeded
    done(true);
  };
}));
"""
BOOK_NAME = "return indexedDB.databases().then((all) => all.map((one) => one.name).find((name) => name.includes(':')))"
BRING_UP = """
const name = arguments[0];
return indexedDB.databases().then((all) => new Promise((done, fail) => {
  const opening = indexedDB.open(name, all.find((one) => one.name === name).version + 10);
  opening.onupgradeneeded = () => opening.result.createObjectStore("tomorrow");
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => { const {version} = opening.result; opening.result.close(); done(version); };
}));
"""
TAP = """
const found = __journey.one("button", arguments[0]);
if (!found || document.documentElement.hasAttribute("data-resting")) return false;
found.click();
return true;
"""
# The round of a phone that hears no news comes after nearly a minute: here, never.
NO_IDLE_ROUNDS = """
const real = window.setTimeout;
window.setTimeout = (work, ms, ...given) => (ms >= 40000 ? 0 : real(work, ms, ...given));
"""


@pytest.fixture
def two_tabs(phone: Phone, book: Book) -> Phone:
    """A phone with the app open in two tabs, both in view; the first one leads."""
    for name in ("Verge", "Side"):
        book.zone(name)
    acts.sign_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    phone.add_tab()
    phone.open("/")
    phone.see_role("button", "Mowed: Side")
    return phone


def test_f39_two_tabs_save_at_once_and_everything_is_sent_once(two_tabs: Phone, server: Server, book: Book) -> None:
    server.stop()
    for times in range(3):
        for tab, zone in ((0, "Verge"), (1, "Side")):
            two_tabs.show_tab(tab)
            button = noted(zone, times)
            two_tabs.see_role("button", button)  # the other tab's save is drawn here too, in its own time
            two_tabs.wait(lambda button=button: tapped(two_tabs, button), f"no {button!r}")  # type: ignore[misc]
    two_tabs.wait(lambda: acts.waiting(two_tabs) == 6, "six entries in the outbox")
    assert sorted(op["dseq"] for op in acts.outbox(two_tabs)) == [1, 2, 3, 4, 5, 6]
    server.start()
    two_tabs.reload()
    acts.all_saved(two_tabs)
    two_tabs.show_tab(0)
    acts.all_saved(two_tabs)
    assert len({entry["id"] for entry in book.entries()}) == len(book.entries()) == 6


def tapped(phone: Phone, button: str) -> bool:
    """Tap it at once, without waiting for it to stand still; False where it is not there."""
    phone.put_finder()
    return bool(phone.evaluate(TAP, button))


def noted(zone: str, times: int) -> str:
    """The name of a zone's button: noted once, it says so."""
    return f"Mowed again: {zone}" if times else f"Mowed: {zone}"


def test_s16_the_other_tab_sends_once_the_leading_one_is_closed(two_tabs: Phone, book: Book) -> None:
    two_tabs.show_tab(0)
    two_tabs.close_tab()
    two_tabs.tap("button", "Mowed: Side")
    two_tabs.see("Side: mow logged.")
    acts.all_saved(two_tabs)
    assert len(book.entries()) == 1


def test_f40_a_frozen_leader_is_taken_over_and_follows_when_it_goes_on(two_tabs: Phone, book: Book) -> None:
    go_on = two_tabs.freeze_tab(0)
    two_tabs.tap("button", "Mowed: Side")
    two_tabs.see("Side: mow logged.")
    two_tabs.wait(lambda: acts.waiting(two_tabs) == 0, "nobody took over from the frozen tab", TAKEOVER_S)
    go_on()
    two_tabs.show_tab(0)
    two_tabs.tap("button", "Mowed: Verge")
    two_tabs.see("Verge: mow logged.")
    acts.all_saved(two_tabs)
    assert len({entry["id"] for entry in book.entries()}) == len(book.entries()) == 2


def test_f41_the_older_page_lets_the_newer_one_go_on_and_keeps_what_is_typed(two_tabs: Phone, book: Book) -> None:
    two_tabs.open("/shed/product/new")
    two_tabs.fill("Name", "Half typed")
    two_tabs.show_tab(0)
    two_tabs.open(BARE)  # it stands for the newer build
    name = two_tabs.evaluate(BOOK_NAME)
    newer = two_tabs.evaluate(BRING_UP, name)
    two_tabs.show_tab(1)
    two_tabs.see("This page is older than another tab.")
    two_tabs.fill("Name", "Typed to the end")
    two_tabs.tap("button", "Reload")
    two_tabs.wait(lambda: two_tabs.value("Name") == "Typed to the end", "what was typed is gone")
    acts.place(two_tabs, "Today")
    two_tabs.tap("button", "Mowed: Side")
    two_tabs.see("Side: mow logged.")
    acts.all_saved(two_tabs)
    assert len(book.entries()) == 1
    assert (
        two_tabs.evaluate("return indexedDB.databases().then((all) => Math.max(...all.map((one) => one.version)))")
        == newer
    )


def test_f41_the_newer_page_waits_for_a_tab_that_does_not_let_go_and_says_so(two_tabs: Phone, book: Book) -> None:
    name = two_tabs.evaluate(BOOK_NAME)
    two_tabs.close_tab()
    two_tabs.open(BARE)
    two_tabs.evaluate(HOLD, name)
    two_tabs.add_tab()
    two_tabs.open("/")
    two_tabs.see("Another tab has an older version open.")
    two_tabs.show_tab(0)
    two_tabs.evaluate("window.held.close()")
    two_tabs.show_tab(1)
    two_tabs.gone("Another tab has an older version open.")
    two_tabs.see_role("button", re.compile("do it: Side"))  # the book is read again
    two_tabs.tap("button", "Mowed: Side")
    two_tabs.see("Side: mow logged.")
    acts.all_saved(two_tabs)
    assert len(book.entries()) == 1


def test_s17_what_another_phone_sends_is_seen_by_the_servers_news(phone: Phone, book: Book) -> None:
    """Without them it would come with an idle round. The first zone brings the last of those; there are no more."""
    acts.sign_in(phone, book.email)
    acts.wait_installed(phone)
    phone.evaluate(NO_IDLE_ROUNDS)
    for name in ("Verge", "Side", "Bank"):
        book.zone(name)
        found = partial(phone.sees_role, "button", f"Mowed: {name}")
        phone.wait(found, f"{name} does not come", TAKEOVER_S)
