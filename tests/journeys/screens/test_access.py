"""Every screen, light and dusk, on a phone and on a desk: no violation, nothing clipped, covered or overlapping.

One walk of each browser shows each screen once and judges it in every light and width: coming there takes longer than
looking.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.journeys import acts
from tests.journeys.browsers import MakePhone
from tests.journeys.demo import SCREENS, demo_server, set_light
from tests.journeys.phone import COLOURS, NARROW, Phone
from tests.journeys.server import Server


@pytest.fixture(scope="module")
def demo(built_frontend: object) -> Iterator[tuple[Server, str, str]]:
    """The demo household on a server of its own."""
    made = demo_server()
    yield made
    made[0].close()


@pytest.fixture
def visitor(make_phone: MakePhone, demo: tuple[Server, str, str], tmp_path: Path) -> Iterator[Phone]:
    """A phone in the demo household."""
    server, email, password = demo
    phone = make_phone(server.url, tmp_path, lasting=False)
    acts.signed_in(phone, email, password)
    yield phone
    phone.quit()


WEARS = "document.documentElement.dataset.theme = arguments[0]"  # as platform/session/theme.ts has the page wear it
DESK = (1280, 900)


def faults(phone: Phone) -> list[str]:
    """What is wrong with this screen; the theme and the width of before are there again afterwards."""
    found = phone.axe() + phone.layout_faults()
    if phone.sees("Not counted yet"):
        found.append("a record of the demo cannot be used")
    phone.evaluate(WEARS, "dusk")
    found += [f"at dusk: {fault}" for fault in phone.axe(COLOURS)]
    phone.evaluate(WEARS, "light")
    phone.size(*DESK)
    found += [f"on a desk: {fault}" for fault in phone.layout_faults()]
    phone.size(*NARROW)
    return found


def test_no_screen_has_a_violation_or_a_fault_of_layout(visitor: Phone) -> None:
    for light in ("Dusk", "Light"):
        set_light(visitor, light)  # chosen as a person does; while walking the page is told by itself
    found = {}
    for name, come in SCREENS.items():
        come(visitor)
        found[name] = faults(visitor)
    assert {name: said for name, said in found.items() if said} == {}


def test_the_entrance_has_no_violation_or_fault_of_layout(
    make_phone: MakePhone, demo: tuple[Server, str, str], tmp_path: Path
) -> None:
    phone = make_phone(demo[0].url, tmp_path, lasting=False)
    try:
        phone.open("/enter")
        phone.see_role("button", "Sign in")
        assert phone.axe() + phone.layout_faults() == []
        phone.choose("What would you like to do?", "Start a new book")
        phone.see_role("button", "Start the book")
        assert phone.axe() + phone.layout_faults() == []
    finally:
        phone.quit()
