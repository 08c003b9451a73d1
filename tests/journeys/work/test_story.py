"""The whole way, as a household goes it: from signing up to a second phone showing the spreading job."""

import re
from collections.abc import Callable

import pytest

from tests.journeys import acts
from tests.journeys.acts import Signal
from tests.journeys.phone import Phone
from tests.journeys.server import Server

ZONE, PRODUCT, SPREADER = "Back lawn", "Plain 23-0-9", "Push rotary"


@pytest.mark.lasting
def test_a_real_walk_in_the_yard_without_signal(phone: Phone, server: Server, new_phone: Callable[[], Phone]) -> None:
    prepare(phone)
    signal = Signal(phone, server)
    if not signal.emulate_cut():
        signal.stop_server()
    phone.restart()  # a cold start: in Chromium of the whole browser
    phone.open("/")
    phone.see("Start spreading")
    walk_one_pass(phone)
    signal.stop_server()  # from here on cut for real, in both browsers
    phone.restart()
    phone.open("/spread")
    walk_to_the_end(phone)
    tick_the_mow(phone)

    signal.restore()
    phone.open("/")
    acts.all_saved(phone)
    second = new_phone()
    acts.join(second, acts.invite(phone), "Second Keeper")
    shows_it_all(second)


def prepare(phone: Phone) -> None:
    acts.sign_up(phone, acts.new_email())
    phone.see("Set up in 3 steps")
    acts.measure_zone(phone, ZONE)
    acts.enter_product(phone, PRODUCT)
    acts.enter_spreader(phone, SPREADER)
    acts.all_saved(phone)
    acts.wait_installed(phone)


def walk_one_pass(phone: Phone) -> None:
    acts.place(phone, "Ground")
    phone.tap("link", re.compile(f"^{ZONE}"))
    phone.tap("button", "Spread on this zone")
    acts.choose_walk(phone, PRODUCT, SPREADER)
    # 48 lb over 4,800 ft² is 10 lb per 1,000 ft²; 1,800 ft² take 18 lb.
    phone.see("18 lb")
    phone.tap("button", re.compile("^Start pass 1 at dial"))
    assert 1 < acts.dial_shown(phone) < 24
    acts.walk_pass(phone, 1, left="12")
    phone.see_role("heading", "Next dial")


def walk_to_the_end(phone: Phone) -> None:
    phone.see("Pass 1 saved")
    phone.tap("button", re.compile("^Start pass 2 at"))
    assert 1 < acts.dial_shown(phone) < 24
    acts.walk_pass(phone, 2, left="5")
    phone.tap("button", "Finish here")
    phone.see_role("heading", "Spreading saved")
    phone.see("13 lb")  # 18 - 5
    phone.see("of 18 lb target")
    phone.see("72%")  # 13 / 18
    phone.see("Next time")
    phone.tap("button", "Done")
    phone.see_role("heading", "Today")


def tick_the_mow(phone: Phone) -> None:
    phone.tap("button", f"Mowed: {ZONE}")
    phone.tap("button", "Log the mow anyway", inside=("dialog", "Keep off, and do not mow yet"))  # just fed
    phone.see(f"{ZONE}: mow logged.")
    phone.see("Waiting to be sent")


def shows_it_all(phone: Phone) -> None:
    phone.see_role("button", f"Mowed again: {ZONE}")
    acts.place(phone, "Log")
    phone.see_role("link", re.compile(f"^Mow .*{ZONE}.*by First Keeper"))
    phone.tap("link", re.compile(f"^Spreading .*{PRODUCT} · 13 lb · {ZONE}.*by First Keeper"))
    phone.see_role("heading", "Passes")
    for number, used in (1, "6 lb"), (2, "7 lb"):  # 18 to 12, 12 to 5
        phone.see_role("link", re.compile(f"^Pass .*pass {number} · dial .* · {used}"))
    acts.place(phone, "Ground")
    phone.see("1,800 ft²")
