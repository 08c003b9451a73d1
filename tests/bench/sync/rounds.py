"""What one round costs with a short and with a long history: nothing new, and one new entry; server and phone."""

import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from tests.bench import browsers
from tests.bench.entries import mows
from tests.bench.figures import Figure, timed
from tests.journeys.server import ROOT
from tests.sync.live import Guest, LiveServer
from tests.sync.phone import Phone

SHORT, LONG = 1_000, 100_000
RUNS = 40


@dataclass
class Household:
    """A person, and an up-to-date phone in Python and one in Chromium."""

    guest: Guest
    phone: Phone
    app: browsers.Ours


def measure(say: Callable[[str], None], server: LiveServer, script: str, runs: int = RUNS) -> list[Figure]:
    """Rounds in a household of few and in one of many entries, by turns."""
    with browsers.browsers(server.url, 2) as phones:
        apps = [browsers.Ours(phone, server, script) for phone in phones]
        short, long = (_household(server, app, count, say) for app, count in zip(apps, (SHORT, LONG), strict=True))
        return [_turns(what, short, long, runs, ask) for what, ask in _ROUNDS]


def fill(server: LiveServer, household: str, count: int) -> None:
    """Bring many entries into a household without HTTP."""
    command = [sys.executable, "-m", "tests.bench.fill", household, str(count)]
    subprocess.run(command, cwd=ROOT, env=server.environment, check=True)


def _household(server: LiveServer, app: browsers.Ours, count: int, say: Callable[[str], None]) -> Household:
    say(f"a household of {count:,} entries ...")
    email = f"rounds{count}@journeys.example"
    household = app.begin(email)
    fill(server, household, count)
    guest = Guest(server.url)
    guest.ask("accounts/sign-in", {"email": email, "password": "four wet spaniels"})
    guest.household = household
    phone = guest.phone()
    phone.sync()
    app.ask("open", "phone", household)
    app.ask("start", "phone")
    app.ask("round", "phone")
    return Household(guest, phone, app)


def _server_idle(one: Household) -> float:
    return _asked(one.phone)


def _server_new(one: Household) -> float:
    one.phone.log("mow", zone_ids=[], cut_height_mm=65)
    return _asked(one.phone)


def _asked(phone: Phone) -> float:
    body = phone.request()
    began = time.perf_counter()
    answer = phone.post(body)
    took = (time.perf_counter() - began) * 1000
    phone.take(answer)
    return took


def _app_idle(one: Household) -> float:
    return float(one.app.ask("round", "phone"))


def _app_new(one: Household) -> float:
    return float(one.app.ask("roundWith", "phone", mows(1)[0]))


_ROUNDS: Sequence[tuple[str, Callable[[Household], float]]] = (
    ("server: a round with nothing new", _server_idle),
    ("server: a round with one new entry", _server_new),
    ("phone: a round with nothing new", _app_idle),
    ("phone: a round with one new entry", _app_new),
)


def _turns(what: str, short: Household, long: Household, runs: int, ask: Callable[[Household], float]) -> Figure:
    times: tuple[list[float], list[float]] = ([], [])
    for run in range(runs + 3):
        for one, found in zip((short, long), times, strict=True):
            took = ask(one)
            if run >= 3:  # the first ones catch up with what the other phone has sent
                found.append(took)
    return timed("sync", f"{what}, {LONG:,} entries", "ms", times[1], f"of {SHORT:,}", times[0])
