"""Letters twice as large, the smallest phone, a phone on its side: the longest names, each step of a job, the forms."""

import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from tests.journeys import acts
from tests.journeys import heart_acts as heart
from tests.journeys.book import Book
from tests.journeys.phone import Phone

ZONE = "Back lawn by Donaudampfschifffahrtsdock and the old oak tree"
PRODUCT, SPREADER = "Langsamwirkrasendüngerkorn", "Schleuderstreuwagenmodelle"
OUTLINE = {"points_m": [[0, 0], [20, 0], [20, 10], [0, 10]], "north_deg": 0}
WEIGHT = "Weight left, hopper and bag"

SIZES = {
    "small": ((320, 568), "100%"),
    "side": ((640, 360), "100%"),
    "large": ((360, 640), "200%"),
    "small-large": ((320, 568), "200%"),
    "side-large": ((640, 360), "200%"),
}
# The window of the WebKit that there is here gets no narrower.
LEAST = {"webkit": 360}
LETTERS = "document.documentElement.style.fontSize = arguments[0]; return true"
# No word that the phone is wide enough for is broken by what stands beside it.
BROKEN_WORDS = """
if (document.querySelector("dialog[open]")) return [];
const found = [];
for (const one of document.querySelectorAll(".page__head h1, .spread__zone, .spread__steps li, .line__title")) {
  for (const walk = document.createTreeWalker(one, NodeFilter.SHOW_TEXT); walk.nextNode(); ) {
    for (const word of walk.currentNode.data.matchAll(/(?<!\\S)\\S{2,9}(?!\\S)/g)) {
      const range = document.createRange();
      range.setStart(walk.currentNode, word.index);
      range.setEnd(walk.currentNode, word.index + word[0].length);
      const lines = new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size;
      if (lines > 1) found.push(`"${word[0]}" of "${one.textContent}" is broken over ${lines} lines`);
    }
  }
}
return found;
"""
# At the top of the page, as a walker finds it: the one button whole in view, uncovered, high enough for a glove; the
# setting whole, as large as ever.
UNDER_THE_THUMB = """
window.scrollTo({top: 0, behavior: "instant"});
const faults = [];
const button = document.querySelector(".yard__foot .button");
const box = button.getBoundingClientRect();
if (box.height < 64) faults.push(`the button is ${box.height} px high`);
const seen = box.top >= 0 && box.bottom <= innerHeight + 1;
if (!seen) faults.push(`the button spans ${box.top} to ${box.bottom} of ${innerHeight}`);
for (const y of [box.top + 4, box.top + box.height / 2, box.bottom - 4]) {
  const met = document.elementFromPoint(box.left + box.width / 2, y);
  if (!button.contains(met)) faults.push(`at ${y} the button is covered by ${met?.className}`);
}
const dial = document.querySelector(".yard__numeral");
const size = Number.parseFloat(getComputedStyle(dial).fontSize);
if (size < 48) faults.push(`the dial is written in ${size} px`);
const [needs, has] = [dial.scrollWidth, dial.clientWidth];
if (needs > has + 1) faults.push(`the dial needs ${needs} px, has ${has}`);
const head = document.querySelector(".page__head").getBoundingClientRect();
if (dial.getBoundingClientRect().top < head.bottom - 1) faults.push("the dial lies under the head");
// In letters of the usual size the strip's number and what stays clear of water are seen without scrolling too.
const usual = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) <= 20;
for (const one of usual ? document.querySelectorAll(".yard__count, .yard__clear") : []) {
  const low = one.getBoundingClientRect().bottom;
  if (low > box.top + 1) faults.push(`${one.className} ends at ${low}, under the button at ${box.top}`);
}
return faults;
"""


@pytest.fixture
def owner(phone: Phone, book: Book) -> Iterator[Phone]:
    """A phone with the longest names there are: a zone at water, a product, a spreader."""
    site = {"near_water": True, "setback_m": 3.0}
    ground = {"area_m2": 200.0, "method": "outline", "outline": OUTLINE, "water_edges": [1]}
    book.zone(ZONE, ground=ground, site=site)
    book.product(PRODUCT)
    book.spreader(SPREADER)
    acts.sign_in(phone, book.email)
    phone.see_role("button", f"Mowed: {ZONE}")
    yield phone


def judged(phone: Phone, name: str, *more: str) -> list[str]:
    """What is wrong with a screen in any of the sizes; a picture of each is kept."""
    found = []
    for size, ((wide, high), letters) in SIZES.items():
        phone.size(max(wide, LEAST.get(phone.browser, 0)), high)
        phone.evaluate(LETTERS, letters)
        phone.rest()
        phone.screenshot(f"{name}-{size}")
        wrong: list[Any] = [*phone.layout_faults()]
        for script in (BROKEN_WORDS, *more):
            wrong += phone.evaluate(script)
        found += [f"{name}, {size}: {fault}" for fault in wrong]
    phone.size(360, 640)
    phone.evaluate(LETTERS, "")
    return found


def all_well(phone: Phone, screens: dict[str, tuple[Callable[[], object], tuple[str, ...]]]) -> None:
    """Come to each screen in turn and judge it; all faults are told together."""
    found = []
    for name, (come, more) in screens.items():
        come()
        found += judged(phone, name, *more)
    assert not found, "\n".join(found)


def test_every_step_of_a_job_fits_the_phone_whatever_its_letters(owner: Phone) -> None:
    def choose() -> None:
        owner.tap("link", "Start spreading")
        owner.tap("checkbox", re.compile(f"^{ZONE}"))
        owner.choose("Product", re.compile(f"^{PRODUCT}"))
        owner.choose("Spreader", SPREADER)

    def amount() -> None:
        owner.tap("button", "Next: amount")
        owner.see("Label rate")

    def load() -> None:
        acts.tick_all(owner)
        owner.tap("button", "Next: load")
        owner.see_role("button", re.compile("^Start pass 1 at dial"))

    def yard() -> None:
        owner.tap("button", re.compile("^Start pass 1 at dial"))
        owner.see_role("button", "Strip 1 done")
        owner.see(re.compile("back from the water"))
        owner.see_role("img", re.compile("The band at the water stays clear"))

    def check() -> None:
        owner.tap("button", "Check")
        owner.choose("How did you measure?", "Weighed")
        owner.fill(WEIGHT, "18")
        owner.see("Expected by now")

    def left() -> None:
        owner.tap("button", re.compile("^Keep"))
        owner.tap("button", "Pass 1 done")
        owner.fill(WEIGHT, "9")
        owner.choose("How much did you cover?", "All of it")
        owner.see("Put down")

    def next_dial() -> None:
        owner.tap("button", "Save pass 1")
        owner.see_role("heading", "Next dial")
        owner.see("Chance of running out")

    def second() -> None:
        owner.tap("button", re.compile("^(Start|Walk) pass 2"))
        owner.see_role("heading", re.compile("^Pass 2 of"))

    def finish() -> None:
        acts.walk_pass(owner, 2, left="0.2")
        owner.tap("button", "Finish")
        owner.see_role("heading", "Spreading saved")

    plain: tuple[str, ...] = ()
    thumb = (UNDER_THE_THUMB,)
    all_well(
        owner,
        {
            "choose": (choose, plain),
            "amount": (amount, plain),
            "safety": (lambda: acts.on_to_care(owner), plain),
            "load": (load, plain),
            "yard": (yard, thumb),
            "yard-counted": (lambda: heart.count_to(owner, 2), thumb),
            "check": (check, plain),
            "left": (left, plain),
            "next": (next_dial, plain),
            "yard-second": (second, thumb),
            "finish": (finish, plain),
        },
    )


def test_the_long_forms_fit_the_phone_whatever_its_letters(owner: Phone) -> None:
    def mow() -> None:
        owner.tap("button", re.compile("^Log a mow"))
        owner.see_role("heading", "Log a mow")

    def product() -> None:
        owner.open("/shed/product/new")
        owner.see_role("button", "Save")

    def zone() -> None:
        owner.open("/ground")
        owner.tap("link", re.compile(f"^{ZONE}"))
        owner.see_role("heading", ZONE)

    def edit() -> None:
        owner.tap("link", re.compile("^Edit"))
        owner.see("Zone name")
        owner.tap("checkbox", re.compile("^Edge 4, .*, at the water$"))

    all_well(
        owner, {name: (come, ()) for name, come in {"mow": mow, "product": product, "zone": zone, "edit": edit}.items()}
    )
