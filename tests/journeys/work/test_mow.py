"""Grass that has grown too long is brought down a third at a time, by a mower whose notches were measured; offline."""

import re
from typing import Any

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

NAME = "Self-propelled mower with the wide deck from the old garage!"  # 60 letters
NOTCHES = {"1": "1.5", "2": "2", "3": "2.5", "4": "3", "5": "4", "6": "5"}
LARGE = "document.documentElement.style.fontSize = arguments[0]"
# Two taps of a thumb that shakes, on whatever lies there by then.
TWICE = """
const button = [...document.querySelectorAll("dialog[open] button")].find((one) => one.textContent === arguments[0]);
button.click();
return new Promise((done) => setTimeout(() => { button.click(); done(true); }, 150));
"""


@pytest.fixture
def yard(phone: Phone, book: Book) -> Phone:
    """A phone with one zone that is kept at 3 in, and no signal from now on."""
    cut = {"cut_height_mm": 76.2, "cut_height_typed": {"amount": "3", "unit": "height_in"}, "mow_every_days": 3.5}
    book.zone("Verge", grass={"grass": "tall_fescue"}, cut=cut)
    phone.size(360, 640)
    acts.signed_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    return phone


SHOW = """
const found = [...document.querySelectorAll(arguments[0])].find((one) => one.textContent.includes(arguments[1]));
found.scrollIntoView({block: "center", behavior: "instant"});
return true;
"""


def shot(phone: Phone, name: str, selector: str, text: str) -> None:
    """A picture of the part of the page that holds this text."""
    phone.evaluate(SHOW, selector, text)
    phone.screenshot(name)


def faults(phone: Phone) -> list[str]:
    return phone.axe() + phone.layout_faults()


def at_200(phone: Phone) -> list[str]:
    """Faults of layout with letters twice as large."""
    phone.evaluate(LARGE, "200%")
    try:
        phone.screenshot("large")
        return phone.layout_faults()
    finally:
        phone.evaluate(LARGE, "")


def add_mower(phone: Phone) -> None:
    acts.place(phone, "Shed")
    phone.tap("link", "Add a mower")
    phone.fill("Name", NAME)
    phone.tap("button", "Add a notch")
    for label, inches in NOTCHES.items():
        phone.fill(f"Height of notch {label}", inches)
    assert faults(phone) == []
    phone.screenshot("mower-edit")
    phone.tap("button", "Save")
    phone.see_role("heading", NAME)


def open_sheet(phone: Phone) -> None:
    acts.place(phone, "Today")
    phone.tap("button", "Log a mow with details")
    phone.see_role("dialog", "Log a mow")


def mows(book: Book) -> list[dict[str, Any]]:
    return [one["body"] for one in book.entries() if one["body"]["kind"] == "mow"]


def test_an_overgrown_zone_comes_down_by_thirds_and_is_planned_anew_from_what_was_cut(
    yard: Phone, book: Book, server: Server
) -> None:
    add_mower(yard)
    yard.see("Sharpening not on record.")
    yard.see(re.compile("spark plug lead"))
    assert faults(yard) == []
    yard.screenshot("mower")
    acts.wait_installed(yard)
    server.stop()
    open_sheet(yard)
    yard.see(re.compile(r"3.in: notch 4"))
    yard.fill("Height before", "6")
    yard.see(re.compile(r"Tonight: cut to 4.in: notch 5\. Takes 33%"))
    yard.see(re.compile(r"cut to 3.in: notch 4\. Takes 25%"))
    assert faults(yard) == []
    assert at_200(yard) == []
    shot(yard, "mow-sheet", "dialog[open] li", "Tonight")
    # a notch too low for one cut is named, and not forbidden: it says what was done
    yard.choose("Notch", re.compile("^4 "))
    yard.see("More than a third of the blade")
    yard.see(re.compile("More than a third on purpose"))
    shot(yard, "mow-sheet-third", "dialog[open] legend", "on purpose")
    assert faults(yard) == []
    # really cut higher than planned
    yard.choose("Notch", re.compile("^6 "))
    yard.see("Within the one-third rule.")
    yard.fill("Minutes mowed", "35")
    yard.choose("Direction", "Lengthwise")
    yard.evaluate(TWICE, "Save the mow")
    yard.see("Mow logged.")
    # planned anew from the 5 in that were cut: to 4 in first, 3 in after it
    open_sheet(yard)
    yard.see(re.compile(r"Last cut to 5.in, still on its way down"))
    yard.see(re.compile(r"\d+.*: cut to 4.in: notch 5\. Takes 20%"))
    assert not yard.sees(re.compile("^Tonight"))  # three days after the cut of today
    yard.see("Last time: lengthwise.")
    shot(yard, "mow-sheet-again", "dialog[open] li", "Takes")
    yard.tap("button", "Close")
    server.start()
    yard.wait(lambda: len(mows(book)) == 1, "the mow does not reach the book", 120)
    [made] = mows(book)
    assert (made["notch"], made["cut_height_mm"], made["height_before_by"]) == ("6", 127.0, "ruler")
    assert (made["minutes"], made["direction"], made["height_before_error_mm"]) == (35, "lengthwise", 3)
    acts.place(yard, "Log")
    yard.see(re.compile("notch 6"))
    yard.tap("link", re.compile("^Mow"))
    yard.see(re.compile("Still above 3.in"))
    assert faults(yard) == []
    shot(yard, "mow-entry", "h2", "The cut")
    acts.place(yard, "Shed")
    yard.tap("link", re.compile("^Self-propelled"))
    yard.see(re.compile(r"0\.6.h"))


FIELD = """
const field = (label) => document.querySelector(`input[aria-label="${label}"]`)
  ?? document.getElementById([...document.querySelectorAll("label")].find((one) => one.textContent === label)?.htmlFor);
"""
HURRIED = f"""{FIELD}
const type = (label, text) => {{
  const found = field(label);
  Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set.call(found, text);
  found.dispatchEvent(new Event("input", {{ bubbles: true }}));
}};
const [first, second] = arguments;
// Asked for before anything that drawing could ask for: what is drawn must not have waited for a task of its own.
const {{ port1, port2 }} = new MessageChannel();
const pressed = new Promise((done) => {{ port1.onmessage = () => {{ type(...second); done(true); }}; }});
port2.postMessage(0);
type(...first);
return pressed;
"""


def test_a_key_pressed_right_after_another_loses_neither(yard: Phone) -> None:
    yard.open("/shed/mower/new")
    labels = ("Height of notch 1", "Height of notch 2")

    def held() -> list[str]:
        return [str(yard.evaluate(FIELD + "return field(arguments[0])?.value ?? null", label)) for label in labels]

    yard.wait(lambda: held() == ["", ""], "the two heights are not drawn")
    yard.evaluate(HURRIED, ["Height of notch 1", "1.5"], ["Height of notch 2", "2.5"])

    yard.wait(lambda: held() == ["1.5", "2.5"], "a key was lost")
