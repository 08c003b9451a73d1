"""What comes in is measured before it is kept: a request larger than any of ours is refused at once.

Django writes a whole body to disk before the first line of its own code runs, so the limit stands in front of it.
"""

import json
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Application = Callable[[Any, Any, Any], Awaitable[None]]

# The largest we take: a push of 256 kB with its envelope, or a photo's chunk of 256 kB.
MOST_BYTES = 512 * 1024

_REFUSAL = json.dumps({"code": "too_large", "message": "This is more than one request may hold. Send it in parts."})


class Bounded:
    """An ASGI application that answers 413 in place of another where the body is too large.

    A body that names its length is refused unread; one that does not is counted as it comes.
    """

    def __init__(self, application: Application, most: int = MOST_BYTES) -> None:
        self._application, self._most = application, most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] == "websocket":  # from a server that offers them; Django would fail on it
            return await send({"type": "websocket.close", "code": 1008, "reason": "No WebSocket is offered here."})
        if scope["type"] != "http":
            return await self._application(scope, receive, send)
        if _length(scope) > self._most:
            return await _refuse(send)
        counter = _Counter(receive, send, self._most)
        await self._application(scope, counter.receive, counter.send)
        if counter.over and not counter.answered:
            await _refuse(send)


class _Counter:
    """Counts a body as it is read; one that grows too large ends as if its sender had hung up."""

    def __init__(self, receive: Receive, send: Send, most: int) -> None:
        self._receive, self._send, self._left = receive, send, most
        self.over = self.answered = False

    async def receive(self) -> Message:
        """Read on, up to the limit."""
        message = await self._receive()
        self._left -= len(message.get("body", b""))
        if self._left < 0:
            self.over = True
            return {"type": "http.disconnect"}
        return message

    async def send(self, message: Message) -> None:
        """Pass the answer on."""
        self.answered = True
        await self._send(message)


def _length(scope: Scope) -> int:
    """Return the length a request names; 0 where it names none, or nonsense, which the server behind refuses."""
    for name, value in scope["headers"]:
        if name == b"content-length" and value.isdigit():
            return int(value)
    return 0


async def _refuse(send: Send) -> None:
    headers = [(b"content-type", b"application/json"), (b"connection", b"close")]
    await send({"type": "http.response.start", "status": 413, "headers": headers})
    await send({"type": "http.response.body", "body": _REFUSAL.encode()})
