"""How the app is served: the one place that starts uvicorn, with bounds on what an open door may be sent.

    uv run manage.py up                                              builds, migrates and serves
    uv run python -m lawn.web.serving --port 8000 --workers 2            serves only, by several processes

A stranger can hold a connection open and say nothing, send one byte a minute, or send a body as half a million chunks
of one byte. So a head and a body have a deadline each, a body has so many chunks, an answer that nobody takes is given
up, and where connections run out the one that has kept us waiting longest makes room (RFC 9112, section 9.5 leaves it
to the server when to close).
"""

import argparse
import asyncio
import os
import resource
import sys
from typing import Any

import uvicorn
from uvicorn.protocols.http.httptools_impl import STATUS_LINE, HttpToolsProtocol

APPLICATION = "lawn.asgi:application"
HEAD_S = 10.0  # from the first moment of a connection, or of a further request, to the end of its headers
BODY_S = 120.0  # a photo's chunk of 256 kB by the weakest signal that still is one
ANSWER_S = 120.0  # for whoever takes an answer in, without taking any of it
IDLE_S = 20  # between two requests of one connection
MOST_HEAD_BYTES = 64 * 1024
MOST_CHUNKS = 1024
_MOST_CONNECTIONS = 400
# Of each connection: itself, and the files of the database that its thread may hold open (SQLite: three).
_FILES_EACH, _FILES_BESIDE = 4, 100
_MOST_FILES = 65_536
ENDING_S = 5


def most_connections() -> int:
    """Return how many connections may be open at once by the files this process may have open."""
    allowed, _ = resource.getrlimit(resource.RLIMIT_NOFILE)
    if allowed == resource.RLIM_INFINITY:
        return _MOST_CONNECTIONS
    return max(16, min(_MOST_CONNECTIONS, (allowed - _FILES_BESIDE) // _FILES_EACH))


def take_files() -> None:
    """Allow this process as many open files as it may allow itself."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = _MOST_FILES if hard == resource.RLIM_INFINITY else min(hard, _MOST_FILES)
    if soft != resource.RLIM_INFINITY and soft < wanted:
        resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))


class Guarded(HttpToolsProtocol):
    """A connection whose other end has only so long, and only so much, to say what it wants."""

    _deadline: asyncio.TimerHandle | None = None
    _untaken: asyncio.TimerHandle | None = None
    _since = 0.0
    _head_bytes = 0
    _chunks = 0
    _in_head = True

    # --- a connection's life ---------------------------------------------------------------------
    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin waiting for a request, and make room where there are too many of us."""
        super().connection_made(transport)
        self._since = self.loop.time()
        self._within(HEAD_S)
        if len(self.connections) > most_connections():
            self._make_room()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget the deadlines."""
        self._within(None)
        self.resume_writing()
        super().connection_lost(exc)

    def _make_room(self) -> None:
        waiting = [
            one for one in self.connections if isinstance(one, Guarded) and one is not self and one.is_waited_for
        ]
        if waiting:
            oldest = min(waiting, key=lambda one: one._since)
            self.connections.discard(oldest)
            oldest.transport.abort()

    @property
    def is_waited_for(self) -> bool:
        """Whether it is the other end's turn: no request yet, or not all of one, or all are answered."""
        return self.cycle is None or self.cycle.response_complete or self.cycle.more_body

    # --- what comes in ---------------------------------------------------------------------------
    def data_received(self, data: bytes) -> None:
        """Read on, unless a head grows without end."""
        if self._in_head:
            self._head_bytes += len(data)
            if self._head_bytes > MOST_HEAD_BYTES + len(data):
                return self._end(431)
            if self._deadline is None and self.is_waited_for:
                self._within(HEAD_S)  # blank lines before a request are part of no request
        super().data_received(data)

    def on_message_begin(self) -> None:
        """Give the head its time."""
        self._in_head, self._chunks = True, 0
        self._within(HEAD_S)
        super().on_message_begin()

    def on_headers_complete(self) -> None:
        """Give the body its time."""
        self._in_head, self._head_bytes = False, 0
        self._since = self.loop.time()
        self._within(BODY_S)
        super().on_headers_complete()

    def on_chunk_header(self) -> None:
        """Count a chunk; one too many ends the request as any other that is no HTTP of ours."""
        self._chunks += 1
        if self._chunks > MOST_CHUNKS:
            raise ValueError("more chunks than a request of ours has")

    def on_message_complete(self) -> None:
        """Stop the clock: from here on it is our turn."""
        self._in_head = True
        self._within(None)
        super().on_message_complete()

    def on_response_complete(self) -> None:
        """Begin to count how long nothing comes."""
        self._since = self.loop.time()
        super().on_response_complete()

    # --- what goes out ---------------------------------------------------------------------------
    def pause_writing(self) -> None:
        """Give whoever takes nothing in a while to do so."""
        super().pause_writing()
        self._untaken = self._untaken or self.loop.call_later(ANSWER_S, self.transport.abort)

    def resume_writing(self) -> None:
        """Stop that clock."""
        if self._untaken is not None:
            self._untaken.cancel()
            self._untaken = None
        if self.flow is not None:
            super().resume_writing()

    # --- deadlines -------------------------------------------------------------------------------
    def _within(self, seconds: float | None) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
        self._deadline = None if seconds is None else self.loop.call_later(seconds, self._late)

    def _late(self) -> None:
        began = self._in_head and self._head_bytes and self.is_waited_for
        if began:
            return self._end(408)
        self.transport.abort()

    def _end(self, status: int) -> None:
        """Say why in a status line, and hang up."""
        self._within(None)
        self.transport.write(STATUS_LINE[status] + b"connection: close\r\ncontent-length: 0\r\n\r\n")
        self.transport.close()

    def _unsupported_upgrade_warning(self) -> None:
        """Say nothing of an upgrade that is not offered here: it is answered as a plain request is."""


def options() -> dict[str, Any]:
    """Return uvicorn's settings for this app, whoever starts it."""
    return {
        "http": "lawn.web.serving:Guarded",  # by name: workers are begun anew from it
        "ws": "none",
        "lifespan": "off",
        "log_level": "warning",
        "log_config": None,  # through Django's handler, which hides what looks like a token (lawn.web.discretion)
        "access_log": False,
        "proxy_headers": False,  # Django reads the proxy's headers, as many as EVENFALL_PROXIES says
        "server_header": False,
        # Connections are counted by Guarded. Those that had to make room leave their tasks behind for a moment.
        "limit_concurrency": 3 * most_connections(),
        "timeout_keep_alive": IDLE_S,
        "timeout_graceful_shutdown": ENDING_S,
    }


def config(application: str = APPLICATION, **more: Any) -> uvicorn.Config:
    """Return how one process serves; allow it the files that takes."""
    take_files()
    return uvicorn.Config(application, **{**options(), **more})


def main(arguments: list[str]) -> None:
    """Serve, by one process or several."""
    parser = argparse.ArgumentParser(prog="python -m lawn.web.serving", description="Serve Evenfall.")
    parser.add_argument("--host", default="127.0.0.1")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--log-level", default="warning")
    parser.add_argument("--ending", type=int, default=ENDING_S, help="seconds that open streams have when it stops")
    parser.add_argument("--application", default=APPLICATION)
    parser.add_argument("--reload", action="store_true", help="begin anew when a file of lawn/ or api/ changes")
    said = parser.parse_args(arguments)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "lawn.settings")
    take_files()
    uvicorn.run(
        said.application,
        **{
            **options(),
            "host": said.host,
            "port": said.port,
            "workers": said.workers,
            "log_level": said.log_level,
            "timeout_graceful_shutdown": said.ending,
            **({"reload": True, "reload_dirs": ["lawn", "api"]} if said.reload else {}),
        },
    )


if __name__ == "__main__":
    main(sys.argv[1:])
