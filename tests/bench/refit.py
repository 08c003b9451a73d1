"""A re-fit of thirty passes in the phone's own worker, slowed, and what the screen does meanwhile.

DevTools slows a page's main thread only: asked of a worker it answers "only supported for pages, not workers"
(Chromium 156). So the whole process of the page, worker included, is held by signals for a share of every few
milliseconds; how slow that made it stands in the table, as the same call in the same worker beside it.
"""

import json
import math
import os
import signal
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from lawn import demo
from lawn.tooling import build, phone_engine
from tests.bench.calls import server_times
from tests.bench.figures import Figure, timed
from tests.journeys import acts
from tests.journeys.browsers import chromium
from tests.journeys.chromium import Chromium, processes_on
from tests.journeys.server import Server

SLOWED = 4
RUNS = 7
PASSES = 30
LONG_MS = 50
FREE_S = 0.002  # of every 8 ms, so that a frame of 16.7 ms still sees the CPU twice

Case = tuple[str, dict[str, Any]]

# Keeps the worker the app makes for its engine.
KEEP = """
window.Worker = class extends Worker {
  constructor(...given) {
    super(...given);
    if (given[1]?.name === "engine") window.__engine = this;
  }
};
"""
# Asks the app's worker in the words of the library the app has for it (Comlink), or waits as long as told; meanwhile
# it writes down each frame and each long task of the main thread.
WATCHED = """
const [name, args, quietMs] = arguments;
const frames = [], tasks = [];
const watch = new PerformanceObserver((list) => tasks.push(...list.getEntries().map((one) => one.duration)));
watch.observe({ type: "longtask" });
let going = true, drawn = 0;
const frame = (at) => {
  frames.push(at);
  if (!going) return;
  drawn += 1;
  requestAnimationFrame(frame);
};
const ask = () => new Promise((done) => {
  const id = crypto.randomUUID();
  const heard = ({ data }) => {
    if (data?.id !== id) return;
    __engine.removeEventListener("message", heard);
    done(JSON.parse(data.value));
  };
  __engine.addEventListener("message", heard);
  const argumentList = [name, args].map((value) => ({ type: "RAW", value }));
  __engine.postMessage({ id, type: "APPLY", path: ["callJson"], argumentList });
});
const rest = () => new Promise((done) => setTimeout(() => done({}), quietMs));
return new Promise((begin) => requestAnimationFrame(begin)).then(async (first) => {
  frames.push(first);
  requestAnimationFrame(frame);
  const began = performance.now();
  const answer = await (name ? ask() : rest());
  const ended = performance.now();
  going = false;
  await new Promise((done) => requestAnimationFrame((at) => { frames.push(at); done(); }));
  await new Promise((done) => setTimeout(done));
  tasks.push(...watch.takeRecords().map((one) => one.duration));
  watch.disconnect();
  const gaps = frames.slice(1).map((at, index) => at - frames[index]);
  return { ms: ended - began, error: answer.error ?? null, gaps, tasks, drawn };
});
"""


class Watched:
    """One span of the page: how long it took, the gaps between its frames and its long tasks [ms]."""

    def __init__(self, found: dict[str, Any]) -> None:
        if found["error"]:
            raise ValueError(f"the bench asks amiss: {found['error']}")
        self.ms = float(found["ms"])
        self.drawn = int(found["drawn"])  # frames begun before the span ended
        self.gaps: list[float] = [gap for gap in found["gaps"] if gap > 0]
        self.tasks: list[float] = found["tasks"]

    @property
    def longest_gap(self) -> float:
        """The longest time without a frame [ms]."""
        return max(self.gaps, default=self.ms)

    @property
    def long_gaps(self) -> float:
        """How many gaps between frames were over 50 ms."""
        return float(sum(gap > LONG_MS for gap in self.gaps))


def ask(phone: Chromium, call: str, args: dict[str, Any]) -> Watched:
    """One call in the app's own worker, watched from the page."""
    return Watched(phone.evaluate(WATCHED, call, json.dumps(args), 0))


def rest(phone: Chromium, span_ms: float) -> Watched:
    """As long with nothing asked."""
    return Watched(phone.evaluate(WATCHED, "", "", span_ms))


def measure(say: Callable[[str], None], runs: int = RUNS) -> list[Figure]:
    """Each call slowed, beside itself not slowed and beside both Pythons; frames beside those of a quiet span."""
    build.ensure_built(say)
    with engine_page(demo_book=True) as phone:
        free = [[ask(phone, *case).ms for _ in range(runs + 1)][1:] for case in CASES]
        say("asked the worker as it is")
        with slowed(phone):
            both = [[beside_rest(phone, case) for _ in range(runs + 1)][1:] for case in CASES]
        say(f"asked the worker slowed {SLOWED}×")
    node = phone_engine.times([{"call": call, "args": args} for call, args in CASES], runs)
    server = [server_times(call, args, runs) for call, args in CASES]
    figures = []
    for (call, _), spans, *others in zip(CASES, both, free, node, server, strict=True):
        mine = [span.ms for span, _ in spans]
        what = f"{call}, {PASSES} passes, worker and page held to 1/{SLOWED} of the time"
        names = ("not slowed", "MicroPython in Node", "CPython")
        figures += [timed("refit", what, "ms", mine, name, other) for name, other in zip(names, others, strict=True)]
    return [*figures, *_screen([pair for spans in both for pair in spans])]


def beside_rest(phone: Chromium, case: Case) -> tuple[Watched, Watched]:
    """One call, then a quiet span as long."""
    span = ask(phone, *case)
    return span, rest(phone, span.ms)


def _screen(pairs: list[tuple[Watched, Watched]]) -> list[Figure]:
    """What the main thread did while the worker fitted, call by call, beside quiet spans as long."""
    kinds: list[tuple[str, str, Callable[[Watched], float]]] = [
        ("longest time between frames during a call", "ms", lambda span: span.longest_gap),
        (f"times between frames over {LONG_MS} ms, a call", "", lambda span: span.long_gaps),
        (f"longest main-thread task over {LONG_MS} ms (0: none)", "ms", lambda span: max(span.tasks, default=0.0)),
        (f"main-thread tasks over {LONG_MS} ms, a call", "", lambda span: float(len(span.tasks))),
    ]
    return [
        timed("refit", what, unit, [of(busy) for busy, _ in pairs], "quiet span", [of(quiet) for _, quiet in pairs])
        for what, unit, of in kinds
    ]


@contextmanager
def engine_page(*, demo_book: bool) -> Iterator[Chromium]:
    """A phone on the app's first page, its worker kept: the demo's Today, or the entrance."""
    server = Server(demo=demo_book)
    try:
        server.start()
        with tempfile.TemporaryDirectory(prefix="refit-") as folder, chromium() as make:
            phone: Any = make(server.url, Path(folder))
            try:
                phone.page.add_init_script(KEEP)
                if demo_book:
                    acts.sign_in(phone, demo.DEMO_EMAIL, demo.DEMO_PASSWORD)
                    acts.wait_installed(phone)
                    acts.all_saved(phone)
                    phone.see("Mowed the whole yard")
                else:
                    phone.open("/")
                    phone.see_role("heading", "Evenfall")
                phone.wait(lambda: phone.evaluate("return Boolean(window.__engine)"), "the engine is not started")
                yield phone
            finally:
                phone.quit()
    finally:
        server.close()


@contextmanager
def slowed(phone: Chromium) -> Iterator[None]:
    """Hold every process of the browser that runs pages, by signals, for three quarters of the time."""
    pids = [pid for pid, command in processes_on(phone.profile) if b"--type=renderer" in command]
    if not pids:
        raise RuntimeError("no process of the page was found")
    over = threading.Event()
    holding = threading.Thread(target=_hold, args=(pids, over), daemon=True)
    holding.start()
    try:
        yield
    finally:
        over.set()
        holding.join()


def _hold(pids: list[int], over: threading.Event) -> None:
    """Go and stop until it is over; each hold is as many times as long as the freedom before it really was."""
    try:
        while not over.is_set():
            free_from = time.perf_counter()
            time.sleep(FREE_S)
            _tell(pids, signal.SIGSTOP)
            while not over.is_set() and not all(_stopped(pid) for pid in pids):  # to go on before it stood undoes it
                time.sleep(0.0002)
            time.sleep((SLOWED - 1) * (time.perf_counter() - free_from))
            _tell(pids, signal.SIGCONT)
    finally:
        _tell(pids, signal.SIGCONT)


def _stopped(pid: int) -> bool:
    """Does the process stand still, or is it gone?"""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(") ")[2][:1] in "TtZX"
    except OSError:
        return True


def _tell(pids: list[int], which: signal.Signals) -> None:
    for pid in pids:
        try:
            os.kill(pid, which)
        except ProcessLookupError:
            pass


# Three years of a household with two products on one dial (invented): the fertilizer runs at half open on about a
# third of the dial, the seed needs more; each pass a little off what the dial says, some read from a level mark.
_WOBBLE = (0.05, -0.08, 0.11, -0.03, -0.12, 0.07, 0.02, -0.06, 0.13, -0.01)


def _pass(number: int) -> dict[str, Any]:
    seed = number % 5 in (1, 4)
    dial = (10, 11, 12)[number % 3] if seed else (7, 8, 9, 8)[number % 4]
    gap = (dial - (3 if seed else 2)) / 24
    rate = (0.11 if seed else 0.16) * gap**1.4 * math.exp(_WOBBLE[number % len(_WOBBLE)])
    told = (
        {"bulk_density_kg_m3": 420, "granules": "coarse"} if seed else {"bulk_density_kg_m3": 860, "granules": "medium"}
    )
    return {
        "product": "seed" if seed else "fertilizer",
        **told,
        "dial": dial,
        "area_m2": (180, 240, 95)[number % 3],
        "used_kg": round(rate * (180, 240, 95)[number % 3], 2),
        "measured": "level" if number % 3 == 0 else "scale",
        "swath_m": 2.4 if seed else 3.0,
        "speed_m_s": 1.3,
    }


_ASKED: dict[str, Any] = {
    "dial": {"lowest": 0, "highest": 24, "step": 1},
    "product": {"id": "fertilizer", "bulk_density_kg_m3": 860, "granules": "medium"},
    "history": [_pass(number) for number in range(PASSES)],
    "swath_m": 3.0,
    "speed_m_s": 1.3,
}
_GOAL = {"target_kg_m2": 0.03, "area_m2": 240}
CASES: list[Case] = [
    ("spreading.next", {**_ASKED, **_GOAL, "left_kg": 3.4, "passes_to_go": 1}),
    (
        "spreading.check",
        {**_ASKED, **_GOAL, "left_kg": 7.2, "now_kg": 5.6, "area_done_m2": 110, "area_to_go_m2": 130}
        | {"dial_now": 8, "passes_to_go": 2},
    ),
    ("spreading.curve", _ASKED),
]
