"""A job that a label or a local rule speaks against stops, and goes on only once that is answered."""

import re
from datetime import UTC, date, datetime, timedelta
from typing import Any

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

DAYS_AGO = 11
INTERVAL = 42
START = re.compile("^Start the job of")


def fed_lately(book: Book, zone: str, product: str) -> None:
    """The product went on the zone 11 days ago, by its label's rate."""
    share = {"zone_id": zone, "area_m2": 200.0, "used_kg": 4.0, "covered_m2": 200.0, "rate_kg_m2": 0.02}
    done = datetime.now(UTC) - timedelta(days=DAYS_AGO)
    book.enter(
        {
            "kind": "spread",
            "occurred_at": done.isoformat(timespec="seconds"),
            "zone_ids": [zone],
            "product_id": product,
            "aim": {"kind": "label"},
            "area_m2": 200.0,
            "target_kg_m2": 0.02,
            "used_kg": 4.0,
            "sort": "fertilizer",
            "n_percent": 10.0,
            "slow_n_share": 1.0,
            "zones": [{**share, "n_kg_m2": 0.002}],
        }
    )


def closed_today(book: Book) -> None:
    """A rule of the household's own that closes feeding from yesterday to tomorrow."""
    today = datetime.now(UTC)
    first, last = (today + timedelta(days=off) for off in (-1, 1))
    rule = {"kind": "closed", "from": first.strftime("%m-%d"), "to": last.strftime("%m-%d"), "date": "2026-03-01"}
    book.settle({"rules": {"rules_place": "us_mn", "own_rules": [rule]}})


def test_a_label_of_42_days_stops_a_job_after_11_without_signal(phone: Phone, book: Book, server: Server) -> None:
    label = {"net_kg": 20.0, "coverage_m2": 1000.0}
    analysis = {"n_percent": 10.0, "slow_n_share": 1.0}
    product = book.product("Plain feed", label=label, analysis=analysis, caution={"interval_days": INTERVAL})
    book.spreader("Rotary")
    fed_lately(book, book.zone("Front"), product)
    closed_today(book)
    acts.signed_in(phone, book.email)
    acts.place(phone, "Log")
    phone.see(re.compile("Plain feed"))
    acts.wait_installed(phone)
    server.stop()
    phone.open(f"/shed/product/{product}")
    phone.see_role("heading", "Can it burn?")
    phone.see(re.compile("It hardly burns. Most of its nitrogen comes slowly"))
    phone.open("/spread")
    phone.tap("checkbox", re.compile("^Front"))
    phone.choose("Product", re.compile("^Plain feed"))
    phone.choose("Spreader", "Rotary")
    phone.tap("button", "Next: amount")
    phone.see("Too soon by the label")
    phone.see(re.compile("The label says wait 42 days"))
    phone.see("Feeding is closed now")
    phone.see(re.compile("Source: entered by you"))
    phone.see_role("heading", "Can it burn?")
    phone.see(re.compile("It hardly burns. Most of its nitrogen comes slowly"))
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("stopped")

    phone.tap("button", "Next: safety")
    phone.see("2 warnings still need an answer.")
    phone.tap("checkbox", "I read the label again. It allows this.")
    phone.wait(lambda: acts.ticked(phone) == 1, "the label's warning is not answered")
    phone.tap("button", "Next: safety")
    phone.see("One warning still needs an answer.")
    phone.tap("checkbox", "I read this. The label and local rules allow it.")
    phone.wait(lambda: acts.ticked(phone) == 2, "the rule is not answered")
    phone.tap("button", "Next: safety")
    phone.see_role("heading", "Safety check")
    acts.tick_all(phone)
    phone.tap("button", "Next: load")
    phone.see_role("heading", "Load and dial")
    phone.tap("button", re.compile("^Start pass 1 at"))
    acts.walk_pass(phone, 1, left="0")
    phone.tap("button", "Finish")
    phone.see_role("heading", "Spreading saved")
    server.start()
    acts.all_saved(phone)
    [kept] = [entry["body"]["answered"] for entry in book.entries() if entry["body"].get("answered")]
    assert sorted(one["kind"] for one in kept) == ["closed", "interval"]
    assert {one["answer"] for one in kept} == {"read"}


def test_a_step_of_the_plan_is_held_to_the_rules_and_done_by_its_job(phone: Phone, book: Book, server: Server) -> None:
    label = {"net_kg": 20.0, "coverage_m2": 1000.0}
    analysis = {"n_percent": 10.0, "slow_n_share": 1.0}
    product = book.product("Plain feed", label=label, analysis=analysis, caution={"interval_days": INTERVAL})
    book.spreader("Rotary")
    zone = book.zone("Front")
    book.settle({"rules": {"rules_place": "us_ca"}})
    today = date.today().isoformat()
    plan = book.write("plan", {"year": {"starts_on": f"{today[:4]}-01-01", "southern": False}})
    step: dict[str, dict[str, Any]] = {
        "job": {"plan_id": plan, "job": "feed", "title": "Evening feed"},
        "ground": {"zone_ids": [zone]},
        "window": {"from_on": today, "to_on": today},
        "product": {"product_id": product, "rate_kg_m2": 0.02},
        "state": {"state": "planned"},
    }
    made = book.write("step", step)
    acts.signed_in(phone, book.email)
    acts.place(phone, "Season")
    phone.see_role("heading", "Coming up")
    phone.see_role("button", START)
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("coming")

    fed_lately(book, zone, product)  # another phone's job comes by a merge
    phone.reload()
    phone.see("Too soon by the label")
    phone.see(re.compile(r"\d+ days\. Allowed is 42 days or more\. Source: the label"))
    phone.screenshot("in breach")
    acts.wait_installed(phone)
    server.stop()
    phone.tap("button", START)
    phone.see_role("heading", "New spreading job")
    phone.choose("Spreader", "Rotary")
    phone.tap("button", "Next: amount")
    phone.see("Label rate")
    acts.on_to_care(phone)
    acts.tick_all(phone)
    phone.tap("button", "Next: load")
    phone.see_role("heading", "Load and dial")
    phone.tap("button", re.compile("^Start pass 1 at"))
    acts.walk_pass(phone, 1, left="0")
    phone.tap("button", "Finish")
    phone.see_role("heading", "Spreading saved")
    phone.open("/season")
    phone.see_role("heading", "Soil tests")
    phone.gone("Coming up")
    server.start()
    acts.all_saved(phone)
    [done] = [entry for entry in book.entries() if entry["body"].get("step_id")]
    assert done["body"]["step_id"] == made
