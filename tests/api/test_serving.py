"""A10: deadlines of a connection, tried on a small server in a thread; and that all servers start in one place."""

import asyncio
import os
import socket
import stat
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import uvicorn

from lawn.tooling.build import ROOT
from lawn.web import serving
from lawn.web.body_limits import Bounded
from tests.lines import to_the_end

PATIENCE_S = 60
SOON_S = 0.2
HEAD = b"POST / HTTP/1.1\r\nHost: here\r\n"
BIG = b"x" * 30_000_000


async def echo(scope: Any, receive: Any, send: Any) -> None:
    """Answer with the length of the body; what is asked for at /big is big."""
    length, more = 0, True
    while more:
        message = await receive()
        if message["type"] == "http.disconnect":
            return
        length, more = length + len(message["body"]), message.get("more_body", False)
    body = BIG if scope["path"] == "/big" else str(length).encode()
    await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"%d" % len(body))]})
    await send({"type": "http.response.body", "body": body})


@pytest.fixture
def port() -> Iterator[int]:
    listener = socket.create_server(("127.0.0.1", 0))
    server = uvicorn.Server(serving.config(echo))  # type: ignore[arg-type]
    thread = threading.Thread(target=lambda: asyncio.run(server.serve(sockets=[listener])))
    thread.start()
    yield listener.getsockname()[1]
    server.should_exit = True
    thread.join()


def connect(port: int) -> socket.socket:
    return socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)


@pytest.mark.parametrize(
    ("sent", "said"),
    [(b"", b""), (b"\r\n", b"HTTP/1.1 408"), (b"GET / HT", b"HTTP/1.1 408"), (HEAD, b"HTTP/1.1 408")],
    ids=["nothing", "a blank line", "half a line", "half a head"],
)
def test_a10_a_head_that_does_not_come_in_time_ends_the_connection(
    port: int, monkeypatch: pytest.MonkeyPatch, sent: bytes, said: bytes
) -> None:
    monkeypatch.setattr(serving, "HEAD_S", SOON_S)
    with connect(port) as line:
        line.sendall(sent)
        assert to_the_end(line).startswith(said)


def test_a10_blank_lines_between_requests_do_not_hold_a_connection(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "HEAD_S", SOON_S)
    with connect(port) as line:
        line.sendall(HEAD + b"Content-Length: 2\r\n\r\nhi\r\n\r\n")
        assert to_the_end(line).startswith(b"HTTP/1.1 200")


@pytest.mark.parametrize("how", [b"Content-Length: 90\r\n\r\n{", b"Transfer-Encoding: chunked\r\n\r\n1\r\nx\r\n"])
def test_a10_a_body_that_does_not_come_in_time_ends_the_connection(
    port: int, monkeypatch: pytest.MonkeyPatch, how: bytes
) -> None:
    monkeypatch.setattr(serving, "BODY_S", SOON_S)
    with connect(port) as line:
        line.sendall(HEAD + how)
        assert to_the_end(line) == b""


def test_a10_a_body_of_more_chunks_than_any_of_ours_is_refused(port: int) -> None:
    with connect(port) as line:
        line.sendall(HEAD + b"Transfer-Encoding: chunked\r\n\r\n" + b"1\r\nx\r\n" * (serving.MOST_CHUNKS + 1))
        assert to_the_end(line).startswith(b"HTTP/1.1 400")
    with connect(port) as line:
        many = b"1\r\nx\r\n" * (serving.MOST_CHUNKS - 1) + b"0\r\n\r\n"
        line.sendall(HEAD + b"Connection: close\r\nTransfer-Encoding: chunked\r\n\r\n" + many)
        assert to_the_end(line).endswith(b"\r\n\r\n%d" % (serving.MOST_CHUNKS - 1))


def test_a10_an_answer_that_nobody_takes_is_given_up(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "ANSWER_S", SOON_S)
    given_up = threading.Event()
    lost = serving.Guarded.connection_lost

    def noted(self: serving.Guarded, exc: Exception | None) -> None:
        given_up.set()
        lost(self, exc)

    monkeypatch.setattr(serving.Guarded, "connection_lost", noted)
    with connect(port) as line:
        line.sendall(b"GET /big HTTP/1.1\r\nHost: here\r\n\r\n")
        assert given_up.wait(PATIENCE_S)


def test_a10_where_connections_run_out_the_one_waited_for_longest_makes_room(
    port: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(serving, "most_connections", lambda: 2)
    with connect(port) as oldest, connect(port) as middle, connect(port) as newest:
        assert to_the_end(oldest) == b""
        for line in (middle, newest):
            line.sendall(b"GET / HTTP/1.1\r\nHost: here\r\n\r\n")
            assert line.recv(65536).startswith(b"HTTP/1.1 200")


def test_several_requests_of_one_connection_are_answered_in_turn(port: int) -> None:
    with connect(port) as line:
        asked = HEAD + b"Content-Length: 2\r\n\r\nhi"
        line.sendall(asked * 2 + HEAD + b"Connection: close\r\nContent-Length: 0\r\n\r\n")
        assert to_the_end(line).count(b"HTTP/1.1 200") == 3


@pytest.mark.parametrize("files", [(1024, 231), (64, 16), (20_000, 400)], ids=str)
def test_connections_are_fewer_than_the_files_a_process_may_open(
    monkeypatch: pytest.MonkeyPatch, files: tuple[int, int]
) -> None:
    monkeypatch.setattr("resource.getrlimit", lambda which: (files[0], files[0]))
    assert serving.most_connections() == files[1]


def test_a_websocket_is_refused_plainly_by_whatever_server_runs_the_app() -> None:
    sent: list[Any] = []

    async def send(message: Any) -> None:
        sent.append(message)

    async def receive() -> Any:
        return {"type": "websocket.connect"}

    async def never(*_: Any) -> None:
        raise AssertionError("no WebSocket is for Django")

    asyncio.run(Bounded(never)({"type": "websocket", "headers": []}, receive, send))
    assert sent == [{"type": "websocket.close", "code": 1008, "reason": "No WebSocket is offered here."}]


def test_uvicorn_is_started_in_one_place() -> None:
    ours = [*ROOT.glob("lawn/**/*.py"), *ROOT.glob("api/**/*.py"), *ROOT.glob("tests/**/*.py")]
    starts = ("uvicorn.run", "uvicorn.Config(", '"-m", "uvicorn"')
    found = [path for path in ours if any(word in path.read_text() for word in starts)]
    assert [str(path.relative_to(ROOT)) for path in found if path != Path(__file__)] == ["lawn/web/serving.py"]


def test_what_the_server_writes_is_for_its_own_user_alone(tmp_path: Path) -> None:
    data = tmp_path / "data"
    env = {**os.environ, "EVENFALL_DATA": str(data), "DJANGO_SETTINGS_MODULE": "lawn.settings"}
    env.pop("DATABASE_URL", None)
    for command in (["migrate", "--verbosity", "0"], ["backup", str(data / "book.zip")]):
        subprocess.run([sys.executable, "manage.py", *command], cwd=ROOT, env=env, check=True, umask=0o022)
    modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in data.rglob("*") if path.is_file()}
    assert {"evenfall.sqlite3", "secret_key", "book.zip"} <= set(modes)
    assert {name: oct(mode) for name, mode in modes.items() if mode & 0o077} == {}
