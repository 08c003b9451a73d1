"""A3, A7 on a running server: the heaviest book pulled five times at once, and bodies no phone sends."""

import json
import re
import sqlite3
import uuid
from collections.abc import Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

import httpx
import pytest

from tests.journeys.server import Server
from tests.sync.live import ANSWER_S, Guest, at_once

ZONES = 800
HEAVIEST = 235_000  # letters of measurements: with what is round it, the contract's limit for one zone
MOST_MEMORY_KB = 300_000
READERS = 5
PAGES = 40  # of each reader; a page holds four of these zones


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    made = Server()
    made.start()
    yield made
    made.close()


def memory_kb(server: Server) -> int:
    """The most memory the server's process has ever held."""
    assert server._process is not None
    status = Path(f"/proc/{server._process.pid}/status").read_text()
    found = re.search(r"VmHWM:\s+(\d+) kB", status)
    assert found is not None
    return int(found[1])


def filled(server: Server) -> Guest:
    """A household whose book is as heavy as the limits allow, the later zones written past the program."""
    guest = Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")
    phone = guest.phone()
    measured = {"call": "area.gps", "args": (uuid.uuid4().hex * 8_000)[:HEAVIEST]}
    phone.write("zone", str(uuid.uuid4()), ground={"area_m2": 40, "method": "gps", "measured": measured})
    assert phone.sync()["acked_dseq"] == 1
    with closing(sqlite3.connect(server.data / "evenfall.sqlite3")) as file, file:
        names = [row[1] for row in file.execute("PRAGMA table_info(lawn_zone)")]
        zone = dict(zip(names, file.execute("SELECT * FROM lawn_zone").fetchone(), strict=True))
        (head,) = file.execute("SELECT MAX(seq) FROM lawn_change").fetchone()
        for number in range(1, ZONES):
            row = {**zone, "id": uuid.uuid4().hex}
            marks = ", ".join("?" for _ in names)
            file.execute(f"INSERT INTO lawn_zone VALUES ({marks})", [row[name] for name in names])
            file.execute(
                "INSERT INTO lawn_change (household_id, t, id, seq) VALUES (?, 'zone', ?, ?)",
                [zone["household_id"], row["id"], head + number],
            )
        file.execute("UPDATE lawn_household SET seq = ?", [head + ZONES])
    return guest


def test_a03_five_gzip_pulls_at_once_of_the_heaviest_book_keep_memory_below_300_mb(server: Server) -> None:
    guest = filled(server)
    phones = [guest.phone() for _ in range(READERS)]

    def pull(number: int) -> int:
        taken, sent = 0, phones[number].request()
        with httpx.Client(base_url=guest.http.base_url, cookies=guest.http.cookies, timeout=ANSWER_S) as line:
            for _ in range(PAGES):
                answer = line.post(f"households/{guest.household}/sync", json=sent)
                assert answer.headers["Content-Encoding"] == "gzip"
                page = answer.json()
                assert len(answer.content) < 1_300_000
                taken += len(page["changes"])
                sent["cursor"] = page["cursor"]
                if not page["has_more"]:
                    break
            whole = line.get(f"households/{guest.household}/bootstrap", params={"limit": 2000})
            assert len(whole.content) < 1_300_000
        return taken

    assert all(taken >= PAGES * 2 for taken in at_once([partial(pull, number) for number in range(READERS)]))
    assert memory_kb(server) < MOST_MEMORY_KB


def bodies(guest: Guest) -> list[bytes]:
    phone = guest.phone()
    item = {"t": "zone", "id": str(uuid.uuid4()), "set": {"ground": {"area_m2": "HERE", "method": "typed"}}}
    text = json.dumps({**phone.request(), "ops": [phone.make_op(item)]})
    written = ["1e400", "NaN", "9" * 400, "9" * 5_000, "[" * 90 + "]" * 90, "[" * 100_000 + "]" * 100_000, '"\\ud800"']
    dseq = text.replace('"dseq": 1', '"dseq": "1"')
    return [text.replace('"HERE"', one).encode() for one in written] + [dseq.encode(), b"", b"{" * 200_000, b"\xff" * 9]


def test_a07_no_hostile_body_makes_a_5xx_and_the_server_goes_on(server: Server) -> None:
    guest = Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")
    path = f"households/{guest.household}"
    headers = {"Content-Type": "application/json"}
    statuses = [guest.http.post(f"{path}/sync", content=body, headers=headers).status_code for body in bodies(guest)]
    tokens = ["W10", "%5B", "x" * 6_000, "WyJlbnRyeSIsICJhIiwgIjAwMDEtMDEtMDEiXQ"]
    statuses += [guest.http.get(f"{path}/bootstrap", params={"after": token}).status_code for token in tokens]
    assert [status for status in statuses if status >= 500] == []
    phone = guest.phone()
    phone.log("mow")
    assert phone.sync()["results"][0]["s"] == "applied"
    assert memory_kb(server) < MOST_MEMORY_KB
