"""Telling open apps that their household's book has moved on: a hint to pull, nothing more (F10).

The truth is the counter in the database. One look a second, for all streams of this process together, finds what has
moved, whoever wrote it and in whichever process; so a server that dies between a commit and its event loses nothing:
the next look, of any server, finds the same number. Who listens is checked in the same look, so a removed member
hears no more of it (P10).
"""

import asyncio
import contextlib
import logging
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from django.db import DatabaseError, close_old_connections, connection

from lawn.book.people import access
from lawn.book.people.access import Place

log = logging.getLogger(__name__)

EVERY_S = 1.0
# One person has a few devices; each open app holds one stream.
MOST_STREAMS = 5


class TooManyStreams(Exception):
    """This member has as many streams open as one may."""


@dataclass(eq=False)
class Listener:
    """One open stream: where its member's place is, the newest number found, and whether it is to end."""

    place: Place
    seq: int
    over: bool = False
    _moved: asyncio.Event = field(default_factory=asyncio.Event)

    def tell(self, seq: int) -> None:
        """Note a newer number."""
        if seq != self.seq:
            self.seq = seq
            self._moved.set()

    def end(self) -> None:
        """Let the stream end."""
        self.over = True
        self._moved.set()

    async def moved(self, within_s: float) -> bool:
        """Wait until there is something to say; False where nothing was within this many seconds."""
        try:
            await asyncio.wait_for(self._moved.wait(), within_s)
        except TimeoutError:
            return False
        self._moved.clear()
        return True


def look(places: Iterable[Place]) -> dict[Place, int]:
    """Return {place: newest number} of the places that may look into their household: three queries for all."""
    here = access.still_here(list(places))
    heads = access.heads({place[0] for place in here})
    return {place: heads[place[0]] for place in here if place[0] in heads}


class Board:
    """All streams of one process, and the one task that looks for all of them while there are any."""

    def __init__(self, every_s: float = EVERY_S, look: Callable[[Iterable[Place]], dict[Place, int]] = look) -> None:
        self._every_s, self._look = every_s, look
        self._listeners: set[Listener] = set()
        self._task: asyncio.Task[None] | None = None
        self._closed = False

    def has_room(self, place: Place) -> bool:
        """Whether a member may open one more stream here."""
        return sum(listener.place[:2] == place[:2] for listener in list(self._listeners)) < MOST_STREAMS

    def join(self, listener: Listener) -> None:
        """Add a stream; raise TooManyStreams. Call it in the event loop."""
        if not self.has_room(listener.place):
            raise TooManyStreams
        self._listeners.add(listener)
        if self._closed:
            listener.end()
        if self._task is None or self._task.done():
            self._task = asyncio.get_running_loop().create_task(self._watch())

    def leave(self, listener: Listener) -> None:
        """Take a stream out; the looking stops with the last."""
        self._listeners.discard(listener)
        if not self._listeners and self._task is not None:
            self._task.cancel()
            self._task = None

    def close(self) -> None:
        """End every stream, and each that still comes: the server is stopping."""
        self._closed = True
        for listener in list(self._listeners):
            listener.end()

    async def _watch(self) -> None:
        """Look every second. One thread of its own: a slow database holds up neither the loop nor a request."""
        with contextlib.closing(_Thread()) as thread:
            while True:
                await asyncio.sleep(self._every_s)
                places = {listener.place for listener in self._listeners}
                try:
                    self._tell(places, await thread.run(self._look, places))
                except DatabaseError:
                    log.warning("No look for events this time: the database did not answer", exc_info=True)

    def _tell(self, asked: set[Place], found: dict[Place, int]) -> None:
        for listener in list(self._listeners):
            if listener.place in found:
                listener.tell(found[listener.place])
            elif listener.place in asked:
                listener.end()


def close_connection() -> None:
    """Close the database connection of the thread this runs in."""
    connection.close()


class _Thread:
    """The thread the looking is done in, with one database connection that it keeps."""

    def __init__(self) -> None:
        self._pool = ThreadPoolExecutor(1, thread_name_prefix="events")

    async def run(self, look: Callable[[Iterable[Place]], dict[Place, int]], asked: set[Place]) -> dict[Place, int]:
        """Look there."""

        def work() -> dict[Place, int]:
            close_old_connections()
            return look(asked)

        return await asyncio.get_running_loop().run_in_executor(self._pool, work)

    def close(self) -> None:
        """Close the connection and let the thread go, without waiting for it."""
        self._pool.submit(close_connection)
        self._pool.shutdown(wait=False)
