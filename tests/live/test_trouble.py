"""A database that is busy, forgotten in mid-transaction, or full: always "later", never a verdict (S9, S12)."""

import select
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from tests.journeys.server import ROOT
from tests.live.conftest import Home, new_database, new_home
from tests.live.server import Hosted

HOLD_S = 15


@contextmanager
def held(server: Hosted, statement: str, more: str = "") -> Iterator["subprocess.Popen[str]"]:
    """Another process of the same settings, in a transaction begun by a statement and then left open."""
    code = f"""
import sys, django
django.setup()
from django.db import connection, transaction
with transaction.atomic(), connection.cursor() as cursor:
    cursor.execute({statement!r})
    print("held", flush=True)
    {more or "sys.stdin.read()"}
"""
    process = subprocess.Popen(
        [sys.executable, "-c", code], cwd=ROOT, env=server.environment, text=True,
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        assert process.stdout is not None
        assert process.stdout.readline() == "held\n"
        yield process
    finally:
        process.kill()
        process.wait()


def says_more(holder: "subprocess.Popen[str]") -> bool:
    """Has it written another line by now?"""
    assert holder.stdout is not None
    return bool(select.select([holder.stdout], [], [], 0)[0])


def lock(home: Home) -> str:
    """The statement that takes the household's counter, and on SQLite the whole file."""
    key = home.household if home.server.database else home.household.replace("-", "")
    return f"UPDATE lawn_household SET seq = seq WHERE id = '{key}'"


def test_f54_f08_s12_a_writer_busy_for_15_seconds_holds_pushes_up_and_loses_none(home: Home) -> None:
    """The fault itself takes 15 s: another process holds the write lock so long, then lets go. Pulls go on."""
    writer, reader = home.phone(), home.phone()
    reader.sync_through()
    entry = writer.note("While it was busy")
    pushed = threading.Thread(target=writer.sync_through)
    with held(home.server, lock(home), f"import time; time.sleep({HOLD_S}); print('over', flush=True)") as holder:
        pushed.start()
        pulls = 0
        while not reader.sync()["changes"]:
            pulls += 1
        assert pulls > 5
        assert says_more(holder)  # nothing came through before it was about to let go
        pushed.join()
    assert writer.results[writer.kept[-1]["op"]]["s"] == "applied"
    assert entry in home.history.acknowledged
    home.check()


@pytest.fixture(params=["sqlite", "postgresql"])
def hasty(request: pytest.FixtureRequest) -> Iterator[Home]:
    """Like `home`, but waiting for a lock ends after 1 s instead of 20 s."""
    server = Hasty(new_database(request, "-c%20lock_timeout%3D1s") if request.param == "postgresql" else "")
    server.start()
    yield new_home(server)
    server.close()


class Hasty(Hosted):
    """Gives up on a busy SQLite file after 1 s."""

    @property
    def environment(self) -> dict[str, str]:
        """What the server runs with."""
        return {**super().environment, "DATABASE_URL": self.database or f"sqlite:///{self.file}?timeout=1"}


def test_f54_s09_a_writer_busy_for_longer_is_answered_busy_and_the_entry_goes_out_later(hasty: Home) -> None:
    phone = hasty.phone()
    phone.note("While it was busy")
    with held(hasty.server, lock(hasty)):
        answer = hasty.keeper.http.post(f"households/{hasty.household}/sync", json=phone.request())
        assert (answer.status_code, answer.json()["code"]) == (503, "busy")
        assert int(answer.headers["Retry-After"]) >= 1
        assert phone.outbox
    hasty.history.check_kept(hasty.server, hasty.household)
    hasty.check()


@pytest.fixture
def forgetful(request: pytest.FixtureRequest) -> Iterator[Home]:
    """On PostgreSQL, where a forgotten transaction of the server's own settings ends after 2 s instead of 30 s."""
    server = Hosted(new_database(request, "-c%20idle_in_transaction_session_timeout%3D2s"))
    server.start()
    yield new_home(server)
    server.close()


def test_f09_a_transaction_forgotten_with_the_counter_locked_is_ended_by_the_database(forgetful: Home) -> None:
    phone = forgetful.phone()
    phone.note("Behind a forgotten transaction")
    with held(forgetful.server, lock(forgetful)) as holder:
        phone.sync_through()
        assert holder.poll() is None  # it has not let go by itself: it sleeps on, without its lock
    forgetful.check()


def test_f09_a_reader_forgotten_in_mid_transaction_holds_up_no_push(home: Home) -> None:
    phone = home.phone()
    with home.server.raw() as ask:
        ask("BEGIN")
        ask("SELECT count(*) FROM lawn_change")
        phone.write_through(3)
        ask("ROLLBACK")
    home.check()


def test_f08_pulls_during_a_long_push_see_the_moment_before_it(home: Home) -> None:
    """The push has written everything and waits with its commit, held up by a lock it needs last."""
    writer, reader = home.phone(), home.phone()
    reader.sync_through()
    for number in range(50):
        writer.note(f"Long push {number}")
    with held(home.server, lock(home)):
        pushed = threading.Thread(target=writer.sync_through)
        pushed.start()
        for _ in range(5):
            assert reader.sync()["changes"] == []
        assert pushed.is_alive()
    pushed.join()
    home.check()
    assert len(reader.all_of("entry")) == 50


def test_s09_a_full_disk_is_answered_later_and_nothing_is_acknowledged() -> None:
    """SQLite's own limit on the pages of a file raises the very error a full disk does (SQLITE_FULL)."""
    server = Full()
    server.start()
    try:
        home = new_home(server)
        phone = home.phone()
        phone.write_through(4)
        server.fill()
        for number in range(30):
            phone.log("observation", text=f"{number} " + "grass " * 300)
            home.history.saved(phone.name, phone.outbox[-1]["op"], phone.outbox[-1]["m"][0]["id"])
        answer = home.keeper.http.post(f"households/{home.household}/sync", json=phone.request())
        assert (answer.status_code, answer.json()["code"]) == (503, "busy")
        home.history.check_kept(server, home.household)
        server.make_room()
        home.check()
    finally:
        server.close()


class Full(Hosted):
    """On a SQLite file that may not grow any further."""

    limit = 1_000_000

    @property
    def environment(self) -> dict[str, str]:
        """What the server runs with: the limit is set on each of its connections."""
        return {**super().environment, "EVENFALL_TEST_PAGES": str(self.limit)}

    def fill(self) -> None:
        """Let the file grow no further than it is."""
        self.stop()
        self.limit = int(self.rows("PRAGMA page_count")[0][0]) + 2
        self.start()

    def make_room(self) -> None:
        """Let it grow again."""
        self.stop()
        self.limit = 1_000_000
        self.start()
