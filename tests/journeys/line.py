"""A poor line between phones and the server: a relay that breaks when told to, as a signal does."""

import socket
import threading
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from tests.journeys.server import Server

_PUT = b"PUT "
_BYTES = 65536


class Line:
    """Relays to one server. `cuts` says what becomes of the next uploads, in order: each entry breaks one.

    "body": the line breaks in the middle of the upload, so the server hears half of it. "answer": the server hears all
    of it, and its answer is lost.
    """

    def __init__(self, server: Server) -> None:
        self._server = server
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.url = f"http://127.0.0.1:{self._listening.getsockname()[1]}"
        self.cuts: deque[str] = deque()
        self.no_uploads = False
        threading.Thread(target=self._accept, daemon=True).start()

    def close(self) -> None:
        """Take the line down."""
        self._listening.close()

    def _accept(self) -> None:
        with suppress(OSError):
            while True:
                phone, _ = self._listening.accept()
                threading.Thread(target=self._serve, args=(phone,), daemon=True).start()

    def _serve(self, phone: socket.socket) -> None:
        """Relay one connection until either end goes, or it is cut."""
        try:
            server = socket.create_connection(("127.0.0.1", self._server.port), timeout=60)
        except OSError:
            phone.close()
            return
        wire = _Wire(phone, server)
        server.settimeout(None)
        threading.Thread(target=wire.back, daemon=True).start()
        with suppress(OSError):
            while data := phone.recv(_BYTES):
                if data.startswith(_PUT):
                    self._upload(wire)
                wire.forth(data)
        wire.end()

    def _upload(self, wire: "_Wire") -> None:
        """An upload begins on this connection: settle how it ends."""
        if self.no_uploads:
            wire.end()
        elif self.cuts:
            wire.breaks = self.cuts.popleft()


class _Wire:
    """One connection, and how it is to break, if at all."""

    def __init__(self, phone: socket.socket, server: socket.socket) -> None:
        self._ends = (phone, server)
        self.breaks = ""
        self._sent = 0

    def forth(self, data: bytes) -> None:
        """Relay to the server; break there once half a chunk or so has passed."""
        self._ends[1].sendall(data)
        if self.breaks == "body":
            self._sent += len(data)
            if self._sent > _BYTES:
                self.end()

    def back(self) -> None:
        """Relay what the server answers; break instead where the answer is to be lost."""
        phone, server = self._ends
        with suppress(OSError):
            while data := server.recv(_BYTES):
                if self.breaks == "answer":
                    break
                phone.sendall(data)
        self.end()

    def end(self) -> None:
        """Both ends see the line go, at once."""
        for one in self._ends:
            with suppress(OSError):
                one.shutdown(socket.SHUT_RDWR)
            one.close()


@contextmanager
def poor_line(server: Server) -> Iterator[Line]:
    """A line for one journey."""
    line = Line(server)
    try:
        yield line
    finally:
        line.close()
