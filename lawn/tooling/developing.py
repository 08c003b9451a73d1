"""Developing: the server and the front end's development server side by side, each reading anew what is changed."""

import http.client
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND, ROOT

HOST = "127.0.0.1"
ENDING_S = 15
_PAUSE_S = 0.1
_ASKED = "/api/v1/accounts/me"  # asked at the front end's address, it is answered only once both are there


class Ended(Exception):
    """One of the two ended by itself; its own words are above."""


def server(port: int, address: str) -> "subprocess.Popen[bytes]":
    """Django by uvicorn, begun anew when a file of lawn/ or api/ changes."""
    command = [sys.executable, "-m", "lawn.web.serving", "--port", str(port), "--reload", "--ending", "0"]
    return subprocess.Popen(
        command, cwd=ROOT, env={"EVENFALL_ADDRESS": address, **os.environ}, stdin=subprocess.DEVNULL
    )


def front_end(port: int, behind: int) -> "subprocess.Popen[bytes]":
    """Vite, which hands what is the API's to the server behind it."""
    command = [nodejs.node(), "node_modules/vite/bin/vite.js", "--host", HOST, "--port", str(port), "--strictPort"]
    env = {**nodejs.environment(), "EVENFALL_BEHIND": f"http://{HOST}:{behind}"}
    return subprocess.Popen([*command, "--logLevel", "warn"], cwd=FRONTEND, env=env, stdin=subprocess.DEVNULL)


@contextmanager
def both(port: int, behind: int) -> Iterator[list["subprocess.Popen[bytes]"]]:
    """Run the two, the front end's once the server answers: until then it would tell of a fault at whatever is asked.

    Both answer when this begins, and whatever ends it, they end as well.
    """
    running = [server(behind, f"http://localhost:{port}")]
    try:
        _wait_until_answered(behind, running)
        running.append(front_end(port, behind))
        _wait_until_answered(port, running)
        yield running
    finally:
        for process in running:
            process.terminate()
        for process in running:
            _ended(process)


def _ended(process: "subprocess.Popen[bytes]") -> None:
    with suppress(subprocess.TimeoutExpired):
        process.wait(ENDING_S)
    process.kill()
    process.wait()


def watch(running: list["subprocess.Popen[bytes]"]) -> None:
    """Stay as long as both run."""
    while True:
        _look_after(running)


def _wait_until_answered(port: int, running: list["subprocess.Popen[bytes]"]) -> None:
    """Wait until that port answers."""
    while not _answers(port):
        _look_after(running)


def _look_after(running: list["subprocess.Popen[bytes]"]) -> None:
    time.sleep(_PAUSE_S)
    if any(process.poll() is not None for process in running):
        raise Ended("the server ended" if running[0].poll() is not None else "the front end's server ended")


def _answers(port: int) -> bool:
    connection = http.client.HTTPConnection(HOST, port, timeout=5)
    try:
        connection.request("GET", _ASKED)
        return connection.getresponse().status < 500
    except OSError:
        return False
    finally:
        connection.close()


@contextmanager
def told_to_stop() -> Iterator[None]:
    """Take SIGTERM as Ctrl+C is taken, an end in order; and Ctrl+C also where a shell began it deaf to that."""

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    before = {told: signal.signal(told, stop) for told in (signal.SIGTERM, signal.SIGINT)}
    try:
        with suppress(KeyboardInterrupt):
            yield
    finally:
        for told, handler in before.items():
            signal.signal(told, handler)
