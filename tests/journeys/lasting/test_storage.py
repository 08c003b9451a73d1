"""The phone's own store refuses or goes away: nothing is written by half, and what was typed stays (F37, F38).

Chromium is given a quota by DevTools, and truly refuses. WebKitGTK has no such call and no quota that a test could
fill; there the page's own database answers as WebKit does when it is full. Neither browser can be made to lose a
connection from outside, so a connection lost in the background is one that is closed under the app.
"""

from collections.abc import Callable
from urllib.parse import urlsplit

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.chromium import Chromium
from tests.journeys.phone import Phone

FULL = """
for (const how of ["add", "put"]) {
  const real = IDBObjectStore.prototype[how];
  window["real-" + how] = real;
  IDBObjectStore.prototype[how] = function () { throw new DOMException("full", "QuotaExceededError"); };
}
"""
ROOM = 'for (const how of ["add", "put"]) IDBObjectStore.prototype[how] = window["real-" + how];'
# The connection of the next write is closed as soon as that write is done, without the app's being told.
CLOSE = """
const real = IDBTransaction.prototype.objectStore;
IDBTransaction.prototype.objectStore = function (name) {
  if (name === "drafts" && this.mode === "readwrite") {
    IDBTransaction.prototype.objectStore = real;
    this.addEventListener("complete", () => { this.db.close(); window.lost = true; });
  }
  return real.call(this, name);
};
"""


def fill_up(phone: Phone) -> Callable[[], None]:
    """Leave no room for this origin; what makes room again."""
    if not isinstance(phone, Chromium):
        phone.evaluate(FULL)
        return lambda: phone.evaluate(ROOM)
    # Chromium remembers for half a minute how much room there was: a fresh one asks. What was typed comes back.
    here = phone.path()
    phone.restart()
    devtools, origin = phone.devtools(), "{0.scheme}://{0.netloc}".format(urlsplit(phone.base_url))
    devtools.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": 1})
    phone.open(here)
    phone.wait(lambda: phone.value("Name") == "Old faithful", "what was typed did not come back")

    def make_room() -> None:
        devtools.send("Storage.overrideQuotaForOrigin", {"origin": origin})

    return make_room


@pytest.fixture
def typed(phone: Phone, book: Book) -> Phone:
    """A phone with a label half read: everything typed, nothing saved."""
    acts.sign_in(phone, book.email)
    phone.open("/shed/spreader/new")
    for field, text in (("Name", "Old faithful"), ("Lowest number", "1"), ("Highest number", "24")):
        phone.fill(field, text)
    for field, text in (("One click", "0.5"), ("Swath: distance between strips", "5"), ("Walking speed", "3")):
        phone.fill(field, text)
    acts.wait_drafted(phone, "Old faithful", "0.5")
    acts.wait_waiting(phone, 0)
    return phone


def test_f37_without_room_nothing_is_half_written_and_the_form_keeps_what_was_typed(typed: Phone) -> None:
    make_room = fill_up(typed)
    typed.tap("button", "Save")
    typed.see_role("heading", "No space left on this phone")
    assert acts.outbox(typed) == []
    typed.see("Not saved. What you typed is still there.")
    make_room()
    typed.tap("button", "Close")
    assert typed.value("Name") == "Old faithful"
    typed.tap("button", "Save")
    typed.see_role("heading", "Shed")
    typed.see("Old faithful")
    acts.all_saved(typed)


def test_f38_a_save_on_a_connection_that_was_lost_is_made_on_a_new_one(typed: Phone, book: Book) -> None:
    typed.evaluate(CLOSE)
    typed.fill("Name", "Old and faithful")
    typed.wait(lambda: typed.evaluate("return window.lost === true"), "the connection still stands")
    typed.tap("button", "Save")
    typed.see_role("heading", "Shed")
    typed.see("Old and faithful")
    acts.all_saved(typed)
    book.cursor = 0
    spreaders = [record for record in book.sync([])["changes"] if record["t"] == "spreader"]
    assert len(spreaders) == 1
