"""The real server as it is hosted: uvicorn with workers of its own processes, on either database."""

import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from tests.journeys.server import ENDING_S, ROOT, Server
from tests.live.cluster import Cluster, until

WORKERS = 2
# What kills a worker at a chosen point is added to the application by tests/live/dying.py.
APPLICATION = "tests.live.dying:application"


class Hosted(Server):
    """One Evenfall behind several workers; `database` is empty for SQLite in its own folder."""

    def __init__(self, database: str = "", workers: int = WORKERS) -> None:
        self.database, self.workers = database, workers
        super().__init__()

    @property
    def environment(self) -> dict[str, str]:
        """What the server runs with."""
        named = {"DATABASE_URL": self.database} if self.database else {}
        return {**super().environment, **named, "EVENFALL_TEST_DEATHS": str(self.deaths)}

    def lay_out(self) -> None:
        """Lay out the tables; a PostgreSQL database that was copied from one with tables has them."""
        if not self.database:
            super().lay_out()
        elif self.rows("SELECT to_regclass('django_migrations')") == [(None,)]:
            self.manage("migrate", "--verbosity", "0")

    @property
    def deaths(self) -> Path:
        """The folder in which a file named by a point makes the next worker to come there die."""
        return self.data / "deaths"

    def start(self) -> None:
        """Start the parent and its workers, and wait until all of them are there and one answers."""
        if self.running:
            return
        self.deaths.mkdir(exist_ok=True)
        command = [sys.executable, "-m", "lawn.web.serving", "--application", APPLICATION, "--port", str(self.port)]
        command += ["--workers", str(self.workers), "--log-level", "critical", "--ending", ENDING_S]
        self._process = subprocess.Popen(command, cwd=ROOT, env=self.environment, start_new_session=True)
        self.wait_whole()

    def wait_whole(self) -> None:
        """Wait until every worker is there and one of them answers."""

        def whole() -> bool:
            return self._alive() and len(self.worker_ids()) == self.workers and self._answers()

        until(whole, "every worker is there and one answers")

    def _alive(self) -> bool:
        assert self.running, "the server ended by itself"
        return True

    def kill(self) -> None:
        """Stop as a power cut does: the parent and every worker at one blow."""
        if self._process is not None and self._process.poll() is None:
            os.killpg(self._process.pid, signal.SIGKILL)
            self._process.wait()

    def stop(self) -> None:
        """Stop as an operator does."""
        super().stop()
        self.kill()

    def worker_ids(self) -> list[int]:
        """The processes that answer; uvicorn makes a new one for each that dies."""
        assert self._process is not None
        children = Path(f"/proc/{self._process.pid}/task/{self._process.pid}/children").read_text().split()
        return [int(child) for child in children if b"spawn_main" in _command_of(int(child))]

    def kill_worker(self, number: int = 0) -> int:
        """Kill -9 one of the workers; return its process id."""
        found = self.worker_ids()
        _kill(found[number % len(found)])
        return found[number % len(found)]

    def die_at(self, point: str) -> None:
        """Have the next worker that comes to a point of tests/live/dying.py die there."""
        (self.deaths / point).touch()

    def died_at(self, point: str) -> bool:
        """Has one died there?"""
        return not (self.deaths / point).exists()

    # --- looking past the program ----------------------------------------------------------------
    def rows(self, statement: str) -> list[tuple[Any, ...]]:
        """The rows of a statement, read by the database's own driver."""
        with self.raw() as ask:
            return ask(statement)

    @contextmanager
    def raw(self) -> "Iterator[Callable[[str], list[tuple[Any, ...]]]]":
        """A connection that is none of the server's; it begins and ends transactions as it is told."""
        if self.database:
            with Cluster.at(self.database) as connection:
                yield lambda statement: _fetched(connection.execute(statement))
        else:
            with closing(sqlite3.connect(self.file, isolation_level=None, check_same_thread=False)) as file:
                yield lambda statement: file.execute(statement).fetchall()


def _fetched(cursor: Any) -> list[tuple[Any, ...]]:
    rows: Sequence[tuple[Any, ...]] = cursor.fetchall() if cursor.description else []
    return list(rows)


def _command_of(process: int) -> bytes:
    try:
        return Path(f"/proc/{process}/cmdline").read_bytes()
    except OSError:
        return b""


def _kill(process: int) -> None:
    try:
        os.kill(process, signal.SIGKILL)
    except ProcessLookupError:
        pass
