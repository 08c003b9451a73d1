"""Phones in real Chromium: the app's own books and syncing (frontend/tools/bench) beside PouchDB's browser build.

Both keep their books in IndexedDB on one profile on the disk, each on its own server's origin, and both pages hold
nothing else. Ours waits for the disk (strict durability, SQLite synchronous=FULL); the other runs as it comes.
"""

import subprocess
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

from lawn.tooling import build, nodejs
from tests.bench.entries import Entry
from tests.bench.sync.beside import REPLICATION
from tests.journeys.browsers import chromium
from tests.journeys.chromium import Chromium
from tests.sync.live import LiveServer

# A page of the server's own origin that runs no script of the app.
BLANK = "/api/v1/accounts/me"
_SIGN_UP = """
const body = { name: "Sam", email, password: "four wet spaniels", household_name: "Alder Bend", units: "us" };
const headers = { "Content-Type": "application/json" };
return fetch("/api/v1/accounts/sign-up", { method: "POST", headers, body: JSON.stringify(body) })
  .then((answer) => answer.json()).then((me) => me.households[0].id);
"""
_BESIDE = """
const [server, number, entries, options] = arguments;
return (async () => {
  const [writer, reader] = [new PouchDB(`writer${number}`), new PouchDB(`reader${number}`)];
  await writer.bulkDocs(entries.map(({ id, body }) => ({ _id: id, t: "entry", body })));
  const timed = async (work) => { const from = performance.now(); await work(); return performance.now() - from; };
  const push = await timed(() => writer.replicate.to(server, options));
  const pull = await timed(() => reader.replicate.from(server, options));
  const { doc_count } = await reader.info();
  await writer.close();
  await reader.close();
  return { push, pull, held: doc_count };
})();
"""


@contextmanager
def browsers(url: str, count: int = 1) -> Iterator[list[Chromium]]:
    """As many Chromiums, each with a profile on the disk."""
    with ExitStack() as stack:
        pictures, make = Path(stack.enter_context(tempfile.TemporaryDirectory())), stack.enter_context(chromium())
        phones: list[Any] = []
        for _ in range(count):
            phones.append(make(url, pictures))
            stack.callback(phones[-1].quit)
        yield phones


def bundle() -> str:
    """The app's books and syncing as one script."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "bench.js"
        command = [nodejs.node(), "tools/bench/bundle.mjs", str(out)]
        subprocess.run(command, cwd=build.FRONTEND, check=True, capture_output=True, text=True)
        return out.read_text() + "\nglobalThis.__bench = __bench;"


class Ours:
    """The app's syncing in a page of our server; phones in it go by names."""

    def __init__(self, phone: Chromium, server: LiveServer, script: str) -> None:
        self.phone, self.server, self.script = phone, server, script

    def begin(self, email: str) -> str:
        """A fresh page, and a new person signed in; their household."""
        self.phone.goto(self.server.url + BLANK)
        household = self.phone.evaluate(f"const [email] = arguments; {_SIGN_UP}", email)
        self.phone.page.evaluate(self.script)
        return str(household)

    def ask(self, name: str, *arguments: object) -> Any:
        """Call one of the script's functions."""
        return self.phone.evaluate(
            "const [name, ...given] = arguments; return __bench[name](...given);", name, *arguments
        )

    def exchange(self, number: int, entries: Sequence[Entry]) -> dict[str, float]:
        """Entries sent by one phone and fetched by a second: ms, and bytes of the bodies as they travelled."""
        household = self.begin(f"browser{number}@journeys.example")
        writer, reader = f"writer{number}", f"reader{number}"
        self.ask("open", writer, household)
        self.ask("write", writer, list(entries))
        self.ask("bytes")
        found: dict[str, float] = {"push": self.ask("start", writer)}
        found["up"] = self.ask("bytes")["up"]
        self.ask("close", writer)
        self.ask("open", reader, household)
        found["pull"] = self.ask("start", reader)
        found["down"] = self.ask("bytes")["down"]
        _check(self.ask("held", reader), len(entries))
        self.ask("close", reader)
        return found


def beside(phone: Chromium, url: str, number: int, entries: Sequence[Entry], how: str = "by_1000") -> dict[str, float]:
    """The same by PouchDB, in a page of its own server, set up as REPLICATION says: ms."""
    phone.goto(url + "/")
    found: dict[str, float] = phone.evaluate(
        _BESIDE, f"{url}/db/browsers{number}{how}", f"{number}{how}", list(entries), REPLICATION[how]
    )
    _check(found.pop("held"), len(entries))
    return found


def _check(held: float, sent: int) -> None:
    if held != sent:
        raise AssertionError(f"the second phone holds {held} of {sent} entries")
