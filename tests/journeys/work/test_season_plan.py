"""The year planned without signal: from a cold start, kept, found again, planned anew; and what cannot be planned."""

import re
from datetime import date, timedelta
from typing import Any

import pytest

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

# Means of a year with cold winters, in °C: whatever day this is walked on, a year from it holds feeds.
MONTHS = [-2.0, -1.0, 4.0, 10.0, 15.0, 20.0, 22.0, 21.0, 17.0, 11.0, 6.0, 0.0]
SOLVER_KEPT = """
return caches.open("evenfall-solver").then((cache) => cache.keys()).then((kept) => kept.length >= 2);
"""
SEARCHING_S = 90.0  # two searches of ten and fifteen seconds, and the models for them, on a crowded machine


def yard(book: Book) -> tuple[str, str]:
    """A zone of a known grass in a known climate, and a bag to feed it with."""
    book.settle({"climate": {"monthly_mean_c": MONTHS, "climate_from": "months"}})
    zone = book.zone("Verge", 200.0, grass={"grass": "tall_fescue"})
    label, analysis = {"net_kg": 20.0, "coverage_m2": 800.0}, {"n_percent": 10.0, "p2o5_percent": 0.0}
    return zone, book.product("Steady", price={"price": 30.0}, label=label, analysis=analysis)


def plan(phone: Phone) -> None:
    """Open the wishes and begin."""
    phone.tap("button", re.compile("^Plan (the year|again)$"))
    phone.tap("button", "Plan the year", inside=("dialog", "Plan the year"))


def planned(phone: Phone) -> None:
    """The search is over and has a plan."""
    phone.wait(lambda: phone.sees_role("button", "Keep this plan"), "no plan", SEARCHING_S)
    phone.wait(lambda: not phone.sees_role("button", "Stop here"), "the search does not end", SEARCHING_S)


@pytest.mark.lasting
def test_a_season_is_planned_and_kept_with_no_network_from_a_cold_start(
    phone: Phone, book: Book, server: Server
) -> None:
    yard(book)
    acts.sign_in(phone, book.email)
    acts.place(phone, "Season")
    phone.see("No steps yet. The plan says what to do when, and what to buy.")
    acts.wait_installed(phone)
    phone.wait(lambda: phone.evaluate(SOLVER_KEPT), "the solver is not kept on the phone", acts.INSTALLING_S)
    server.stop()
    phone.restart()
    phone.open("/season")
    plan(phone)
    planned(phone)
    phone.see(re.compile("No plan could cost less"))
    phone.see(re.compile("Steady, Verge"))
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", "Keep this plan")
    phone.see("Plan saved.")
    phone.restart()
    phone.open("/season")
    phone.see_role("list", "Steps of the plan")
    phone.see("Feed")
    plan(phone)
    planned(phone)
    phone.see("Nothing would change.")
    phone.tap("button", "Discard")
    phone.tap("button", "Try a what-if")
    phone.choose("Change", "Only gentle products")
    phone.tap("button", "Show the changes")
    planned(phone)
    phone.see_role("heading", "With gentle products only")
    phone.see("Removed")  # the only bag there is has nothing slow in it
    phone.tap("button", "Discard")
    phone.see_role("list", "Steps of the plan")


def test_wishes_that_no_plan_can_keep_are_told_by_the_rules_that_give(phone: Phone, book: Book) -> None:
    zone, product = yard(book)
    first = date.today() + timedelta(days=21)
    step: dict[str, dict[str, Any]] = {
        "job": {"plan_id": zone, "job": "feed"},
        "ground": {"zone_ids": [zone]},
        "window": {"from_on": first.isoformat(), "to_on": (first + timedelta(days=6)).isoformat()},
        "product": {"product_id": product, "rate_kg_m2": 0.01},
        "lock": {"locked": True},
        "state": {"state": "planned"},
    }
    book.write("step", step)
    acts.signed_in(phone, book.email)
    phone.open("/season")
    phone.see("Locked")
    phone.tap("button", "Plan again")
    phone.fill("Evenings a week", "0")
    phone.tap("button", "Plan the year", inside=("dialog", "Plan the year"))
    phone.see("No plan can keep all of your wishes.")
    phone.see(re.compile(r"The feed of Steady on Verge is locked in the week of|hold all that is to be done"))
    assert phone.axe() + phone.layout_faults() == []
    phone.tap("button", re.compile("Feed"))
    phone.tap("button", "Unlock")
    phone.see("Unlocked.")


def test_what_a_plan_lacks_is_said_with_the_way_to_it(phone: Phone, book: Book) -> None:
    book.zone("Verge")
    acts.signed_in(phone, book.email)
    phone.open("/season")
    phone.see("Add your climate first.")
    book.settle({"climate": {"monthly_mean_c": MONTHS, "climate_from": "months"}})
    phone.reload()
    plan(phone)
    phone.see("No zone can be planned yet.")
    phone.tap("link", re.compile("Verge"))
    phone.see_role("heading", re.compile("Verge|Edit"))
