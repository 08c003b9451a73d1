"""The season's steps in one's own calendar: a link made on the phone, renewed and turned off."""

import urllib.error
import urllib.request
from collections.abc import Callable
from datetime import date, timedelta

import pytest
from icalendar import Calendar

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone

MakePhone = Callable[[], Phone]


def planned(book: Book) -> None:
    """A plan with one feed, from today on for a week."""
    today = date.today()
    zone = book.zone("Kitchen lawn")
    plan = book.write("plan", {"year": {"starts_on": f"{today.year}-01-01", "southern": False}})
    week = {"from_on": today.isoformat(), "to_on": (today + timedelta(days=6)).isoformat()}
    book.write("step", {"job": {"plan_id": plan, "job": "feed"}, "ground": {"zone_ids": [zone]}, "window": week})


def summaries(link: str) -> list[str]:
    """What a calendar that subscribes to the link shows: it has no cookie of ours."""
    with urllib.request.urlopen(link, timeout=60) as answer:
        found = Calendar.from_ical(answer.read())
    return [str(part["SUMMARY"]) for part in found.walk() if part.name == "VEVENT"]


def new_link(phone: Phone, button: str, before: str = "") -> str:
    """The link that a button makes, once it is on the screen."""
    phone.tap("button", button)
    phone.wait(lambda: phone.sees_role("button", "Copy the link") and phone.value("Link") != before, "no new link")
    return phone.value("Link")


def test_a_calendar_reads_the_steps_by_a_link_until_it_is_renewed_or_turned_off(
    new_phone: MakePhone, book: Book
) -> None:
    planned(book)
    phone = new_phone()
    acts.signed_in(phone, book.email)
    phone.open("/household/calendar")
    phone.see("Your link is off.")
    first = new_link(phone, "Make a link")
    assert summaries(first) == ["Feed: Kitchen lawn"]
    assert phone.axe() + phone.layout_faults() == []
    second = new_link(phone, "Make a new link", first)
    assert summaries(second) == ["Feed: Kitchen lawn"]
    with pytest.raises(urllib.error.HTTPError, match="404"):
        summaries(first)
    phone.tap("button", "Turn off the link")
    phone.see("Your link is off.")
    with pytest.raises(urllib.error.HTTPError, match="404"):
        summaries(second)
