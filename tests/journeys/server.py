"""The real server for journeys: uvicorn in a process of its own, on a free port, with a database file of its own."""

import http.client
import os
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 180.0  # for a server to start; only a failure waits this long
_PAUSE_S = 0.05
ENDING_S = "10"  # what a stopping server gives open streams to end by themselves; they take no time to
# Journeys sign up and in faster than people do, all from one address.
_RATES = {
    f"EVENFALL_{name}_RATE": "100000/min"
    for name in (
        "SIGN_IN_ADDRESS",
        "SIGN_IN_EMAIL",
        "SIGN_UP",
        "INVITATION",
        "DEVICES",
        "INVITES",
        "SYNC_PHONE",
        "SYNC_MEMBER",
        "WEATHER",
        "WEATHER_KEEPER",
    )
}

_laid_out: list[bytes] = []  # a SQLite file as the migrations leave it; they take longer than most tests


class Server:
    """One Evenfall server; stopped and started at will, always on the same port."""

    def __init__(self, *, demo: bool = False) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="evenfall-", ignore_cleanup_errors=True)
        self._held = _held_port()
        self.port = int(self._held.getsockname()[1])
        self.url = f"http://127.0.0.1:{self.port}"
        self._process: subprocess.Popen[bytes] | None = None
        self.settings: dict[str, str] = {}  # what this server is started with besides
        self.lay_out()
        if demo:
            self.manage("demo")

    @property
    def environment(self) -> dict[str, str]:
        """What the server runs with: its own data folder, no debug page, no throttle in the way."""
        kept = {name: value for name, value in os.environ.items() if not name.startswith(("EVENFALL_", "DATABASE_"))}
        own = {
            "DJANGO_SETTINGS_MODULE": "lawn.settings",
            "EVENFALL_DATA": self._folder.name,
            "EVENFALL_ADDRESS": self.url,
            "EVENFALL_WEATHER": "off",  # nothing outside is asked; a journey may name a service of its own
        }
        return {**kept, **own, **_RATES, **self.settings}

    @property
    def data(self) -> Path:
        """The folder that holds the database file."""
        return Path(self._folder.name)

    @property
    def file(self) -> Path:
        """The SQLite file."""
        return self.data / "evenfall.sqlite3"

    def lay_out(self) -> None:
        """Lay out the tables in a new SQLite file: by the migrations the first time in this process, then by a copy."""
        if not _laid_out:
            self.manage("migrate", "--verbosity", "0")
            _laid_out.append(self.file.read_bytes())
        self.file.touch(mode=0o600)
        self.file.write_bytes(_laid_out[0])

    def manage(self, *arguments: str) -> str:
        """Run a management command against this server's database; what it printed."""
        command = [sys.executable, str(ROOT / "manage.py"), *arguments]
        done = subprocess.run(
            command, cwd=ROOT, env=self.environment, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
        )
        if done.returncode:
            raise RuntimeError(f"manage.py {arguments[0]} failed:\n{done.stdout}")
        return done.stdout

    @property
    def running(self) -> bool:
        """Is the process alive?"""
        return self._process is not None and self._process.poll() is None

    def start(self) -> None:
        """Start serving and wait until it answers."""
        if self.running:
            return
        command = [sys.executable, "-m", "lawn.web.serving", "--port", str(self.port), "--ending", ENDING_S]
        self._process = subprocess.Popen(command, cwd=ROOT, env=self.environment)
        end = time.monotonic() + PATIENCE_S
        while not self._answers():
            if not self.running or time.monotonic() > end:
                raise RuntimeError("the server did not start; its own words are above")
            threading.Event().wait(_PAUSE_S)

    def stop(self) -> None:
        """Stop as an operator does; nothing answers on the port afterwards."""
        if self._process:
            self._process.terminate()
            self._process.wait()

    def hang(self) -> None:
        """Answer nothing from now on, while requests are still taken in; `go_on` ends that."""
        if self._process:
            self._process.send_signal(signal.SIGSTOP)

    def go_on(self) -> None:
        """Answer what came in meanwhile."""
        if self._process:
            self._process.send_signal(signal.SIGCONT)

    def kill(self) -> None:
        """Stop as a power cut does."""
        if self._process:
            self._process.kill()
            self._process.wait()

    def close(self) -> None:
        """Stop for good and remove its data."""
        self.kill()
        self._held.close()
        self._folder.cleanup()

    def _answers(self) -> bool:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=5)
        try:
            connection.request("GET", "/api/v1/accounts/me")
            return connection.getresponse().status < 500
        except OSError:
            return False
        finally:
            connection.close()


@contextmanager
def asking(service: str) -> Iterator[Server]:
    """A server that asks this address for the weather, while it is needed."""
    server = Server()
    server.settings = {"EVENFALL_WEATHER": service, "EVENFALL_WEATHER_ARCHIVE": service}
    try:
        server.start()
        yield server
    finally:
        server.close()


def _held_port() -> socket.socket:
    """A port that nobody else is given while the server is stopped: bound, never listened at (ip(7), SO_REUSEADDR)."""
    held = socket.socket()
    held.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    held.bind(("127.0.0.1", 0))
    return held
