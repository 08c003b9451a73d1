"""The shopping list in a shop without signal: bags, cost and day, ticked off into the shed, and back."""

import re
from datetime import date, timedelta

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

# 200 m² at 0.1 kg/m² are 20 kg: one bag of 20 kg each time.
RATE = 0.1


def planned(book: Book, price: float = 31.5) -> str:
    """A plan with two feeds of one product and one of another, none of it in the shed; the first product."""
    today = date.today()
    zone = book.zone("Kitchen lawn")
    plan = book.write("plan", {"year": {"starts_on": f"{today.year}-01-01", "southern": False}})
    first = book.product("Plain feed", price={"price": price})
    other = book.product("Slow feed", price={"price": 40.0})
    for product, ahead in ((first, 3), (first, 60), (other, 10)):
        at = today + timedelta(days=ahead)
        book.write(
            "step",
            {
                "job": {"plan_id": plan, "job": "feed"},
                "ground": {"zone_ids": [zone]},
                "window": {"from_on": at.isoformat(), "to_on": (at + timedelta(days=6)).isoformat()},
                "product": {"product_id": product, "rate_kg_m2": RATE},
            },
        )
    return first


def test_the_list_is_ticked_off_without_signal_and_a_tick_is_undone(phone: Phone, book: Book, server: Server) -> None:
    planned(book)
    acts.signed_in(phone, book.email)
    acts.wait_installed(phone)
    acts.place(phone, "Season")
    phone.see("2 products to buy, 103.00")
    server.stop()
    phone.tap("link", re.compile("^Shopping list"))
    phone.see("63.00")  # two bags at 31.50, with the day they are needed by
    assert phone.axe() + phone.layout_faults() == []

    phone.tap("button", "Bought 2 bags of Plain feed")
    phone.see("All of it is in the shed.")
    phone.tap("button", "Undo")
    phone.see_role("button", "Bought 2 bags of Plain feed")

    phone.tap("button", "Bought 1 bag of Slow feed")
    phone.see("All of it is in the shed.")
    acts.wait_waiting(phone, 1)
    phone.reload()
    phone.see("All of it is in the shed.")
    server.start()
    acts.wait_waiting(phone, 0)
    [entry] = book.entries()
    assert {name: entry["body"][name] for name in ("kind", "bags", "net_kg", "price", "price_for")} == {
        "kind": "bought", "bags": 1, "net_kg": 20.0, "price": 40.0, "price_for": "each",
    }  # fmt: skip


def test_what_was_paid_is_entered_where_it_was_another_price(phone: Phone, book: Book) -> None:
    planned(book)
    acts.signed_in(phone, book.email)
    phone.open("/season/shopping")
    phone.tap("button", "Enter details of Plain feed")
    phone.fill("Price paid", "29")
    assert phone.value("Bags") == "2"
    phone.tap("button", "Save it")
    phone.see("Added to the shed.")
    phone.see("All of it is in the shed.")
    acts.wait_waiting(phone, 0)
    [entry] = book.entries()
    assert (entry["body"]["bags"], entry["body"]["price"], entry["body"]["price_for"]) == (2, 29, "each")
