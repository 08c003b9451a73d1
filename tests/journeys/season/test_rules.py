"""Place and rules without signal: the strictest until the place is said, and one's own in their stead."""

import re

from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.phone import Phone
from tests.journeys.server import Server

# What stands on the line of a rule, by its title.
LINE = """
const found = [...document.querySelectorAll("li.line")].find((one) =>
  one.querySelector(".line__title")?.textContent === arguments[0]);
return (found?.textContent ?? "").replaceAll("\\u00a0", " ");
"""


def line(phone: Phone, title: str, says: str) -> None:
    """The rule of that title says so."""
    phone.wait(lambda: says in str(phone.evaluate(LINE, title)), f"{title} does not say {says}")


def test_the_rules_of_a_yard_without_signal(phone: Phone, book: Book, server: Server) -> None:
    book.zone("Front")
    acts.signed_in(phone, book.email)
    acts.place(phone, "Season")
    phone.see_role("link", "Choose your place")
    acts.wait_installed(phone)
    server.stop()
    phone.open("/household")
    phone.tap("link", re.compile("^Place and rules"))
    phone.see_role("heading", "Place and rules")
    phone.see(re.compile("the strictest rules hold. Say where your yard is"))
    phone.see(re.compile("The label and your local law come first"))
    line(phone, "Quick nitrogen at once", "At most 0.5 lb")
    line(phone, "Quick nitrogen at once", "Choose your place to change it")
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("unknown place")

    phone.tap("button", "Choose your place")
    phone.choose("Country or state", "United States: Minnesota")
    phone.tap("button", "Save the place")
    phone.see(re.compile("Rules printed for this place"))
    line(phone, "Quick nitrogen at once", "At most 1 lb")
    line(phone, "Quick nitrogen at once", "Minnesota")

    phone.tap("button", "Edit Quick nitrogen at once")
    phone.fill("Most allowed", "-1")
    phone.tap("button", "Save the rule")
    phone.see_complaint("Most allowed", re.compile(r"Most allowed is too small\. Allowed is 0 to [\d.,]+.lb"))
    assert phone.value("Most allowed") == "-1"
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("own rule")
    phone.fill("Most allowed", "0.7")
    phone.fill("Where it is printed", "County code")
    phone.tap("button", "Save the rule")
    line(phone, "Quick nitrogen at once", "At most 0.7 lb")
    line(phone, "Quick nitrogen at once", "Entered by you")

    phone.tap("button", "Add a rule")
    phone.choose("About", "Feeding closed")
    phone.choose("First day: month", "December")
    phone.fill("First day: day", "31")
    phone.choose("Last day: month", "February")
    phone.fill("Last day: day", "30")
    phone.tap("button", "Save the rule")
    phone.see(re.compile("Last day is not a day of February. Allowed is 1 to 29"))
    phone.fill("Last day: day", "15")
    phone.tap("button", "Save the rule")
    line(phone, "Feeding closed", "31 Dec to 15 Feb")
    phone.screenshot("own rules")

    phone.tap("button", "Remove Feeding closed")
    phone.see("Rule removed.")
    phone.tap("button", "Undo")
    line(phone, "Feeding closed", "31 Dec to 15 Feb")

    phone.reload()
    line(phone, "Quick nitrogen at once", "County code")
    line(phone, "Feeding closed", "31 Dec to 15 Feb")
