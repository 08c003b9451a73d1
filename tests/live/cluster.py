"""A PostgreSQL cluster of a test's own, from Debian's binaries: real, on this machine, gone afterwards.

It listens on a Unix socket in its own folder only, which nobody else may enter. PostgreSQL refuses to run as root, so
root hands it to the user `postgres`, or `nobody`. fsync stays on: what it acknowledges is meant.
"""

import os
import pwd
import shutil
import subprocess
import tempfile
import threading
import time
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import psycopg

from tests.journeys.browsers import install

_PATIENCE_S = 180.0  # only a failure waits this long
_CONNECT_S = 60
_PAUSE_S = 0.02
OWNER = "keeper"


@cache
def programs() -> Path:
    """The newest PostgreSQL's programs, installed where that can be done; Debian keeps them off the PATH."""
    if not _installed():
        install(("postgresql",))
    found = _installed()
    if not found:
        raise RuntimeError("no PostgreSQL: `apt-get install postgresql` (Debian and its kin)")
    return found[-1]


def _installed() -> list[Path]:
    debian = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parents[1].name))
    named = shutil.which("initdb")
    return [path.parent for path in (*([Path(named)] if named else []), *debian)]


def _other_user() -> dict[str, Any]:
    """What makes a process run as somebody else than root; nothing where we are somebody else."""
    if os.getuid() != 0:
        return {}
    known = {entry.pw_name: entry for entry in pwd.getpwall()}
    entry = known.get("postgres") or known["nobody"]
    return {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": []}


def until(holds: Callable[[], bool], what: str) -> None:
    """Wait for a condition, looking again and again; fail when it never comes."""
    end = time.monotonic() + _PATIENCE_S
    while not holds():
        if time.monotonic() > end:
            raise AssertionError(f"never came about: {what}")
        threading.Event().wait(_PAUSE_S)


class Cluster:
    """One PostgreSQL server. `Cluster.copy_of` makes a standby of another."""

    def __init__(self, source: "Cluster | None" = None) -> None:
        self._user = _other_user()
        self.folder = Path(tempfile.mkdtemp(prefix="evenfall-pg-"))
        if self._user:
            os.chown(self.folder, self._user["user"], self._user["group"])
        self.data, self.port = self.folder / "data", 5432  # the port only names the socket's file
        self._process: subprocess.Popen[bytes] | None = None
        if source is None:
            self._run("initdb", "-D", self.data, "-U", OWNER, "-A", "trust", "-E", "UTF8", "--no-sync", "--no-locale")
            self._configure()
        else:
            self._run(
                "pg_basebackup", "-D", self.data, "-d", source.conninfo(), "-R", "-c", "fast", "-X", "stream", "-N"
            )

    def _configure(self) -> None:
        said = {
            "listen_addresses": "''",
            "fsync": "on",
            "shared_buffers": "64MB",
            "max_connections": "60",
            "wal_keep_size": "256MB",
            "log_min_messages": "fatal",
            "wal_receiver_status_interval": "1s",
        }
        lines = [f"{name} = {value}" for name, value in said.items()]
        with (self.data / "postgresql.conf").open("a") as file:
            file.write("\n".join([*lines, ""]))

    def _run(self, program: str, *arguments: object) -> None:
        command = [str(programs() / program), *(str(argument) for argument in arguments)]
        done = subprocess.run(command, cwd=self.folder, capture_output=True, text=True, check=False, **self._user)
        if done.returncode:
            raise RuntimeError(f"{program} failed:\n{done.stdout}\n{done.stderr}")

    def start(self) -> "Cluster":
        """Start it and wait until it answers."""
        command = [str(programs() / "postgres"), "-D", str(self.data), "-k", str(self.folder), "-p", str(self.port)]
        self._process = subprocess.Popen(
            command, cwd=self.folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **self._user
        )
        until(self.answers, "PostgreSQL answers")
        return self

    def answers(self) -> bool:
        """Does it take connections?"""
        assert self._process is not None
        assert self._process.poll() is None, "PostgreSQL ended by itself"
        try:
            self.ask("SELECT 1")
        except psycopg.OperationalError:
            return False
        return True

    def kill(self) -> None:
        """End the whole server as a power cut does: the first process and every one it made."""
        if self._process is None:
            return
        children = Path(f"/proc/{self._process.pid}/task/{self._process.pid}/children")
        others = [int(word) for word in children.read_text().split()] if children.exists() else []
        self._process.kill()
        for other in others:
            try:
                os.kill(other, 9)
            except ProcessLookupError:
                pass
        self._process.wait()
        self._process = None

    def close(self) -> None:
        """End it and remove its files."""
        self.kill()
        shutil.rmtree(self.folder, ignore_errors=True)

    # --- asking ----------------------------------------------------------------------------------
    def conninfo(self, database: str = "postgres") -> str:
        """How libpq reaches it."""
        return f"host={self.folder} port={self.port} user={OWNER} dbname={database}"

    def url(self, database: str, options: str = "") -> str:
        """How Django reaches it (DATABASE_URL)."""
        more = f"&options={options}" if options else ""
        return f"postgresql://{OWNER}@/{database}?host={self.folder}&port={self.port}{more}"

    def connect(self, database: str = "postgres") -> "psycopg.Connection[Any]":
        """A connection that commits each statement by itself."""
        return psycopg.connect(self.conninfo(database), autocommit=True, connect_timeout=_CONNECT_S)

    @staticmethod
    def at(url: str) -> "psycopg.Connection[Any]":
        """A connection to a database by its DATABASE_URL, apart from Django."""
        return psycopg.connect(url.split("&options=")[0], autocommit=True, connect_timeout=_CONNECT_S)

    def ask(self, statement: str, values: Sequence[Any] = (), database: str = "postgres") -> list[tuple[Any, ...]]:
        """The rows of one statement; [] for one without rows."""
        with self.connect(database) as connection:
            cursor = connection.execute(statement, values)
            return cursor.fetchall() if cursor.description else []

    def create(self, database: str, like: str = "template0") -> None:
        """Make a database: an empty one, or with all that another has to which nobody is connected."""
        self.ask(f'CREATE DATABASE "{database}" TEMPLATE "{like}"')

    def promote(self) -> None:
        """Make a standby the server that takes writes."""
        self.ask("SELECT pg_promote(true, 60)")
        until(lambda: self.ask("SELECT pg_is_in_recovery()") == [(False,)], "the standby is promoted")
