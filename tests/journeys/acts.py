"""What a person does in the app, in a person's words; each act ends when the app says that it is done."""

import itertools
import re
from dataclasses import dataclass
from typing import Any

from tests.journeys.chromium import Chromium
from tests.journeys.phone import Phone
from tests.journeys.server import Server

PASSWORD = "four plain garden words"
PLACES = ("Today", "Ground", "Shed", "Season", "Log")
_numbers = itertools.count(1)

INSTALLED = """return navigator.serviceWorker.getRegistration().then((found) =>
  found?.active?.state === "activated" && !!navigator.serviceWorker.controller)"""

OUTBOX = """
const read = (name) => new Promise((done, fail) => {
  const opening = indexedDB.open(name);
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const db = opening.result;
    const close = (value) => { db.close(); done(value); };
    if (!db.objectStoreNames.contains("outbox")) return close([]);
    const asked = db.transaction("outbox").objectStore("outbox").getAll();
    asked.onsuccess = () => close(asked.result);
  };
});
return indexedDB.databases().then((all) => Promise.all(all.map(({name}) => read(name)))).then((found) => found.flat());
"""
META = OUTBOX.replace("outbox", "meta")
DRAFTS = OUTBOX.replace("outbox", "drafts").replace("found.flat()", "JSON.stringify(found)")


def new_email() -> str:
    """An address nobody else of this run has."""
    return f"keeper{next(_numbers)}@journeys.example"


def sign_up(phone: Phone, email: str, household: str = "Trial yard") -> None:
    """Start a new book."""
    phone.open("/enter")
    phone.choose("What would you like to do?", "Start a new book")
    phone.fill("Your name", "First Keeper")
    phone.fill("E-mail", email)
    phone.fill("Password", PASSWORD)
    phone.fill("Household", household)
    phone.tap("button", "Start the book")
    phone.see_role("heading", "Today")


def sign_in(phone: Phone, email: str, password: str = PASSWORD) -> None:
    """Sign in to a book kept already."""
    phone.open("/enter")
    phone.fill("E-mail", email)
    phone.fill("Password", password)
    phone.tap("button", "Sign in")
    phone.see_role("heading", "Today")


# What a sign-in leaves on a phone: the cookie, and who it is, in both places that the app looks in
# (frontend/src/platform/session). test_harness.py holds it to what a sign-in by hand leaves.
SIGN_IN = """
const [email, password] = [arguments[0], arguments[1]];
const asked = {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify({email, password})};
const done = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});
const keep = (kept) => {
  const opening = indexedDB.open("evenfall", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("kept");
  return done(opening).then((db) => {
    const writing = db.transaction("kept", "readwrite", {durability: "strict"});
    writing.objectStore("kept").put(kept, "evenfall.session");
    return new Promise((resolve, reject) => {
      writing.oncomplete = () => { db.close(); resolve(true); };
      writing.onabort = () => reject(writing.error);
    });
  });
};
return fetch("/api/v1/accounts/sign-in", asked).then((answer) => {
  if (!answer.ok) throw new Error(`signing in was answered with ${answer.status}`);
  return answer.json();
}).then(({person, households}) => {
  const [{id, name, member_id, role}] = households;
  const kept = {session: {person, household: {id, name}, member_id, role, households}, at: Date.now()};
  localStorage.setItem("evenfall.session", JSON.stringify(kept));
  return keep(kept);
});
"""
BARE = "/api/v1/accounts/me"  # a page of this origin in which no app runs


def signed_in(phone: Phone, email: str, password: str = PASSWORD) -> None:
    """Open the app where that person signed in before. Journeys about signing in do it by hand: `sign_in`."""
    phone.open(BARE)
    phone.evaluate(SIGN_IN, email, password)
    phone.open("/")
    phone.see_role("heading", "Today")


def join(phone: Phone, link: str, name: str) -> None:
    """Follow an invitation as somebody new."""
    phone.goto(link)
    phone.fill("Your name", name)
    phone.fill("E-mail", new_email())
    phone.fill("Password", PASSWORD)
    phone.tap("button", "Join")
    phone.see_role("heading", "Today")


def invite(phone: Phone) -> str:
    """Make an invitation; its link."""
    phone.open("/household")
    phone.tap("button", "Make an invitation")
    return phone.wait(lambda: phone.value("Link"), "no link")


def place(phone: Phone, name: str) -> None:
    """Go to one of the five places by the bar."""
    phone.tap("link", name, inside=("navigation", "Places"))
    phone.see_role("heading", name)


INSTALLING_S = 180.0  # some forty files are fetched and kept; a crowded machine takes its time


def wait_installed(phone: Phone) -> None:
    """Wait until the app is kept on the phone, so that signal may go."""
    phone.wait(lambda: phone.evaluate(INSTALLED), "the app is not kept on the phone", INSTALLING_S)


def waiting(phone: Phone) -> int:
    """How many ops wait in this phone's outbox, read from its database itself."""
    return len(outbox(phone))


def outbox(phone: Phone) -> list[dict[str, Any]]:
    """The ops that wait in this phone's outbox, as they are stored."""
    return list(phone.evaluate(OUTBOX))


def all_saved(phone: Phone) -> None:
    """Wait until everything entered has reached the server."""
    phone.wait(lambda: waiting(phone) == 0, "the outbox does not empty")
    phone.see_role("link", re.compile(r"^All saved$"))


def wait_waiting(phone: Phone, count: int) -> None:
    """Wait until so many ops wait in the outbox."""
    phone.wait(lambda: waiting(phone) == count, f"not {count} in the outbox")


def wait_on_its_way(phone: Phone) -> None:
    """Wait until an op that waits may have left: the phone notes how far its numbers have gone."""

    def left() -> bool:
        gone = max((row.get("sent") or 0 for row in phone.evaluate(META)), default=0)
        return any(op["sent"] or op["dseq"] <= gone for op in outbox(phone))

    phone.wait(left, "nothing is on its way")


def wait_drafted(phone: Phone, *texts: str) -> None:
    """Wait until each of these texts, just typed, lies among the drafts on this phone."""
    phone.wait(lambda: all(text in str(phone.evaluate(DRAFTS)) for text in texts), f"{texts} not among the drafts")


@dataclass
class Signal:
    """Whether there is signal: cut by emulation where the browser can, by stopping the server, or both."""

    phone: Phone
    server: Server

    def emulate_cut(self) -> bool:
        """Cut this phone's network alone; False where the browser cannot."""
        if isinstance(self.phone, Chromium):
            self.phone.offline(True)
            return True
        return False

    def stop_server(self) -> None:
        """Cut everybody's signal, for real."""
        self.server.stop()

    def restore(self) -> None:
        """Back into signal."""
        if isinstance(self.phone, Chromium):
            self.phone.offline(False)
        self.server.start()


def measure_zone(phone: Phone, name: str) -> None:
    """Measure 50 ft by 40 ft with a bed of 20 ft by 10 ft cut out: 1,800 ft²."""
    phone.tap("link", "Measure a zone")
    phone.fill("Zone name", name)
    phone.fill("Length", "50", inside=("group", "1. Shape added"))
    phone.fill("Width", "40", inside=("group", "1. Shape added"))
    phone.see("2,000 ft²")
    phone.tap("button", "Subtract a shape")
    phone.fill("Length", "20", inside=("group", "2. Shape subtracted"))
    phone.fill("Width", "10", inside=("group", "2. Shape subtracted"))
    phone.see("1,800 ft²")
    phone.tap("button", "Save the zone")
    phone.see_role("heading", name)


def enter_product(phone: Phone, name: str) -> None:
    """Read a label: 48 lb that cover 4,800 ft², 23-0-9."""
    phone.open("/shed/product/new")
    phone.fill("Name", name)
    phone.fill("Net weight", "48")
    phone.fill("Bag covers", "4,800")
    phone.fill("Nitrogen, N", "23")
    phone.fill("Phosphate, P₂O₅", "0")
    phone.fill("Potash, K₂O", "9")
    phone.tap("button", "Save")
    phone.see_role("heading", "Shed")


def enter_spreader(phone: Phone, name: str) -> None:
    """Describe a rotary spreader with a dial of 1 to 24 in half clicks."""
    phone.open("/shed/spreader/new")
    phone.fill("Name", name)
    phone.fill("Lowest number", "1")
    phone.fill("Highest number", "24")
    phone.fill("One click", "0.5")
    phone.fill("Swath: distance between strips", "5")
    phone.fill("Walking speed", "3")
    phone.tap("button", "Save")
    phone.see_role("heading", "Shed")


def choose_walk(phone: Phone, product: str, spreader: str) -> None:
    """From the spreading job's first step to its load: product, spreader, the label's rate, every caution ticked."""
    phone.choose("Product", re.compile("^" + re.escape(product)))
    phone.choose("Spreader", spreader)
    phone.tap("button", "Next: amount")
    phone.see("Label rate")
    on_to_care(phone)
    tick_all(phone)
    phone.tap("button", "Next: load")
    phone.see_role("heading", "Load and dial")


def on_to_care(phone: Phone) -> None:
    """From the amount to the cautions; what speaks against the job is answered where anything does."""
    phone.tap("button", "Next: safety")
    asked = re.compile("^I read")
    for at in range(phone.count("checkbox", asked)):
        phone.tap("checkbox", asked, nth=at)
        phone.wait(lambda at=at: ticked(phone) > at, f"warning {at + 1} is not answered")  # type: ignore[misc]
    if phone.count("checkbox", asked):
        phone.tap("button", "Next: safety")
    phone.see_role("heading", "Safety check")


def tick_all(phone: Phone) -> None:
    """Tick every box on the page, one by one."""
    anything = re.compile(".")
    phone.see_role("checkbox", anything)
    for at in range(phone.count("checkbox", anything)):
        phone.tap("checkbox", anything, nth=at)
        phone.wait(lambda at=at: ticked(phone) > at, f"box {at + 1} is not ticked")  # type: ignore[misc]


def ticked(phone: Phone) -> int:
    """How many boxes are ticked."""
    return int(phone.evaluate("return document.querySelectorAll('input[type=checkbox]:checked').length"))


def walk_pass(phone: Phone, number: int, left: str) -> None:
    """Walk one pass in the yard and weigh what is left."""
    phone.see_role("heading", re.compile(f"^Pass {number} of"))
    phone.tap("button", f"Pass {number} done")
    phone.fill("Weight left, hopper and bag", left)
    phone.tap("button", f"Save pass {number}")
    phone.see_role("heading", f"Pass {number} saved")


def dial_shown(phone: Phone) -> float:
    """The setting that stands on the yard screen."""
    shown = phone.wait(
        lambda: phone.evaluate("return document.querySelector('output[aria-label^=\"Set the dial\"]')?.textContent"),
        "no dial on the screen",
    )
    return float(shown)
