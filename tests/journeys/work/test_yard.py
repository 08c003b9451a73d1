"""What must not be recorded wrongly in the yard: by a thumb that shakes, by a mistake, by a step back."""

import re

import pytest

from tests.journeys import acts
from tests.journeys import heart_acts as heart
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

PRODUCT, SPREADER = "Plain 23-0-9", "Push rotary"
NAMES = ("Kitchen lawn", "Long side", "Street verge")
# Two taps of one thumb on one place of the screen, whatever lies there by the second.
SHAKE = """
const found = __journey.one("button", arguments[0]);
if (!found || document.documentElement.hasAttribute("data-resting")) return false;
found.scrollIntoView({block: "center"});
const box = found.getBoundingClientRect();
const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
const tap = () => document.elementFromPoint(x, y)?.closest("a, button, label")?.click();
tap();
return new Promise((done) => setTimeout(() => { tap(); done(true); }, arguments[1]));
"""
# Notes when the list was tapped, and when its order has changed since.
WATCHED = """
const list = document.querySelector("section[aria-labelledby=mowing]");
const order = () => [...list.querySelectorAll(".line__title")].map((one) => one.textContent).join();
const before = order();
let tapped;
list.addEventListener("click", () => { tapped = performance.now(); }, {capture: true, once: true});
const watch = new MutationObserver(() => {
  if (order() === before) return;
  window.__sorted_ms = performance.now() - tapped;
  watch.disconnect();
});
watch.observe(list, {subtree: true, childList: true, characterData: true});
"""
LISTED = """
return [...document.querySelectorAll("section[aria-labelledby=mowing] .line__title")].map((one) => one.textContent);
"""


@pytest.fixture
def yard(phone: Phone, book: Book) -> Phone:
    """A phone of the narrowest size, with three zones, a product and a spreader."""
    for name in NAMES:
        book.zone(name)
    book.product(PRODUCT)
    book.spreader(SPREADER)
    phone.size(360, 640)
    acts.signed_in(phone, book.email)
    phone.see_role("button", f"Mowed: {NAMES[-1]}")
    return phone


def shake(phone: Phone, button: str, ms: int = 250) -> None:
    """Tap it as a shaking thumb does: twice."""
    phone.put_finder()
    phone.wait(lambda: phone.evaluate(SHAKE, button, ms), f"no button {button!r} to tap twice")


def to_the_yard(phone: Phone, *names: str) -> None:
    """From Today into the yard with these zones."""
    phone.tap("link", "Start spreading")
    for name in names:
        phone.tap("checkbox", re.compile(f"^{name}"))
    phone.wait(lambda: acts.ticked(phone) == len(names), "the zones are not chosen")
    acts.choose_walk(phone, PRODUCT, SPREADER)
    phone.tap("button", re.compile("^Start pass 1 at dial"))
    phone.see_role("heading", re.compile("^Pass 1 of"))


def count_by(phone: Phone, zone: str, strips: int) -> None:
    """Say how many strips a zone without outline takes."""
    phone.fill(f"Strips in {zone}", str(strips))
    phone.tap("button", "Use this number")
    phone.see_role("button", "Strip 1 done")


def test_a_double_tap_notes_one_mow(yard: Phone) -> None:
    """C26: neither the next zone by the list's new order, nor the whole yard twice."""
    shake(yard, f"Mowed: {NAMES[0]}")
    yard.see(f"{NAMES[0]}: mow logged.")
    acts.place(yard, "Log")
    yard.wait(lambda: yard.count("link", re.compile("^Mow")) == 1, "not one mow")
    acts.place(yard, "Today")
    shake(yard, "Mowed the whole yard", 400)
    yard.see("Whole yard: mow logged.")
    acts.place(yard, "Log")
    yard.wait(lambda: yard.count("link", re.compile("^Mow")) == 2, "not two mows")


def test_the_list_keeps_its_order_under_the_thumb(yard: Phone) -> None:
    """C26: the zone just mowed goes down the list a while later, not at once."""
    assert yard.evaluate(LISTED) == list(NAMES)
    yard.evaluate(WATCHED)
    yard.tap("button", f"Mowed: {NAMES[0]}")
    later = [*NAMES[1:], NAMES[0]]
    yard.wait(lambda: yard.evaluate(LISTED) == later, "it is not sorted")
    assert yard.evaluate("return window.__sorted_ms") >= 2000


def test_the_last_strips_double_tap_does_not_end_the_pass(yard: Phone) -> None:
    """C26."""
    to_the_yard(yard, NAMES[0])
    count_by(yard, NAMES[0], 2)
    heart.count_strip(yard, 1)
    shake(yard, "Strip 2 done")
    yard.see_role("button", "Pass 1 done")
    yard.see_role("heading", re.compile("^Pass 1 of"))
    yard.tap("button", "Pass 1 done")
    yard.see_role("heading", "Left after pass 1")


def test_a_run_out_opened_by_mistake_is_not_preselected_later(yard: Phone) -> None:
    """C27."""
    to_the_yard(yard, NAMES[0])
    count_by(yard, NAMES[0], 5)
    heart.count_to(yard, 2)
    yard.tap("button", "It ran out")
    yard.see("How much did you cover?")
    yard.tap("button", "Back")
    heart.count_to(yard, 5)
    yard.tap("button", "Pass 1 done")
    yard.see("Weight left, hopper and bag")
    assert not yard.sees("How much did you cover?")
    yard.screenshot("left-after-mistake")


HEADINGS = ("New spreading job", "Amount", "Safety check", "Load and dial")
NO_WAY_BACK = "Nothing to go back to. Press Back again for Today."


def test_back_goes_a_step_back_in_the_job(yard: Phone, server: Server) -> None:
    """C28: without signal, and after a reload."""
    acts.wait_installed(yard)
    to_the_yard(yard, NAMES[0])
    server.stop()
    yard.reload()
    yard.see_role("heading", re.compile("^Pass 1 of"))
    for heading in reversed(HEADINGS):
        yard.back()
        yard.see_role("heading", heading)
    yard.back()
    yard.see_role("heading", "Today")
    yard.see("Continue")


def test_back_stays_in_the_yard_once_strips_are_counted(yard: Phone) -> None:
    """C28: also where the job is taken up again from Today."""
    to_the_yard(yard, NAMES[0])
    count_by(yard, NAMES[0], 3)
    heart.count_to(yard, 1)
    yard.back()
    yard.see(NO_WAY_BACK)
    yard.see_role("button", "Strip 2 done")
    yard.screenshot("no-way-back")
    yard.tap("link", "Pause and go to Today")
    yard.tap("link", "Continue")
    yard.see_role("button", "Strip 2 done")
    yard.gone(NO_WAY_BACK)
    yard.back()
    yard.see(NO_WAY_BACK)
    yard.see_role("button", "Strip 2 done")
    yard.back()
    yard.see_role("heading", "Today")


def test_back_closes_what_is_open_over_the_job(yard: Phone) -> None:
    """C28: a sheet, a look on the way, what is left."""
    to_the_yard(yard, NAMES[0])
    yard.tap("button", "Add product")
    yard.see_role("dialog", "Add product")
    yard.back()
    yard.wait(lambda: not yard.sees_role("dialog", "Add product"), "the sheet stays open")
    yard.see_role("heading", re.compile("^Pass 1 of"))
    yard.tap("button", "Add product")
    yard.tap("button", "Close")
    yard.wait(lambda: not yard.sees_role("dialog", "Add product"), "the sheet stays open")
    yard.tap("button", "Pass 1 done")
    yard.see_role("heading", "Left after pass 1")
    yard.back()
    yard.see_role("heading", re.compile("^Pass 1 of"))
    yard.tap("button", "Check")
    yard.see_role("heading", re.compile("^Check"))
    yard.back()
    yard.see_role("heading", re.compile("^Pass 1 of"))
    yard.back()
    yard.see_role("heading", "Load and dial")


def test_a_job_is_left_before_anything_went_down(yard: Phone) -> None:
    """C28: with nothing in the log, and a way back for a while."""
    to_the_yard(yard, NAMES[0])
    yard.screenshot("way-out")
    yard.tap("button", "End this job: nothing put down")
    yard.see_role("heading", "Today")
    yard.see("Job ended. Nothing is in the log.")
    yard.tap("button", "Undo")
    yard.tap("link", "Continue")
    yard.see_role("heading", re.compile("^Pass 1 of"))
    yard.tap("button", "End this job: nothing put down")
    yard.see_role("link", "Start spreading")
    acts.place(yard, "Log")
    assert yard.count("link", re.compile("^(Walk|Pass)")) == 0


def test_a_zone_to_keep_off_is_told_everywhere_and_not_mowed_by_one_tap(phone: Phone, book: Book) -> None:
    """C29: what another phone wrote, on Today, on the zone's page, and before a mow."""
    zone = book.zone(NAMES[0])
    book.zone(NAMES[1])
    caution = {"keep_off_hours": 24.0, "water_in": "water_in"}
    product, spreader = book.product(PRODUCT, caution=caution), book.spreader(SPREADER)
    share = {"zone_id": zone, "area_m2": 200.0, "used_kg": 9.0, "n_kg_m2": 0.01}
    done = {"product_id": product, "spreader_id": spreader, "sort": "fertilizer", "aim": {"kind": "label"}}
    figures = {"area_m2": 200.0, "target_kg_m2": 0.05, "used_kg": 9.0, "zones": [share], "passes": 2}
    book.enter({"kind": "spread", "zone_ids": [zone], **done, **figures})
    phone.size(360, 640)
    acts.signed_in(phone, book.email)
    phone.see_role("region", "Keep off")
    phone.see("The label says 24 hours.")
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("keep-off-today")
    phone.tap("button", f"Mowed: {NAMES[0]}")
    phone.see_role("dialog", "Keep off, and do not mow yet")
    assert phone.axe() == []
    phone.tap("button", "Wait")
    acts.place(phone, "Log")
    assert phone.count("link", re.compile("^Mow")) == 0
    phone.open(f"/ground/{zone}")
    phone.see("The label says 24 hours.")
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("keep-off-zone")
