"""The application as it is, in workers that can be made to die (SIGKILL) at an exact point of a push.

A point is reached by wrapping what the program itself calls there; nothing of it is replaced. Which worker dies is
settled by a file: whoever removes it, dies.
"""

import os
import signal
from collections.abc import Awaitable, Callable
from functools import wraps
from pathlib import Path
from typing import Any

from django.db.backends.signals import connection_created

from lawn.asgi import application as served
from lawn.book.sync import apply
from lawn.book.sync.feed import Feed
from tests.live.points import BEFORE_ANSWER, BEFORE_COMMIT, HALF_WAY

_FOLDER = Path(os.environ["EVENFALL_TEST_DEATHS"])


def _maybe_die(point: str) -> None:
    try:
        (_FOLDER / point).unlink()
    except FileNotFoundError:
        return
    os.kill(os.getpid(), signal.SIGKILL)


def _die_after(owner: Any, name: str, point: str, when: Callable[..., bool]) -> None:
    real = getattr(owner, name)

    @wraps(real)
    def wrapped(*args: Any, **kwargs: Any) -> Any:
        result = real(*args, **kwargs)
        if when(*args):
            _maybe_die(point)
        return result

    setattr(owner, name, wrapped)


_die_after(Feed, "settle", BEFORE_COMMIT, lambda *_: True)
_die_after(apply._Line, "take", HALF_WAY, lambda line, *_: len(line.pushed.results) == 2)


def _limit_pages(connection: Any, **_: Any) -> None:
    if connection.vendor == "sqlite":
        connection.connection.execute(f"PRAGMA max_page_count={int(os.environ['EVENFALL_TEST_PAGES'])}")


if "EVENFALL_TEST_PAGES" in os.environ:
    connection_created.connect(_limit_pages)


async def application(scope: dict[str, Any], receive: Any, send: Callable[[Any], Awaitable[None]]) -> None:
    """Serve, and come to the last point where a sync is about to be answered."""

    async def told(message: Any) -> None:
        if message["type"] == "http.response.start" and scope["path"].endswith("/sync"):
            _maybe_die(BEFORE_ANSWER)
        await send(message)

    await served(scope, receive, told if scope["type"] == "http" else send)
