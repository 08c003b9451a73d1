"""Sending and fetching many entries over HTTP: a real server on a file of SQLite, a phone of the sync tests."""

import gzip
import json
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from tests.bench.figures import Figure, timed
from tests.sync.live import Guest, LiveServer
from tests.sync.phone import Phone

FEW, MANY = 1_000, 10_000
RUNS = 3


@dataclass
class Line:
    """Counts what goes over a phone's line, and how long the server takes to answer."""

    phone: Phone
    seconds: float = 0.0
    sent: int = 0
    received: int = 0
    _post: Callable[[dict[str, Any]], dict[str, Any]] = field(init=False)

    def __post_init__(self) -> None:
        self._post = self.phone.post
        self.phone.post = self.post

    def post(self, body: dict[str, Any]) -> dict[str, Any]:
        """One request, timed from the phone's end."""
        began = time.perf_counter()
        answer = self._post(body)
        self.seconds += time.perf_counter() - began
        self.sent += _packed(body)
        self.received += _packed(answer)
        return answer


def _packed(body: dict[str, Any]) -> int:
    return len(gzip.compress(json.dumps(body, separators=(",", ":")).encode(), 6))


@dataclass(frozen=True)
class Exchanged:
    """One household's entries sent by one phone and fetched by another; per entry."""

    push_ms: float
    pull_ms: float
    sent_bytes: float
    received_bytes: float


def exchange(server: LiveServer, number: int, count: int) -> Exchanged:
    """Send `count` entries from one phone, fetch them with a second."""
    guest = Guest(server.url).sign_up(f"bench{number}@journeys.example")
    writer, reader = Line(guest.phone()), Line(guest.phone())
    for entry in range(count):
        writer.phone.log("mow", zone_ids=[], cut_height_mm=60 + entry % 20)
    writer.phone.sync()
    reader.phone.sync()
    if len(reader.phone.all_of("entry")) != count:
        raise AssertionError("the second phone does not hold what the first sent")
    seconds = writer.seconds, reader.seconds
    push, pull = (total / count * 1000 for total in seconds)
    return Exchanged(push, pull, writer.sent / count, reader.received / count)


def measure(say: Callable[[str], None], runs: int = RUNS) -> list[Figure]:
    """Exchange few entries several times and many once, by turns."""
    server = LiveServer()
    try:
        server.start()
        few, many = [], []
        for run in range(runs):
            few.append(exchange(server, run, FEW))
            say(f"{FEW:,} entries there and back, {run + 1} of {runs}")
            if run == runs // 2:
                many.append(exchange(server, runs, MANY))
                say(f"{MANY:,} entries there and back")
    finally:
        server.close()
    return _figures(few, many)


def _figures(few: list[Exchanged], many: list[Exchanged]) -> list[Figure]:
    rows: tuple[tuple[str, str, str], ...]
    rows = (("push_ms", "sent, each", "ms"), ("pull_ms", "fetched, each", "ms"))
    rows += (("sent_bytes", "sent, each, gzipped", "B"), ("received_bytes", "fetched, each, gzipped", "B"))
    return [
        timed(
            "sync", f"{MANY:,} entries {what}", unit, [getattr(one, name) for one in many],
            f"of {FEW:,}", [getattr(one, name) for one in few],
        )
        for name, what, unit in rows
    ]  # fmt: skip
