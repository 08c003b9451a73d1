"""Opening a book of ten years (12,000 entries, 200 photos) beside an empty one, with a slowed CPU and no server.

Told beside the times: the longest task of the page from its start until it has been quiet, since a thumb waits for it.
"""

import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

from lawn import demo
from lawn.tooling import build
from tests.bench.figures import Figure, timed
from tests.bench.opening import SLOWED
from tests.journeys import acts
from tests.journeys.browsers import chromium
from tests.journeys.chromium import Chromium
from tests.journeys.server import ROOT, Server

ENTRIES, PHOTOS, RUNS = 12_000, 200, 5
FETCH_S = 900.0  # for the book to come to the phone, on a machine that does much else
LONGEST_MS = 100.0  # what a task may take; the ratio is to this

# Each place's own sign that the book was read: lines of the log, a zone's own heading, the first step of an empty book.
WATCH = """
  const marks = (window.__bench = { longest: 0, last: 0 });
  new PerformanceObserver((list) => {
    for (const { duration, startTime } of list.getEntries()) {
      marks.longest = Math.max(marks.longest, duration);
      marks.last = Math.max(marks.last, startTime + duration);
    }
  }).observe({ type: "longtask", buffered: true });
  const sign = "#latest, .lines .line, a[href$='/edit'], a.button[href='/ground/new']";
  new MutationObserver(() => {
    if (!marks.heading && document.querySelector("h1")) marks.heading = performance.now();
    if (!marks.read && document.querySelector(sign)) marks.read = performance.now();
  }).observe(document, { childList: true, subtree: true });
"""
QUIET_MS, LONGEST_MS_TO_QUIET = 3000, 60_000
READ = f"""new Promise((done) => {{
  const look = () => {{
    const marks = window.__bench;
    const quiet = performance.now() - Math.max(marks.read, marks.last) > {QUIET_MS};
    if (marks.read && (quiet || performance.now() > {LONGEST_MS_TO_QUIET})) done(marks);
    else setTimeout(look, 300);
  }};
  look();
}})"""
# Not the keys of all of it: asked again and again, they would keep the phone from fetching the rest.
ASK = """const [what, from, to] = arguments;
return new Promise((done, fail) => {
  indexedDB.databases().then((all) => {
    const asked = indexedDB.open(all.find(({ name }) => name.split(":").length === 3).name);
    asked.onsuccess = () => {
      const range = from === undefined ? undefined : IDBKeyRange.bound(from, to);
      const rows = asked.result.transaction("live").objectStore("live")[what](range);
      rows.onsuccess = () => { asked.result.close(); done(rows.result); };
    };
    asked.onerror = () => fail(asked.error);
  });
})"""


def measure(say: Callable[[str], None], runs: int = RUNS) -> list[Figure]:
    """Today, the log and a zone of the long book, by turns with Today of the empty one."""
    build.ensure_built(say)
    with _books(say) as (long, zone, short):
        places = {"Today": (long, "/"), "Log": (long, "/log"), "a zone": (long, f"/ground/{zone}"), "": (short, "/")}
        found: dict[str, dict[str, list[float]]] = {name: defaultdict(list) for name in places}
        for run in range(runs + 1):
            for name, (phone, path) in places.items():
                marks = open_once(phone, path)
                if run:
                    for mark, at in marks.items():
                        found[name][mark].append(at)
            say(f"opened all, {run} of {runs}")
    return [figure for name in list(places)[:-1] for figure in _figures(name, found[name], found[""])]


def _figures(name: str, mine: dict[str, list[float]], empty: dict[str, list[float]]) -> list[Figure]:
    return [
        timed("years", f"{name}, heading", "ms", mine["heading"], "an empty book's Today", empty["heading"]),
        timed("years", f"{name}, book read", "ms", mine["read"], "an empty book's Today", empty["read"]),
        timed("years", f"{name}, longest task", "ms", mine["longest"], "allowed", [LONGEST_MS]),
        timed("years", f"{name}, longest task", "ms", mine["longest"], "an empty book's Today", empty["longest"]),
    ]


def open_once(phone: Chromium, path: str) -> dict[str, float]:
    """Open a page in a new tab as from the home screen; its marks, ms after the tap."""
    page = phone.context.new_page()
    try:
        tools = phone.context.new_cdp_session(page)
        tools.send("ServiceWorker.enable")
        tools.send("ServiceWorker.stopAllWorkers")
        tools.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        tools.send("Page.enable")
        tools.send("Page.addScriptToEvaluateOnNewDocument", {"source": f"(() => {{{WATCH}}})()"})
        page.goto(phone.base_url + path, wait_until="commit")
        asked = {"expression": READ, "awaitPromise": True, "returnByValue": True}
        answer = tools.send("Runtime.evaluate", asked)
        return {mark: float(at) for mark, at in answer["result"]["value"].items()}
    finally:
        page.close()


@contextmanager
def _books(say: Callable[[str], None]) -> Iterator[tuple[Chromium, str, Chromium]]:
    """A phone with ten years and one of its zones; a phone with an empty book. Nobody serves either any more."""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="years-")))
        server = Server(demo=True)
        stack.callback(server.close)
        say(f"{ENTRIES:,} entries and {PHOTOS} photos ...")
        command = [sys.executable, "-m", "tests.bench.fill", household(server), str(ENTRIES), str(PHOTOS)]
        subprocess.run(command, cwd=ROOT, env=server.environment, check=True)
        server.start()
        make: Any = stack.enter_context(chromium())
        long, short = make(server.url, folder), make(server.url, folder)
        for phone in (long, short):
            stack.callback(phone.quit)
        say("fetching it to a phone ...")
        acts.sign_in(long, demo.DEMO_EMAIL, demo.DEMO_PASSWORD)
        acts.sign_up(short, "empty@years.example")
        # First of all: while it comes the phone does not say that all is saved.
        long.wait(lambda: held(long) > ENTRIES + PHOTOS, "the book is not on the phone", FETCH_S)
        for phone in (long, short):
            acts.wait_installed(phone)
            acts.all_saved(phone)
        say("it is on the phone")
        zone = first_zone(long)
        for phone in (long, short):
            phone.restart()
        server.stop()
        yield long, zone, short


def held(phone: Chromium) -> int:
    """How many records a phone shows."""
    return int(phone.evaluate(ASK, "count"))


def first_zone(phone: Chromium) -> str:
    """The id of one of its zones."""
    keys: list[str] = phone.evaluate(ASK, "getAllKeys", "zone:", "zone;")
    return keys[0].partition(":")[2]


def household(server: Server) -> str:
    """The demo's one household."""
    ask = "from lawn.models import Household; print(Household.objects.get().id)"
    return server.manage("shell", "-v", "0", "-c", ask).split()[-1]
