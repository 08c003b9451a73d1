"""What a person does at the tool's heart: walks an edge, traces a plan, sets out trays, counts strips, checks."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from PIL import Image, ImageDraw
from pyproj import Geod

from tests.journeys import acts
from tests.journeys.phone import Phone

# No browser here has a place of its own, and only one of the two drivers can give it one. So the page is given a
# `navigator.geolocation` whose fixes the journey hands out; each load of a page needs it anew. Every fix has a time
# of its own, since a real watch that says the same moment twice is heard once.
MOCK = """
let told = 0; const heard = new Map();
Object.defineProperty(navigator, "geolocation", {configurable: true, value: {
  watchPosition(good) { told += 1; heard.set(told, good); return told; },
  getCurrentPosition() {},
  clearWatch(id) { heard.delete(id); },
}});
let at = Date.now();
window.__stand = (latitude, longitude, accuracy) => {
  at += 1000;
  for (const good of heard.values()) good({timestamp: at, coords: {latitude, longitude, accuracy}});
  return heard.size;
};
"""
CORNER = (7.0, 46.0)  # longitude, latitude: an invented corner
ACCURACY_M = 3.0
# A card of 20 m × 15 m, a fix every 5 m, from the corner east, north, west and south again: 14 fixes.
EDGE_M = [
    *((x, 0) for x in (0, 5, 10, 15)),
    *((20, y) for y in (0, 5, 10)),
    *((x, 15) for x in (20, 15, 10, 5)),
    *((0, y) for y in (15, 10, 5)),
]


def place_on_earth(x_m: float, y_m: float) -> tuple[float, float]:
    """Latitude and longitude so far east and north of the corner, by PROJ's geodesics on WGS84."""
    earth = Geod(ellps="WGS84")
    lon, lat, _ = earth.fwd(*CORNER, 90, x_m)
    lon, lat, _ = earth.fwd(lon, lat, 0, y_m)
    return lat, lon


def stand(phone: Phone, x_m: float, y_m: float) -> None:
    """The phone hears that it is there, once the page follows its place."""
    lat, lon = place_on_earth(x_m, y_m)
    phone.wait(lambda: phone.evaluate("return __stand(...arguments)", lat, lon, ACCURACY_M), "nobody asks the place")


# A figure the app marks as still being worked out is not the answer to what was entered last.
FIGURE = """
const found = [...document.querySelectorAll(".figure")].find((one) =>
  one.querySelector(".figure__label").textContent === arguments[0]);
if (!found || found.closest("[aria-busy]")) return null;
return [".figure__value", ".figure__note"].map((part) => found.querySelector(part)?.textContent ?? "");
"""


def figure(phone: Phone, label: str) -> tuple[str, str]:
    """The figure of that label, once it is the one to everything entered: its value and its note."""
    value, note = phone.wait(lambda: phone.evaluate(FIGURE, label), f"no settled figure {label!r}")
    return str(value), str(note)


def numbers_of(phone: Phone, label: str, hold: Callable[[list[float]], bool], part: int = 0) -> list[float]:
    """The numbers of that figure (part 0) or its note (part 1), once they are as they should be."""
    found: list[float] = []

    def holds() -> bool:
        found[:] = numbers(figure(phone, label)[part])
        return hold(found)

    phone.wait(holds, f"{label}: not what it should be")
    return found


# A machine with other work to do, made certain: what the page asks of the arithmetic's worker waits until let go.
HOLD = """
const real = Worker.prototype.postMessage; const held = [];
Worker.prototype.postMessage = function (...said) { held.push(() => real.apply(this, said)); };
window.__letGo = () => { Worker.prototype.postMessage = real; for (const send of held.splice(0)) send(); };
"""


@contextmanager
def slow_arithmetic(phone: Phone) -> Iterator[None]:
    """No figure is answered meanwhile; whatever was asked is answered afterwards."""
    phone.evaluate(HOLD)
    yield
    phone.evaluate("__letGo()")


def numbers(text: str) -> list[float]:
    """The numbers of a text, in order."""
    return [float(found.replace(",", "")) for found in re.findall(r"\d[\d,]*(?:\.\d+)?", text)]


# A plan of 640 × 600 dots fills the board of 320 × 300 edge to edge: a dot of the board is two of the picture.
PLAN_PX = (640, 600)
BOARD_WIDE = 320
# In dots of the board. The house wall is 200 long; the lawn 160 × 125.
WALL = ((40, 30), (240, 30))
CORNERS = ((60, 90), (220, 90), (220, 215), (60, 215))


def draw_plan(path: Path) -> None:
    """A plan to trace: a wall and a lawn on white paper."""
    with Image.new("RGB", PLAN_PX, "white") as paper:
        pen = ImageDraw.Draw(paper)
        pen.line([(2 * x, 2 * y) for x, y in WALL], fill="black", width=6)
        pen.polygon([(2 * x, 2 * y) for x, y in CORNERS], fill="#b9d3a5", outline="black")
        paper.save(path)


def touch_board(phone: Phone, x: float, y: float) -> None:
    """Tap the plan there, in dots of the board."""
    board = phone.wait(lambda: phone.element("return document.querySelector('.trace-board')"), "no board")
    wide = float(phone.evaluate("return document.querySelector('.trace-board').getBoundingClientRect().width"))
    phone.touch(board, x * wide / BOARD_WIDE, y * wide / BOARD_WIDE)


def trace(phone: Phone, plan: Path, wall_m: str) -> None:
    """Choose the picture, tap both ends of the wall, say how long it is, tap the lawn's corners but the last."""
    found = "return document.querySelector('.pick input[type=file]')"
    phone.give_file(phone.wait(lambda: phone.element(found), "no way to a picture"), plan)
    phone.see("Tap one end of a length you know")
    touch_board(phone, *WALL[0])
    phone.see("Tap its other end.")
    touch_board(phone, *WALL[1])
    phone.fill("Known distance between the first two points", wall_m)
    for number in range(1, len(CORNERS)):
        trace_corner(phone, number)


def trace_corner(phone: Phone, number: int) -> None:
    """Tap that corner of the lawn, counted from 1."""
    touch_board(phone, *CORNERS[number - 1])
    phone.see(f"Corner {number} of {number}")


def count_strip(phone: Phone, number: int) -> None:
    """Count one strip on the big button."""
    phone.tap("button", f"Strip {number} done")


def strips(phone: Phone) -> tuple[int, int]:
    """Which strip is being walked, of how many."""
    script = "return document.querySelector('output.yard__count')?.getAttribute('aria-label')"
    at, of = numbers(str(phone.wait(lambda: phone.evaluate(script), "no strips on the screen")))
    return int(at), int(of)


def count_to(phone: Phone, wanted: int) -> None:
    """Count strips until `wanted` are walked."""
    at, of = strips(phone)
    for number in range(at, wanted + 1):
        count_strip(phone, number)
        if number < of:
            phone.see_role("button", f"Strip {number + 1} done")


def put_down(phone: Phone, number: int, left_kg: float) -> None:
    """A pass walked without counting, and what is left weighed."""
    acts.walk_pass(phone, number, left=f"{left_kg:.2f}")


def sureness(phone: Phone, spreader: str) -> tuple[float, int]:
    """How sure the learned curve is: within how many per cent, from how many passes."""
    acts.place(phone, "Shed")
    phone.tap("link", re.compile(f"^{spreader}"))
    phone.see_role("heading", "The dial")
    phone.see(re.compile(r"within ± \d"))
    within, note = figure(phone, "Accuracy")
    return numbers(within)[0], int(numbers(note)[-1])  # "9 in 10 passes, from 4 passes"
