"""Opening the app from its cache, with no server and a slowed CPU, beside an empty page of the same stack.

Both pages are served by the same Django, kept by the same kind of service worker and drawn by the same library; the
empty one holds a heading and nothing else. Each opening is a new tab with every service worker stopped before it, the
two pages in turn, so that whatever else the machine does falls on both alike.
"""

import subprocess
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

from lawn import demo
from lawn.tooling import build, nodejs
from tests.bench.figures import Figure, timed
from tests.journeys import acts
from tests.journeys.browsers import chromium
from tests.journeys.chromium import Chromium
from tests.journeys.server import Server

SLOWED = 4
RUNS = 11
Times = dict[str, list[float]]

# The browser itself notes the moment at which a marked element was shown (Element Timing), as it does for the first
# content (Paint Timing); a script's own clock would count whatever work it had to wait for after the frame.
WATCH = """
  const marks = (window.__bench = {});
  new PerformanceObserver((list) => {
    for (const { identifier, renderTime } of list.getEntries()) marks[identifier] = renderTime;
  }).observe({ type: "element", buffered: true });
  const mark = (name, element) => element?.setAttribute("elementtiming", name);
  const due = /Mowed the whole yard|Measure a zone/;
  new MutationObserver(() => {
    mark("heading", document.querySelector("h1:not([elementtiming])"));
    const signals = [...document.querySelectorAll(".button:not([elementtiming])")];
    mark("due", signals.find((one) => due.test(one.textContent)));
  }).observe(document, { childList: true, subtree: true });
"""
# Asked once and answered when both are there: looking again and again would itself take the slowed CPU's time.
READ = """new Promise((done) => {
  const look = () => {
    const paint = performance.getEntriesByName("first-contentful-paint")[0];
    const marks = { ...window.__bench, content: paint ? paint.startTime : -1 };
    if (marks.LAST > 0 && marks.content > 0) done(marks);
    else setTimeout(look, 200);
  };
  look();
})"""


class EmptyServer(Server):
    """The same server over the empty page."""

    page = ""

    @property
    def environment(self) -> dict[str, str]:
        """As the app's own, but for the files it serves."""
        own = {"DJANGO_SETTINGS_MODULE": "tests.bench.empty_settings", "EVENFALL_BENCH_PAGE": self.page}
        return {**super().environment, **own}


def measure(say: Callable[[str], None], runs: int = RUNS) -> list[Figure]:
    """Open both pages in turn and lay their times side by side."""
    build.ensure_built(say)
    with _both_pages(say) as (phone, app, empty):
        times: dict[str, Times] = {"app": defaultdict(list), "empty": defaultdict(list)}
        for run in range(runs + 1):
            for name, url, last in (("empty", empty, "heading"), ("app", app, "due")):
                found = open_once(phone, url, last)
                if run:  # the first of each warms the machine's own caches
                    for mark, at in found.items():
                        times[name][mark].append(at)
            say(f"opened both, {run} of {runs}")
    own, other = times["app"], times["empty"]
    return [
        timed("open", "first content", "ms", own["content"], "empty page", other["content"]),
        timed("open", "heading Today", "ms", own["heading"], "empty page", other["heading"]),
        timed("open", "what is due", "ms", own["due"], "empty page's heading", other["heading"]),
    ]


def open_once(phone: Chromium, url: str, last: str) -> dict[str, float]:
    """Open a page in a new tab as from the home screen; when each mark was reached, ms after the tap."""
    page = phone.context.new_page()
    try:
        tools = phone.context.new_cdp_session(page)
        tools.send("ServiceWorker.enable")
        tools.send("ServiceWorker.stopAllWorkers")
        tools.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        tools.send("Page.enable")
        tools.send("Page.addScriptToEvaluateOnNewDocument", {"source": f"(() => {{{WATCH}}})()"})
        page.goto(url, wait_until="commit")
        asked = {"expression": READ.replace("LAST", last), "awaitPromise": True, "returnByValue": True}
        answer = tools.send("Runtime.evaluate", asked)
        return {mark: float(at) for mark, at in answer["result"]["value"].items()}
    finally:
        page.close()


@contextmanager
def _both_pages(say: Callable[[str], None]) -> Iterator[tuple[Chromium, str, str]]:
    """A phone that keeps both pages, and their addresses, which nobody serves any more."""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="empty-page-")))
        build_empty_page(folder)
        EmptyServer.page = str(folder)
        app, empty = Server(demo=True), EmptyServer()
        for server in (app, empty):
            stack.callback(server.close)
            server.start()
        phone: Any = stack.enter_context(chromium())(app.url, folder)
        stack.callback(phone.quit)
        say("putting both on the phone ...")
        acts.sign_in(phone, demo.DEMO_EMAIL, demo.DEMO_PASSWORD)
        acts.wait_installed(phone)
        acts.all_saved(phone)
        phone.see("Mowed the whole yard")
        phone.goto(empty.url)
        acts.wait_installed(phone)
        phone.restart()  # what was kept is then read from the disk
        for server in (app, empty):
            server.stop()
        yield phone, app.url + "/", empty.url + "/"


def build_empty_page(folder: Path) -> None:
    """Build frontend/tools/empty into a folder."""
    command = [nodejs.node(), "tools/empty/build.mjs", str(folder)]
    subprocess.run(command, cwd=build.FRONTEND, env=nodejs.environment(), check=True, stdout=subprocess.DEVNULL)
