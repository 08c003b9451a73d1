"""Pushes a second: one entry each, from the phones of one household and of many at once, on either database."""

import time
from collections.abc import Callable
from contextlib import ExitStack

from tests.bench.figures import Figure, timed
from tests.live.cluster import Cluster
from tests.live.server import Hosted
from tests.sync.live import Guest, at_once
from tests.sync.phone import Phone

MANY, AT_ONCE, WORKERS = 48, 8, 2  # one person may have 50 phones
PUSHES = 5  # of each phone


def measure(say: Callable[[str], None]) -> list[Figure]:
    """SQLite and PostgreSQL, each with one household and with many, from as many lines at once."""
    figures = []
    with ExitStack() as stack:
        cluster = Cluster()
        stack.callback(cluster.close)
        cluster.start().create("bench")
        for name, database in (("SQLite", ""), ("PostgreSQL", cluster.url("bench"))):
            server = Hosted(database, workers=WORKERS)
            stack.callback(server.close)
            server.start()
            say(f"{MANY} households on {name} ...")
            one, many = _phones(server, [0]), _phones(server, range(1, MANY + 1))
            rates: tuple[list[float], list[float]] = ([], [])
            for _ in range(3):
                rates[0].append(_rate(one))
                rates[1].append(_rate(many))
            say(f"pushes of {MANY} households at once on {name}")
            server.stop()
            what = f"pushes of {MANY} households on {name}"
            figures.append(timed("sync", what, "/s", rates[1], "of one household", rates[0]))
    return figures


def _phones(server: Hosted, numbers: "range | list[int]") -> list[Phone]:
    """A phone for each of many households; as many of one household."""
    guests = [Guest(server.url).sign_up(f"crowd{number}@journeys.example") for number in numbers]
    return [guests[place % len(guests)].phone() for place in range(MANY)]


def _rate(phones: list[Phone]) -> float:
    """Every phone sends one entry after another, AT_ONCE phones at a time; how many a second."""

    def lane(number: int) -> Callable[[], None]:
        def run() -> None:
            for _ in range(PUSHES):
                for phone in phones[number::AT_ONCE]:
                    phone.log("mow", zone_ids=[], cut_height_mm=65)
                    phone.take(phone.post(phone.request()))

        return run

    began = time.perf_counter()
    at_once([lane(number) for number in range(AT_ONCE)])
    return PUSHES * len(phones) / (time.perf_counter() - began)
