"""GET /api/v1/households/{id}/events: "the book is at change n", as server-sent events.

Source of the format: WHATWG HTML standard, section 9.2, "Server-sent events".
"""

import asyncio
import json
import signal
import threading
import time
import uuid
from collections.abc import AsyncIterator
from functools import cache, partial
from typing import Any, cast

from asgiref.sync import sync_to_async
from django.http import Http404, StreamingHttpResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework.renderers import BaseRenderer, JSONRenderer
from rest_framework.request import Request
from rest_framework.views import APIView

from api.accounts.reading import error
from api.errors import Refusal
from api.sync import throttles
from lawn.book.people import access
from lawn.book.sync.events import Board, Listener, TooManyStreams, close_connection
from lawn.models import Person
from lawn.web import sessions

HEARTBEAT_S = 20.0
# Ended by the server now and then, so that none outlives a signed-out session for long, or a server it left behind.
LASTS_S = 600.0


@cache
def board() -> Board:
    """Return the board of this process."""
    return Board()


def _said(seq: int) -> bytes:
    return f"event: at\ndata: {json.dumps({'seq': seq})}\n\n".encode()


async def stream(board: Board, listener: Listener) -> AsyncIterator[bytes]:
    """Say where the book stands, then each time it has moved; a comment keeps the line open in between."""
    _end_with_the_server(board)
    # This request's thread has done its work; a connection held for minutes would be one fewer for the others.
    await sync_to_async(close_connection)()
    until = time.monotonic() + LASTS_S
    try:
        board.join(listener)
    except TooManyStreams:
        return
    try:
        yield _said(listener.seq)
        while (left := until - time.monotonic()) > 0:
            moved = await listener.moved(min(HEARTBEAT_S, left))
            if listener.over:
                return
            yield _said(listener.seq) if moved else b": still here\n\n"
    finally:
        board.leave(listener)


_hooked: set[int] = set()


def _end_with_the_server(board: Board) -> None:
    """End the streams when the server is told to stop: it would wait for them, and no message tells of it (Ctrl+C)."""
    if id(board) in _hooked or threading.current_thread() is not threading.main_thread():
        return
    _hooked.add(id(board))
    loop = asyncio.get_running_loop()
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, partial(_stop, loop, board, signal.getsignal(number)))


def _stop(loop: asyncio.AbstractEventLoop, board: Board, before: Any, number: int, frame: Any) -> None:
    """End the streams, then do what would have been done."""
    loop.call_soon_threadsafe(board.close)
    if callable(before):
        before(number, frame)


class EventStreamRenderer(BaseRenderer):
    """Lets `Accept: text/event-stream` through; errors are still told as JSON."""

    media_type = "text/event-stream"
    format = "events"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        """Return an error as JSON."""
        return JSONRenderer().render(data)


class EventsView(APIView):
    """Tells an open app that there is something to pull; nothing it says is needed (F10)."""

    throttle_classes = [throttles.PerPhone, throttles.PerMember]
    renderer_classes = [JSONRenderer, EventStreamRenderer]

    @extend_schema(
        operation_id="events",
        responses={
            (200, "text/event-stream"): OpenApiResponse(OpenApiTypes.STR, "event: at, data: {seq}"),
            401: error("Signed out"),
            404: error("No such household, or not a member of it"),
            429: error("Too often, or too many streams"),
        },
    )
    def get(self, request: Request, household: uuid.UUID) -> StreamingHttpResponse:
        """Open the stream. The looking up is done here, in a thread; the stream itself runs in the event loop."""
        try:
            member = access.member_of(cast(Person, request.user), household)
        except access.NoAccess:
            raise Http404 from None
        place = (member.household_id, member.id, sessions.of_request(request))
        if not board().has_room(place):
            raise Refusal(429, "too_many_streams", "This book is open in too many places of yours. Close one of them.")
        listener = Listener(place, access.heads([household])[household])
        answer = StreamingHttpResponse(stream(board(), listener), content_type="text/event-stream")
        answer.headers["Cache-Control"] = "no-store"
        answer.headers["X-Accel-Buffering"] = "no"  # proxies that gather answers would hold the events back
        return answer
