"""Today is on the screen before the app is: drawn in advance, kept in local storage, and no older than the book."""

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

DRAWN = "return Object.keys(localStorage).filter((key) => key.startsWith('evenfall.frame.')).sort().join()"
TODAYS = "return localStorage.getItem(Object.keys(localStorage).filter((key) => key.includes('.frame.')).sort()[0])"
# What the phone keeps as the app's script says nothing from now on: what is drawn after that is drawn without it. (Only
# taking it away would have the browser look in a cache of its own.)
TAKE_APP_AWAY = """
const isApp = ({ url }) => /\\/first-[^/]+\\.js/.test(url);
const nothing = () => new Response("", { headers: { "Content-Type": "text/javascript" } });
const empty = (cache) => (all) => Promise.all(all.filter(isApp).map((one) => cache.put(one, nothing())));
const without = (cache) => cache.keys().then(empty(cache));
return caches.keys()
  .then((names) => Promise.all(names.map((name) => caches.open(name).then(without))))
  .then((gone) => gone.flat().length);
"""


@pytest.fixture
def kept(phone: Phone, book: Book) -> Phone:
    """A phone that has the app, a household with one zone, and Today drawn in advance."""
    book.zone("Verge")
    acts.sign_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    acts.all_saved(phone)
    phone.wait(lambda: phone.evaluate(DRAWN), "Today is not drawn in advance")
    return phone


def test_what_is_due_is_on_the_screen_without_the_app(kept: Phone, server: Server) -> None:
    server.stop()
    assert kept.evaluate(TAKE_APP_AWAY) == 1
    kept.restart()
    kept.open("/")
    kept.see_role("heading", "Today")
    kept.see_role("button", "Mowed: Verge")
    kept.see("as of")
    assert kept.axe() == []


def test_the_app_takes_over_what_is_on_the_screen(kept: Phone, server: Server) -> None:
    server.stop()
    kept.restart()
    kept.open("/")
    kept.tap("button", "Mowed: Verge")
    kept.see_role("button", "Mowed again: Verge")


def test_nothing_drawn_in_advance_outlives_what_is_entered(kept: Phone) -> None:
    before = kept.evaluate("return localStorage.getItem('evenfall.look')")
    kept.tap("button", "Mowed: Verge")
    kept.see_role("button", "Mowed again: Verge")
    kept.wait(
        lambda: (
            kept.evaluate("return localStorage.getItem('evenfall.look')") not in (None, before) and kept.evaluate(DRAWN)
        ),
        "Today is not drawn anew",
    )
    assert "Mowed again" in kept.evaluate(TODAYS)
