"""The demo household on a phone: signing in, and the way to each main screen, for checks and pictures alike."""

import re
import tempfile
from collections.abc import Callable
from pathlib import Path

from tests.journeys import acts
from tests.journeys.phone import Phone, Wanted
from tests.journeys.server import Server

_SIGN_IN = re.compile(r"sign in as (\S+) with the password (\S.*)$", re.MULTILINE)


def demo_server() -> tuple[Server, str, str]:
    """A server with the demo household, and the keeper's address and password as the command printed them."""
    server = Server()
    told = _SIGN_IN.search(server.manage("demo"))
    if not told:
        raise RuntimeError("manage.py demo did not say how to sign in")
    server.start()
    return server, told[1], told[2].strip()


def first_link(phone: Phone, start: str) -> str:
    """The path of the first link on the page that goes below `start` (not to a new record)."""
    found = "return [...document.querySelectorAll('a')].map((a) => a.pathname).find((path) => "
    found += "path.startsWith(arguments[0]) && !path.endsWith('/new'))"
    return str(phone.wait(lambda: phone.evaluate(found, start), f"no link to {start}"))


def go(phone: Phone, path: str) -> None:
    """Move within the app, as its own links do."""
    phone.evaluate("history.pushState(null, '', arguments[0])", path)


# What a place shows only once the engine has worked it out.
WORKED_OUT: dict[str, Wanted] = {
    "Today": "Mowed the whole yard",
    "Ground": re.compile("mowed .* ago|mowed yesterday"),
    "Season": "How this is worked out",
}


def open_place(name: str) -> Callable[[Phone], None]:
    """A way to one of the five places, its figures worked out."""

    def come(phone: Phone) -> None:
        acts.place(phone, name)
        if wanted := WORKED_OUT.get(name):
            phone.see(wanted)

    return come


def open_zone(phone: Phone) -> None:
    """The first zone."""
    acts.place(phone, "Ground")
    go(phone, first_link(phone, "/ground/"))
    phone.see("Nitrogen this year")
    phone.see_role("heading", "Last cuts")
    phone.see_role("heading", "Soil warmth")


def open_product(phone: Phone) -> None:
    """The first product's label."""
    acts.place(phone, "Shed")
    go(phone, first_link(phone, "/shed/product/"))
    phone.see("The label")
    phone.see("Granules and price")


def open_spreader(phone: Phone) -> None:
    """The first spreader."""
    acts.place(phone, "Shed")
    go(phone, first_link(phone, "/shed/spreader/"))
    phone.see_role("heading", "The dial")
    phone.see("Accuracy")


def open_mower(phone: Phone) -> None:
    """The mower: its notches, its blade."""
    acts.place(phone, "Shed")
    go(phone, first_link(phone, "/shed/mower/"))
    phone.see_role("heading", "Cutting heights")


def open_height_check(phone: Phone) -> None:
    """One notch measured again."""
    phone.tap("button", "Height check")
    phone.see_role("dialog", "Height check")


def open_mow(phone: Phone) -> None:
    """A mow of one zone with its heights."""
    acts.place(phone, "Today")
    phone.tap("button", "Log a mow with details")
    phone.see_role("dialog", "Log a mow")
    phone.tap("checkbox", re.compile("^Street verge"))
    phone.fill("Height before", "6")
    phone.see("Tonight: cut to")


CAUGHT_G = ("2", "6", "11", "14", "13", "8", "3")


def open_trays(phone: Phone) -> None:
    """A tray test of that spreader, filled in: a throw that favours the right a little."""
    phone.tap("link", "Test with trays")
    phone.fill("Trays in the row", str(len(CAUGHT_G)))
    phone.fill("Tray spacing", "18 in")
    phone.choose("Weighed in", "g")
    for at, grams in enumerate(CAUGHT_G):
        phone.fill(re.compile(rf"^Tray {at + 1}\b"), grams)
    phone.see("Widest swath within 15%")
    phone.see("Falls left of the middle")


def open_household(phone: Phone) -> None:
    """Members, units, theme, where entries stand."""
    acts.place(phone, "Today")
    phone.tap("link", "Household")
    phone.see_role("heading", "Members")
    phone.see("(you)")


def open_in_household(path: str, shown: Wanted) -> Callable[[Phone], None]:
    """One of the household's own pages, once it shows what it is about."""

    def come(phone: Phone) -> None:
        open_household(phone)
        go(phone, f"/household/{path}")
        phone.see(shown)

    return come


def open_shopping(phone: Phone) -> None:
    """The shopping list of the season."""
    open_place("Season")(phone)
    go(phone, "/season/shopping")
    phone.see("All bags")


def open_member(phone: Phone) -> None:
    """Another member's page, their role to be chosen."""
    open_household(phone)
    second = "return [...document.querySelectorAll('a[href*=\"/members/\"]')][1]?.pathname"
    go(phone, str(phone.wait(lambda: phone.evaluate(second), "no second member")))
    phone.see_role("heading", "Role")


def open_weather(phone: Phone) -> None:
    """Place, climate, forecast and own days."""
    open_household(phone)
    phone.tap("link", re.compile("^Place and weather"))
    phone.see("Warmest month")
    phone.see("Your own days")


def open_rules(phone: Phone) -> None:
    """Place and rules."""
    open_household(phone)
    phone.tap("link", re.compile("^Place and rules"))
    phone.see_role("heading", "Days between jobs")


def open_soil(phone: Phone) -> None:
    """Soil warmth, its chart drawn."""
    open_weather(phone)
    phone.tap("link", "Show soil warmth")
    phone.see_role("heading", "In figures")
    phone.wait(lambda: phone.evaluate("return !!document.querySelector('.plot canvas')"), "no chart is drawn")


TABLE = (
    "Date,Low (°F),High (°F),Rain (in),Notes\n5/1/2026,41,62,0.1,\n5/2/2026,44,66,T,\n5/3/2026,48,6?,0,\n"
    "5/14/2026,52,71,0.42,\n5/15/2026,60,52,0,\n"
)


def open_import(phone: Phone) -> None:
    """A table that is looked at before it is taken."""
    open_weather(phone)
    phone.tap("link", "Import days")
    give_table(phone, TABLE)
    phone.see_role("button", "Save 3 days")


def give_table(phone: Phone, table: str, name: str = "days.csv") -> None:
    """Choose a file with this table in it."""
    with tempfile.TemporaryDirectory(prefix="evenfall-") as folder:
        file = Path(folder) / name
        file.write_text(table, encoding="utf-8")
        find = "return document.querySelector('#weather-file')"
        phone.give_file(phone.wait(lambda: phone.element(find), "no way to a file"), file)
        phone.see_role("heading", name)


def open_reading(phone: Phone) -> None:
    """A reading of the soil, as it is added; then put away again."""
    acts.place(phone, "Log")
    phone.tap("button", "Add a reading")
    phone.see_role("button", "Save the reading")
    phone.fill("Temperature", "57")


def open_entry(phone: Phone) -> None:
    """One entry of the log with its history."""
    acts.place(phone, "Log")
    go(phone, first_link(phone, "/log/"))
    phone.see_role("heading", "History")


def open_measure(phone: Phone) -> None:
    """The form for a new zone."""
    acts.place(phone, "Ground")
    phone.tap("link", re.compile("^(Measure a zone|Continue measuring)$"))
    phone.see_role("heading", "Measure a zone")


def measure_by(way: str, shown: Wanted) -> Callable[[Phone], None]:
    """The form for a new zone with another way of measuring chosen."""

    def come(phone: Phone) -> None:
        open_measure(phone)
        phone.choose("How will you measure?", way)
        phone.see(shown)

    return come


def draw_outline(phone: Phone) -> None:
    """An outline laid out, its corners and an obstacle ready to be dragged; then put away again."""
    measure_by("Draw the outline", "Start with a rectangle")(phone)
    phone.fill("Length, about", "50")
    phone.fill("Width, about", "40")
    phone.tap("button", "Draw it")
    phone.tap("button", "Add a round obstacle")
    phone.see("Area")


def open_outline(phone: Phone) -> None:
    """The outline of the first zone, to be mended."""
    acts.place(phone, "Ground")
    go(phone, first_link(phone, "/ground/") + "/outline")
    phone.see_role("heading", "Outline of the zone")
    phone.see_role("button", "Save the outline")


def choose(phone: Phone) -> None:
    """A spreading job's first step, filled in."""
    acts.place(phone, "Today")
    phone.tap("link", "Start spreading")
    phone.tap("checkbox", re.compile("^Kitchen lawn"))
    phone.choose("Product", re.compile("^Steady 23-0-9"))
    phone.choose("Spreader", re.compile("otary", re.IGNORECASE))


def aim(phone: Phone) -> None:
    """How much goes down."""
    phone.tap("button", "Next: amount")
    phone.see("Share of label rate")


def care(phone: Phone) -> None:
    """The cautions, all ticked."""
    acts.on_to_care(phone)
    acts.tick_all(phone)


def load(phone: Phone) -> None:
    """The mass to load and the start dial."""
    phone.tap("button", "Next: load")
    phone.see_role("button", re.compile("^Start pass 1 at dial"))


def yard(phone: Phone) -> None:
    """The screen in the yard."""
    phone.tap("button", re.compile("^Start pass 1 at dial"))
    phone.see_role("button", "Strip 1 done")


def check(phone: Phone) -> None:
    """A look into the hopper after the first strip."""
    phone.tap("button", "Strip 1 done")
    phone.tap("button", "Check")
    phone.choose("How did you measure?", "Weighed")
    phone.fill("Weight left, hopper and bag", "6")
    phone.see("Expected by now")


def left(phone: Phone) -> None:
    """What was left."""
    phone.tap("button", "Back")
    phone.tap("button", "Pass 1 done")
    phone.fill("Weight left, hopper and bag", "3.4")
    phone.choose("How much did you cover?", "All of it")
    phone.see("Put down")


def next_dial(phone: Phone) -> None:
    """The next setting."""
    phone.tap("button", "Save pass 1")
    phone.see_role("heading", "Next dial")
    phone.see("Chance of running out")


def finish(phone: Phone) -> None:
    """The finish card."""
    phone.tap("button", re.compile("^Start pass 2 at"))
    acts.walk_pass(phone, 2, left="0.2")
    phone.tap("button", "Finish")
    phone.see_role("heading", "Spreading saved")
    phone.see("Start at")


def put_away(come: Callable[[Phone], None]) -> Callable[[Phone], None]:
    """Close the sheet that the screen before has opened."""

    def closed(phone: Phone) -> None:
        phone.tap("button", "Close")
        come(phone)

    return closed


# Each main screen by its name, in an order that can be walked through once.
SCREENS: dict[str, Callable[[Phone], None]] = {
    **{name.lower(): open_place(name) for name in acts.PLACES},
    "zone": open_zone,
    "measure": open_measure,
    "measure-edge": measure_by("Walk the edge with the phone", "On a small lawn a tape beats the phone"),
    "measure-plan": measure_by("Trace over a plan", "is never sent"),
    "measure-outline": draw_outline,
    "outline": open_outline,
    "product": open_product,
    "spreader": open_spreader,
    "trays": open_trays,
    "mower": open_mower,
    "height-check": open_height_check,
    "mow": put_away(open_mow),
    "entry": put_away(open_entry),
    "household": open_household,
    "entries": open_in_household("entries", "Kept on this phone"),
    "phones": open_in_household("phones", "this phone"),
    "pending-review": open_in_household("pending-review", "Nothing to review"),
    "sign-ins": open_in_household("sign-ins", "signed in"),
    "calendar-link": open_in_household("calendar", "Your link is off."),
    "member": open_member,
    "weather": open_weather,
    "rules": open_rules,
    "weather-import": open_import,
    "shopping": open_shopping,
    "soil": open_soil,
    "reading": open_reading,
    "spread-choose": put_away(choose),
    "spread-aim": aim,
    "spread-care": care,
    "spread-plan": load,
    "spread-yard": yard,
    "spread-check": check,
    "spread-left": left,
    "spread-next": next_dial,
    "spread-finish": finish,
}


def set_light(phone: Phone, light: str) -> None:
    """Choose the theme on this phone: "Light" or "Dusk"."""
    open_household(phone)
    phone.choose("Theme", light)
    wanted = light.lower()
    phone.wait(lambda: phone.evaluate("return document.documentElement.dataset.theme") == wanted, "theme unchanged")
