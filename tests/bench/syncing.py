"""Syncing: many entries sent and fetched beside PouchDB and beside bare SQL, their bytes, rounds, crowds.

Four pairs in the same run, by turns, so that whatever else the machine does falls on both:
- phones in Chromium, the app's own code, beside PouchDB's browser build and its express server;
- phones without a browser: the sync tests' own in Python, beside PouchDB in Node (LevelDB on both its sides);
- our server's time beside the bare SQL of the same rows;
- rounds with a long history beside rounds with a short one.
"""

import json
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tests.bench import browsers
from tests.bench.entries import Entry, mows, passes
from tests.bench.figures import Figure, table, timed
from tests.bench.sync import bare, beside, crowd, rounds
from tests.sync.live import Guest, LiveServer
from tests.sync.phone import Phone

MANY, FEW = 10_000, 1_000
RUNS = 3
# As it comes PouchDB replicates by batches of 100.
_HOW = {"default": "PouchDB as it comes", "by_1000": "PouchDB by 1,000"}


@dataclass
class Line:
    """Times what a phone asks of the server, from the phone's end."""

    phone: Phone
    seconds: float = 0.0

    def __post_init__(self) -> None:
        self._post = self.phone.post
        self.phone.post = self.post

    def post(self, body: dict[str, Any]) -> dict[str, Any]:
        """One request, timed."""
        began = time.perf_counter()
        answer = self._post(body)
        self.seconds += time.perf_counter() - began
        return answer


def exchange(server: LiveServer, number: int, entries: list[Entry]) -> dict[str, float]:
    """Entries sent by a phone of the sync tests and fetched by a second; ms."""
    guest = Guest(server.url).sign_up(f"bench{number}@journeys.example")
    writer, reader = Line(guest.phone()), Line(guest.phone())
    for entry in entries:
        writer.phone.save({"t": "entry", **entry})
    writer.phone.sync()
    reader.phone.sync()
    if len(reader.phone.all_of("entry")) != len(entries):
        raise AssertionError("the second phone does not hold what the first sent")
    return {"push": writer.seconds * 1000, "pull": reader.seconds * 1000}


def measure(say: Callable[[str], None], runs: int = RUNS) -> list[Figure]:
    """Every part in turn."""
    beside.ensure_installed(say)
    script = browsers.bundle()
    parts: tuple[Callable[[], list[Figure]], ...] = (
        lambda: _between_browsers(say, script, runs),
        lambda: _between_nodes(say, runs),
        lambda: _histories(say, script),
        lambda: crowd.measure(say),
    )
    figures: list[Figure] = []
    for part in parts:
        found = part()
        # Said as they come: an hour's figures are not lost with a later part.
        say(table(found))
        figures += found
    return figures


def _histories(say: Callable[[str], None], script: str) -> list[Figure]:
    server = LiveServer()
    try:
        server.start()
        return rounds.measure(say, server, script)
    finally:
        server.close()


def _between_browsers(say: Callable[[str], None], script: str, runs: int) -> list[Figure]:
    mine: list[dict[str, float]] = []
    theirs: dict[str, list[dict[str, float]]] = {how: [] for how in _HOW}
    server = LiveServer()
    try:
        server.start()
        with beside.served() as url, browsers.browsers(server.url) as (phone,):
            ours = browsers.Ours(phone, server, script)
            for run in range(runs):
                entries = mows(MANY)
                mine.append(ours.exchange(run, entries))
                for how, found in theirs.items():
                    found.append(browsers.beside(phone, url, run, entries, how))
                say(f"{MANY:,} entries between phones in Chromium, {run + 1} of {runs}")
            real = passes(FEW)
            kept = ours.exchange(runs, real)
    finally:
        server.close()
    written = [len(json.dumps(entries, separators=(",", ":"))) / len(entries) for entries in (entries, real)]
    sizes = [
        _bytes(f"{name} {way}, gzipped", bodies[key] / count, size)
        for name, bodies, count, size in (
            ("a mow", mine[0], MANY, written[0]),
            ("a spreading job's pass", kept, FEW, written[1]),
        )
        for key, way in (("up", "sent"), ("down", "fetched"))
    ]
    beside_us = [figure for how, name in _HOW.items() for figure in _ways("in Chromium", mine, theirs[how], name)]
    return [*beside_us, *sizes]


def _between_nodes(say: Callable[[str], None], runs: int) -> list[Figure]:
    mine: list[dict[str, float]] = []
    theirs: dict[str, list[dict[str, float]]] = {how: [] for how in _HOW}
    sql: list[dict[str, float]] = []
    with beside.served() as url:
        for run in range(runs):
            entries = mows(MANY)
            server = LiveServer()
            try:
                server.start()
                mine.append(exchange(server, run, entries))
                server.stop()
                push, pull = bare.times(server.data / "evenfall.sqlite3")
            finally:
                server.close()
            sql.append({"push": push, "pull": pull})
            for how, found in theirs.items():
                found.append(beside.between_nodes(url, run, entries, how))
            say(f"{MANY:,} entries between phones without a browser, {run + 1} of {runs}")
    beside_us = [
        figure for how, name in _HOW.items() for figure in _ways("no browser", mine, theirs[how], f"{name}, in Node")
    ]
    return beside_us + _ways("no browser", mine, sql, "bare SQL")


def _ways(where: str, mine: list[dict[str, float]], other: list[dict[str, float]], against: str) -> list[Figure]:
    return [
        timed(
            "sync", f"{MANY:,} entries {what}, {where}, each", "ms",
            [one[key] / MANY for one in mine], against, [one[key] / MANY for one in other],
        )
        for key, what in (("push", "sent"), ("pull", "fetched"))
    ]  # fmt: skip


def _bytes(what: str, found: float, written: float) -> Figure:
    return timed("sync", what, "B", [found], "as JSON", [statistics.fmean([written])])
