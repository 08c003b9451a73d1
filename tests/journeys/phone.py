"""A phone in the hand: one browser, driven as a person drives it.

Everything a journey does is written here once, on five primitives that each browser implements
(run a script, find an element, tap, type, pick). Things are found by role and accessible name in
the page itself, so both browsers are held to the same names.
"""

import re
import threading
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar
from urllib.parse import urljoin

from tests.journeys import scripts

NARROW = (360, 640)
Wanted = str | re.Pattern[str]
T = TypeVar("T")
PATIENCE_S = 60.0  # far beyond what anything takes, on a crowded machine too; only a failure waits this long
_PAUSE_S = 0.04  # between two looks at a condition
_LOOKS = 3  # a screen is at rest that shows the same so many times running
_REST_S = 20.0  # a screen that does not come to rest is judged as it is
_JUDGED = 6  # a fault is one that is still there when a screen at rest is looked at again

# After something is recorded the app takes no tap for a moment; a person's next one comes later.
# It rests after a record, and when what was kept of Today gives way to what is so now: no tap meets what just changed.
RESTING = """return document.documentElement.hasAttribute('data-resting')
  || document.querySelector('[data-as-of]') !== null"""
# The same, and when it does, answered only once it is over: to ask again and again took more work than the rest itself.
RESTED = f"""
const resting = () => {{ {RESTING} }};
const [was, end] = [resting(), performance.now() + 2000];
return new Promise((done) => {{
  const look = () => (resting() && performance.now() < end ? setTimeout(look, 10) : done(was));
  look();
}});
"""
IN_PAGE = "return window.__journey && document.body ? %s : null"  # asked of the finder, where it is in the page
COLOURS = ("color-contrast", "link-in-text-block")  # the checker's rules that another theme can break
AXE_RUN = """
const only = arguments[0] ? {runOnly: {type: "rule", values: arguments[0]}} : {};
return axe.run(document, {resultTypes: ["violations"], ...only}).then((found) => found.violations.map((v) => ({
  id: v.id, help: v.help,
  nodes: v.nodes.map((n) => n.target.join(" ") + ": " + (n.any[0]?.message ?? n.failureSummary)),
})));
"""


# What a screen shows, or null while it is still on its way: figures being worked out, fonts, pictures, transitions.
AT_REST = """
const passing = (one) => one.playState === "running" && Number.isFinite(one.effect?.getComputedTiming().endTime ?? 0);
const unread = (img) => !img.complete;
if (document.readyState !== "complete" || document.fonts.status !== "loaded") return null;
if (document.querySelector("[aria-busy='true'], [aria-busy='']") || document.getAnimations().some(passing)) return null;
if ([...document.images].some(unread)) return null;
const {scrollWidth, scrollHeight} = document.documentElement;
const boxes = [...document.querySelectorAll("button, a, input, select")].map((one) => {
  const {x, y, width, height} = one.getBoundingClientRect();
  return [x, y, width, height];
});
return JSON.stringify([location.href, scrollWidth, scrollHeight, document.body.innerText, boxes]);
"""


class Impatient(AssertionError):
    """What a journey waited for did not come; the message carries what the page showed."""


class Gone(Exception):
    """The page went away (navigated, reloaded) while it was asked; worth asking again."""


def as_json(wanted: Wanted | None) -> object:
    """A wanted name or text as the finder takes it."""
    if isinstance(wanted, re.Pattern):
        return {"re": wanted.pattern, "flags": "i" if wanted.flags & re.IGNORECASE else ""}
    return wanted


class Phone(ABC):
    """One browser window of 360 × 640 on one server."""

    browser: str

    def __init__(self, base_url: str, pictures: Path) -> None:
        self.base_url = base_url
        self.pictures = pictures

    # What each browser does its own way -------------------------------------------------

    @abstractmethod
    def evaluate(self, body: str, *arguments: object) -> Any:
        """Run a function body in the page with `arguments`; a returned promise is awaited."""

    @abstractmethod
    def element(self, body: str, *arguments: object) -> Any | None:
        """Run a function body that returns an element; a handle on it, or None."""

    @abstractmethod
    def goto(self, url: str) -> None:
        """Load a whole page by address."""

    @abstractmethod
    def reload(self) -> None:
        """Load the present page again."""

    @abstractmethod
    def back(self) -> None:
        """Press back, the browser's or the phone's."""

    @abstractmethod
    def click(self, element: Any) -> None:
        """Tap an element, scrolled into view, as a finger would."""

    @abstractmethod
    def type_into(self, element: Any, text: str) -> None:
        """Replace what a field holds by `text`, typed."""

    @abstractmethod
    def pick(self, element: Any, option: str) -> None:
        """Choose the option of a select element by its visible words."""

    @abstractmethod
    def option_words(self, element: Any, wanted: object) -> str | None:
        """The words of the matching option of a select element; None for any other element."""

    @abstractmethod
    def touch(self, element: Any, x: float, y: float) -> None:
        """Tap a drawing at a place, in CSS pixels from its top left corner, as it lies on the screen."""

    @abstractmethod
    def give_file(self, element: Any, path: Path) -> None:
        """Choose that file for a file input."""

    @abstractmethod
    def size(self, width: int, height: int) -> None:
        """Give the page a viewport of that many CSS pixels."""

    @abstractmethod
    def picture(self, path: Path) -> None:
        """Save what the screen shows as PNG."""

    @abstractmethod
    def kill_page(self) -> None:
        """Take the page away at once, without letting it finish anything, as a phone does; then a fresh one."""

    @abstractmethod
    def add_tab(self) -> None:
        """Open another tab of the same browser and turn to it."""

    @abstractmethod
    def show_tab(self, number: int) -> None:
        """Turn to a tab by its number; the first is 0."""

    @abstractmethod
    def close_tab(self) -> None:
        """Close the present tab and turn to the first of those left."""

    @abstractmethod
    def freeze_tab(self, number: int) -> Callable[[], None]:
        """Let nothing run in another tab any more, its timers included; what lets it go on."""

    @abstractmethod
    def restart(self) -> None:
        """Put the app away as people do and start it again: a cold start, on a blank page."""

    @abstractmethod
    def quit(self) -> None:
        """Put the phone away for good."""

    # What a journey says -------------------------------------------------------------------

    def open(self, path: str = "/") -> None:
        """Type an address of this server into the browser."""
        self.goto(urljoin(self.base_url, path))

    def put_away(self) -> None:
        """Leave the app on a blank page, once a closing sheet has gone back: it would bring the app back."""
        self.wait(lambda: self.evaluate("return !history.state?.sheets?.length"), "a sheet is still closing")
        self.goto("about:blank")

    def path(self) -> str:
        """The path the page is at now."""
        return str(self.evaluate("return location.pathname"))

    def wait(self, condition: Callable[[], T], what: str, patience_s: float = PATIENCE_S) -> T:
        """Look again and again until `condition` is truthy; its value."""
        end, trouble = time.monotonic() + patience_s, ""
        while True:
            try:
                if value := condition():
                    return value
                trouble = ""
            except Gone as gone:
                trouble = f" ({gone})"
            if time.monotonic() > end:
                raise Impatient(f"{self.browser}: {what}{trouble}; the page shows:\n{self._outline()}")
            threading.Event().wait(_PAUSE_S)

    def tap(self, role: str, name: Wanted, *, inside: tuple[str, Wanted] | None = None, nth: int = 0) -> None:
        """Tap the control of that role and name, once it is there, enabled, and the app has rested after a record."""
        self._act(self._ready(role, name, inside, nth), self.click, f"no {role} {name!r} to tap")

    def tap_if_there(self, role: str, name: Wanted) -> bool:
        """Tap that control where it may be tapped now; whether it was."""
        try:
            control = self._find(role, name, None, 0)()
            if control is None or self.evaluate(RESTING):
                return False
            self.click(control)
        except Gone:
            return False
        return True

    def _ready(self, role: str, name: Wanted, inside: tuple[str, Wanted] | None, nth: int) -> Callable[[], Any | None]:
        found = self._find(role, name, inside, nth)

        def ready() -> Any | None:
            control = found()  # first: what stands there from before may come with it
            return None if control is None or self.evaluate(RESTED) else control  # after a rest it is found anew

        return ready

    def fill(self, label: Wanted, text: str, *, inside: tuple[str, Wanted] | None = None) -> None:
        """Type into the field of that label."""
        find = self._finder("field", as_json(label), self._group(inside))
        self._act(find, lambda found: self.type_into(found, text), f"no field {label!r} to fill")

    def choose(self, label: Wanted, option: Wanted) -> None:
        """Pick an option: of the select so labelled, else the radio or checkbox in the group so called."""

        def find() -> Any | None:
            return self._finder("field", as_json(label))() or self._finder("option", as_json(label), as_json(option))()

        def pick(found: Any) -> None:
            self._pick_or_tap(found, option)

        self._act(find, pick, f"nothing called {label!r} with {option!r} to choose")

    def see(self, text: Wanted) -> None:
        """Wait until that text is to be seen."""
        self.wait(lambda: self._ask("text", as_json(text)), f"text {text!r} not seen")

    def gone(self, text: Wanted) -> None:
        """Wait until that text is no more to be seen."""
        self.wait(lambda: not self._ask("text", as_json(text)), f"text {text!r} still seen")

    def see_role(self, role: str, name: Wanted, *, inside: tuple[str, Wanted] | None = None) -> None:
        """Wait until such an element is there."""
        self.wait(lambda: self._find(role, name, inside, 0)(), f"no {role} {name!r}")

    def sees(self, text: Wanted) -> bool:
        """Is that text to be seen at this moment?"""
        return bool(self._ask("text", as_json(text)))

    def sees_role(self, role: str, name: Wanted) -> bool:
        """Is such an element there at this moment?"""
        return self._find(role, name, None, 0)() is not None

    def count(self, role: str, name: Wanted) -> int:
        """How many such elements there are now."""
        return int(self.evaluate("return __journey.all(arguments[0], arguments[1]).length", role, as_json(name)))

    def value(self, label: Wanted) -> str:
        """What the field of that label holds."""
        found = self.wait(lambda: self._ask("complaint", as_json(label)), f"no field {label!r}")
        return str(found["value"])

    def see_complaint(self, label: Wanted, words: Wanted) -> None:
        """Wait until that field is marked wrong and its own description says `words`."""

        def complains() -> bool:
            found = self._ask("complaint", as_json(label))
            if not found or not found["invalid"]:
                return False
            said = str(found["words"])
            return bool(words.search(said)) if isinstance(words, re.Pattern) else words in said

        self.wait(complains, f"field {label!r} does not say {words!r}")

    def screenshot(self, name: str) -> Path:
        """Keep a picture of the screen under that name."""
        self.pictures.mkdir(parents=True, exist_ok=True)
        path = self.pictures / f"{name}-{self.browser}.png"
        self.picture(path)
        return path

    def axe(self, rules: Sequence[str] = ()) -> list[str]:
        """What the accessibility checker finds on this screen, one sentence each; of those rules only, if named."""

        def look() -> list[str]:
            if not self.evaluate("return typeof axe !== 'undefined'"):
                self.evaluate(scripts.axe())
            found = self.evaluate(AXE_RUN, list(rules) or None)
            return [f"{v['id']}: {v['help']} ({node})" for v in found for node in v["nodes"]]

        return self._judged(look)

    def layout_faults(self, least_px: int = 44) -> list[str]:
        """Faults of layout on this screen: sideways scrolling, cut or overlapping text, covered or small controls."""
        return self._judged(lambda: [str(fault) for fault in self._ask("faults", least_px)])

    # Inner workings --------------------------------------------------------------------------

    def rest(self) -> None:
        """Wait until the screen shows the same at several looks running, with nothing still on its way."""
        shown: list[object] = []

        def still() -> bool:
            shown.append(self.evaluate(AT_REST))
            return shown[-1] is not None and shown[-_LOOKS:] == [shown[-1]] * _LOOKS

        with suppress(Impatient):
            self.wait(still, "the screen does not come to rest", _REST_S)

    def _judged(self, look: Callable[[], list[str]]) -> list[str]:
        """What is wrong with the screen at rest: faults still there when it is looked at again."""
        for _ in range(_JUDGED):
            self.rest()
            found = look()
            if not found:
                return []
        return found

    def _ask(self, name: str, *arguments: object) -> Any:
        """Call one of the finder's functions in the page, putting the finder there first if needed."""
        asked = f"Promise.resolve(__journey.{name}(...arguments)).then((said) => ({{said}}))"
        answer = self.evaluate(IN_PAGE % asked, *arguments)
        if answer is None and self.put_finder():
            answer = self.evaluate(IN_PAGE % asked, *arguments)
        return None if answer is None else answer.get("said")

    def put_finder(self) -> bool:
        """Make sure the finder is in the page (every load of a page loses it); had it to be put there?"""
        there = bool(self.evaluate("return typeof __journey !== 'undefined' && !!document.body"))
        if not there:
            self.evaluate(scripts.finder())
        return not there

    def _finder(self, name: str, *arguments: object) -> Callable[[], Any | None]:
        """A look for one element by one of the finder's functions."""
        look = IN_PAGE % f"__journey.{name}(...arguments)"

        def find() -> Any | None:
            found = self.element(look, *arguments)
            if found is None and self.put_finder():
                found = self.element(look, *arguments)
            return found

        return find

    def _find(self, role: str, name: Wanted, inside: tuple[str, Wanted] | None, nth: int) -> Callable[[], Any | None]:
        return self._finder("one", role, as_json(name), self._group(inside), nth)

    @staticmethod
    def _group(inside: tuple[str, Wanted] | None) -> object:
        return {"role": inside[0], "name": as_json(inside[1])} if inside else None

    def _pick_or_tap(self, found: Any, option: Wanted) -> None:
        """Pick from a select element, or tap anything else."""
        words = self.option_words(found, as_json(option))
        if words is None:
            self.click(found)
        else:
            self.pick(found, words)

    def _act(self, find: Callable[[], Any | None], act: Callable[[Any], None], what: str) -> None:
        """Find an element and act on it; when it vanishes in between, look again."""

        def try_once() -> bool:
            found = find()
            if found is None:
                return False
            act(found)
            return True

        self.wait(try_once, what)

    def _outline(self) -> str:
        try:
            return str(self._ask("outline"))
        except Exception as trouble:  # the page may be dead: say so instead of hiding the first failure
            return f"(cannot be read: {trouble})"
