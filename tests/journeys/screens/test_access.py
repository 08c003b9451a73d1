"""Every screen, light and dusk: no violation the checker finds, nothing clipped, covered or overlapping."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.journeys import acts
from tests.journeys.browsers import MakePhone
from tests.journeys.demo import SCREENS, demo_server, set_light
from tests.journeys.phone import Phone
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
    phone = make_phone(server.url, tmp_path)
    acts.sign_in(phone, email, password)
    yield phone
    phone.quit()


@pytest.mark.parametrize("light", ["Light", "Dusk"])
def test_no_screen_has_a_violation_or_a_fault_of_layout(visitor: Phone, light: str) -> None:
    set_light(visitor, light)
    found = {}
    for name, come in SCREENS.items():
        come(visitor)
        found[name] = visitor.axe() + (visitor.layout_faults() if light == "Light" else [])
        if visitor.sees("Not counted yet"):
            found[name] += ["a record of the demo cannot be used"]
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_the_entrance_has_no_violation_or_fault_of_layout(
    make_phone: MakePhone, demo: tuple[Server, str, str], tmp_path: Path
) -> None:
    phone = make_phone(demo[0].url, tmp_path)
    try:
        phone.open("/enter")
        phone.see_role("button", "Sign in")
        assert phone.axe() + phone.layout_faults() == []
        phone.choose("What would you like to do?", "Start a new book")
        phone.see_role("button", "Start the book")
        assert phone.axe() + phone.layout_faults() == []
    finally:
        phone.quit()


def test_on_a_desk_no_screen_has_a_fault_of_layout(visitor: Phone) -> None:
    visitor.size(1280, 900)
    found = {}
    for name, come in SCREENS.items():
        come(visitor)
        found[name] = visitor.layout_faults()
    assert {name: faults for name, faults in found.items() if faults} == {}
