"""A9, A10: strangers at the door of a real server, on loopback: nobody else's work suffers, memory stays bounded."""

import re
import resource
import socket
import statistics
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import httpx
import pytest

from tests.journeys.server import Server
from tests.lines import to_the_end
from tests.sync.live import ANSWER_S, Guest, at_once

MOST_KB = 300 * 1000
AT_ONCE = 40
SLOWER_S = 1.0
FROZEN_S = 3.0  # no machine is as busy as a frozen server
FILES = 1024
EMAIL, PASSWORD = "keeper@example.org", "four wet spaniels"


@pytest.fixture(scope="module")
def server() -> Iterator[Server]:
    made = Server()
    made.start()
    assert made._process is not None
    resource.prlimit(made._process.pid, resource.RLIMIT_NOFILE, (FILES, FILES))  # as many systems have it
    yield made
    made.close()


@pytest.fixture(scope="module")
def owner(server: Server) -> Guest:
    return Guest(server.url).sign_up(EMAIL)


def peak_kb(server: Server) -> int:
    """The most memory the server's process ever held at once (proc(5), VmHWM)."""
    assert server._process is not None
    status = Path(f"/proc/{server._process.pid}/status").read_text()
    return int(next(line for line in status.splitlines() if line.startswith("VmHWM")).split()[1])


class Machine:
    """How fast this machine answers by itself: a server of nothing, in a process that no stranger comes to."""

    def __init__(self, url: str) -> None:
        self._url = url
        self.quiet = statistics.median(self.ask() for _ in range(9))
        self.took: list[float] = []

    def ask(self) -> float:
        begun = time.monotonic()
        assert httpx.get(self._url, timeout=ANSWER_S).status_code == 200
        return time.monotonic() - begun

    def slower(self, of: Callable[[list[float]], float]) -> float:
        """How many times longer its answers took meanwhile; 1 where they were no slower."""
        return max(1.0, of(self.took) / self.quiet)


@pytest.fixture(scope="module", autouse=True)
def beside(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Python's own server of an empty folder, for as long as these tests run."""
    command = [sys.executable, "-u", "-m", "http.server", "--bind", "127.0.0.1", "0"]
    pipe = subprocess.PIPE
    with subprocess.Popen(
        command, cwd=tmp_path_factory.mktemp("empty"), stdout=pipe, stderr=subprocess.DEVNULL, text=True
    ) as server:
        assert server.stdout
        port = re.search(r"port (\d+)", server.stdout.readline())
        assert port
        Asking.beside = f"http://127.0.0.1:{port[1]}/"
        yield
        server.terminate()


class Asking:
    """A person at work meanwhile: asks again and again until told to stop, and notes how long each answer took."""

    beside: str

    def __init__(self, owner: Guest) -> None:
        self.took: list[float] = []
        self._machine = Machine(self.beside)
        # a connection for each: one kept open may rightly be shut when connections run out
        self._http = httpx.Client(
            base_url=owner.http.base_url, cookies=owner.http.cookies, headers={"Connection": "close"}, timeout=ANSWER_S
        )
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._go)

    def ask(self) -> float:
        begun = time.monotonic()
        assert self._http.get("accounts/me").status_code == 200
        return time.monotonic() - begun

    def _go(self) -> None:
        while not self._stop.is_set() or not self.took:
            self.took.append(self.ask())
            self._machine.took.append(self._machine.ask())

    def __enter__(self) -> "Asking":
        self.quiet = statistics.median(self.ask() for _ in range(9))
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self._stop.set()
        self._thread.join()
        self._http.close()

    def check(self) -> None:
        """Nobody waits a second longer for what strangers do, as seconds are on a machine as busy as this one was."""
        said = (self.quiet, self._machine.quiet, sorted(self.took)[-5:], sorted(self._machine.took)[-5:])
        median = statistics.median
        assert median(self.took) < self.quiet + SLOWER_S * self._machine.slower(median), said
        assert max(self.took) < self.quiet + FROZEN_S * self._machine.slower(max), said


def try_password(server: Server, number: int) -> Callable[[], int]:
    """A sign-in, every other one with the owner's own address, on a connection of its own."""
    form = {"email": EMAIL if number % 2 else f"nobody{number}@example.org", "password": f"a wrong one {number}"}

    def go() -> int:
        return httpx.post(f"{server.url}/api/v1/accounts/sign-in", json=form, timeout=ANSWER_S).status_code

    return go


def test_a9_forty_sign_ins_at_once_take_less_than_300_mb_and_nobody_elses_time(server: Server, owner: Guest) -> None:
    with Asking(owner) as other:
        answers = at_once([try_password(server, number) for number in range(AT_ONCE)])
    assert set(answers) <= {400, 503}
    assert peak_kb(server) < MOST_KB
    other.check()


def test_a9_forty_sign_ups_at_once_keep_the_one_writer_free(server: Server, owner: Guest) -> None:
    phone = owner.phone()

    def sign_up(number: int) -> Callable[[], int]:
        form = {"name": "New", "email": f"new{number}@example.org", "password": PASSWORD, "units": "us"}
        return lambda: (
            httpx.post(
                f"{server.url}/api/v1/accounts/sign-up", json={**form, "household_name": "Elm"}, timeout=ANSWER_S
            ).status_code
        )

    with Asking(owner) as other:
        answers = at_once([*[sign_up(number) for number in range(AT_ONCE)], lambda: bool(phone.sync())])
    assert set(answers) <= {201, 503, True}
    assert peak_kb(server) < MOST_KB
    other.check()


# --- A10: connections that say nothing, and bodies that never end ----------------------------------


def connection(server: Server) -> socket.socket:
    return socket.create_connection(("127.0.0.1", server.port), timeout=ANSWER_S)


def test_a10_eleven_hundred_silent_connections_leave_room_for_who_asks(server: Server, owner: Guest) -> None:
    with ExitStack() as held:
        for _ in range(1100):
            held.enter_context(connection(server))
        with Asking(owner) as other:
            fresh = [httpx.get(f"{server.url}/api/v1/accounts/me", timeout=ANSWER_S).status_code for _ in range(20)]
        assert fresh == [401] * 20
        other.check()


def test_a10_half_a_million_chunks_of_one_byte_end_early_and_freeze_nobody(server: Server, owner: Guest) -> None:
    head = b"POST /api/v1/accounts/sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
    with Asking(owner) as other, connection(server) as line:
        try:
            line.sendall(head + b"Transfer-Encoding: chunked\r\n\r\n" + b"1\r\nx\r\n" * 500_000 + b"0\r\n\r\n")
        except ConnectionError:
            pass  # it hung up before all was said
        said = to_the_end(line)
    assert said == b"" or said.startswith(b"HTTP/1.1 4"), said[:200]
    other.check()


def test_a10_a_head_without_end_is_refused(server: Server) -> None:
    with connection(server) as line:
        try:
            line.sendall(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Long: " + b"x" * 4_000_000)
        except ConnectionError:
            pass
        said = to_the_end(line)
    assert said == b"" or said.startswith(b"HTTP/1.1 431"), said[:200]


def test_a10_the_start_of_many_bodies_keeps_nobody_out(server: Server, owner: Guest) -> None:
    """Requests that are never finished are still waited for: whoever asks whole is answered before them."""
    begun = b"POST /api/v1/accounts/sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 400\r\n\r\n{"
    with ExitStack() as held:
        for _ in range(900):
            line = held.enter_context(connection(server))
            line.sendall(begun)
        with Asking(owner) as other:
            fresh = [httpx.get(f"{server.url}/api/v1/accounts/me", timeout=ANSWER_S).status_code for _ in range(20)]
        assert fresh == [401] * 20
        other.check()


def test_a_websocket_upgrade_gets_a_plain_answer(server: Server) -> None:
    upgrade = (
        b"GET /api/v1/accounts/me HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n"
        b"Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n"
    )
    with connection(server) as line:
        line.sendall(upgrade)
        said = line.recv(65536)
    assert said.startswith((b"HTTP/1.1 401", b"HTTP/1.1 4")), said[:200]
