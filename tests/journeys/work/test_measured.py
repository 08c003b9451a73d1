"""What was measured is shown as it was measured, and forms ask in the person's own units from the first look on."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest

from tests.journeys import acts
from tests.journeys.book import Book, start_book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

REMEMBERED = "return (localStorage.getItem('evenfall.units') ?? '').includes('metric')"
FORGET = "localStorage.removeItem('evenfall.units')"
METRIC = {"/shed/product/new": {"Net weight": "kg", "Bag covers": "m2"}, "/shed/spreader/new": {"Swath": "m"}}


@pytest.mark.lasting
def test_metric_people_are_asked_in_metric_after_a_cold_start_without_signal(
    new_phone: Callable[[], Phone], server: Server
) -> None:
    """The member's row is read before a form chooses its units; it is late, since the book opens after the paint."""
    phone, book = new_phone(), start_book(server, units="metric")
    acts.signed_in(phone, book.email)
    acts.wait_installed(phone)
    phone.wait(lambda: phone.evaluate(REMEMBERED), "the person's record has not come")
    server.stop()
    for path, units in METRIC.items():
        phone.evaluate(FORGET)  # as on a phone whose first start this is: the row itself is waited for
        phone.restart()
        phone.open(path)
        for field, unit in units.items():
            assert phone.value(re.compile(f"^Unit of {field}")) == unit


def walked(book: Book, product: str, spreader: str, days_ago: int, **more: object) -> None:
    """A pass at dial 8: 2 kg on 200 m², weighed."""
    at = datetime.now(UTC) - timedelta(days=days_ago)
    made = {"product_id": product, "spreader_id": spreader, "number": 1, "dial": 8.0, "area_m2": 200.0, "used_kg": 2.0}
    walk = "0190aaaa-0000-7000-8000-0000000000f1"
    body = {"kind": "pass", "occurred_at": at.isoformat(timespec="seconds"), "spread_id": walk, "measured": "scale"}
    book.enter({**body, **made, **more})


def test_a_pass_is_listed_with_the_rate_it_was_measured_at_whatever_the_swath_is_today(
    phone: Phone, book: Book
) -> None:
    """2 kg on 200 m² are 2.05 lb per 1,000 ft², walked at another swath and pace or not."""
    product, spreader = book.product("Plain feed"), book.spreader("Push rotary")
    walked(book, product, spreader, 9, swath_m=1.5, speed_m_s=1.3)
    walked(book, product, spreader, 5, swath_m=3.0, speed_m_s=0.7)
    acts.signed_in(phone, book.email)
    phone.open(f"/shed/spreader/{spreader}")
    phone.see("Past passes")
    lines = re.compile(r"^Dial 8: 2\.05 lb")
    phone.wait(lambda: phone.count("button", lines) == 2, "not every pass shows the rate it was measured at")
    phone.tap("button", lines)
    phone.see("Measured rate")
    phone.see("At today’s swath, speed and product")
    assert phone.axe() + phone.layout_faults() == []
