"""POST /api/v1/households/{id}/sync: push and pull in one round trip."""

import uuid
from datetime import datetime
from typing import Any, cast

from django.http import Http404
from django.utils import timezone
from django.utils.decorators import method_decorator
from django.views.decorators.gzip import gzip_page
from drf_spectacular.utils import extend_schema
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error
from api.errors import Refusal
from api.sync import throttles
from api.sync.parsers import PushParser
from api.sync.serializers import MOST_OPS, SyncAnswerSerializer, SyncRequestSerializer
from lawn.book.people import access, devices
from lawn.book.sync import apply, pull
from lawn.book.sync.record import instant
from lawn.contract import kinds
from lawn.models import Person
from lawn.web import sessions

PROTO = 1
MIN_PUSH_SCHEMA = 1
_FULL = "The keeper has much of yours to look at already. The rest stays on this phone and is sent again later."
_BOOK_FULL = (
    "This household's book is full, so what you entered stays on this phone for now. Ask whoever runs the server to "
    "set EVENFALL_BOOK_MEGABYTES higher; it is then sent by itself."
)
_NO = {
    400: error("The body cannot be read, or its envelope is wrong"),
    401: error("Signed out"),
    404: error("No such household, or not a member of it, or not their device"),
    413: error("More than one push may hold"),
    415: error("Not JSON, or packed in an unknown way"),
    426: error("The app and the server differ too much"),
    429: error("Too often, or no room for more: Retry-After says when"),
    503: error("The database is busy: Retry-After says when"),
}


def _refuse_old(sent: dict[str, Any]) -> None:
    """Raise 426 for an app this server no longer, or does not yet, speak with; its outbox stays whole (S9)."""
    if sent["proto"] != PROTO or (sent["ops"] and sent["schema"] < MIN_PUSH_SCHEMA):
        raise Refusal(426, "update_needed", "The app and the server differ too much. Open the app again to update it.")


@method_decorator(gzip_page, name="dispatch")
class SyncView(APIView):
    """Takes what a phone has written, and gives it what it has not seen."""

    parser_classes = [PushParser]
    throttle_classes = [throttles.PerPhone, throttles.PerMember]

    @extend_schema(operation_id="sync", request=SyncRequestSerializer, responses={200: SyncAnswerSerializer, **_NO})
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Apply the ops, if any, then read one page of changes. Without ops nothing is written (S12)."""
        person = cast(Person, request.user)
        try:
            member = access.member_of(person, household)
        except access.NoAccess:
            return self._held(request, person, household)
        sent = _read(request)
        try:
            device = access.device_of(member, sent["device"])
        except access.NoAccess:
            raise Http404 from None
        now, ops = timezone.now(), sent["ops"]
        confirmed, incarnation = sent["confirmed_dseq"], sent["incarnation"]
        try:
            pushed = (
                apply.push(household, device, incarnation, member, ops, now, confirmed)
                if ops
                else apply.standing(household, device, incarnation)
            )
        except access.NoAccess:  # ended while the lock was waited for
            raise Http404 from None
        except apply.BookFull:
            raise _book_full() from None
        page = pull.page(household, sent["cursor"], sent["limit"], pushed.entries)
        devices.seen(device, sessions.of_request(request._request), now)
        return _answer(now, pushed, vars(page))

    def _held(self, request: Request, person: Person, household: uuid.UUID) -> Response:
        """Keep what a former member's phone still holds for a keeper (S22); to everyone else there is nothing here."""
        try:
            member = access.former_member_of(person, household)
            if not (isinstance(request.data, dict) and request.data.get("ops")):
                raise access.NoAccess("household")
            sent = _read(request)
            device = access.device_left_with(member, sent["device"])
        except access.NoAccess:
            raise Http404 from None
        now, cursor = timezone.now(), sent["cursor"]
        try:
            pushed = apply.hold(household, device, sent["incarnation"], member, sent["ops"], now)
        except access.NoAccess:
            raise Http404 from None
        except apply.BookFull:
            raise _book_full() from None
        except apply.TooManyPending:
            raise Refusal(429, "too_many_pending", _FULL, wait_s=3600) from None
        nothing = pull.Pulled([], cursor, cursor, has_more=False, digest=None, epoch=None, reset=False)
        return _answer(now, pushed, vars(nothing))


def _book_full() -> Refusal:
    """Return a "later" that says what to do: nothing was taken, and all of it stays on the phone (S9)."""
    return Refusal(429, "book_full", _BOOK_FULL, wait_s=3600)


def _answer(now: datetime, pushed: apply.Pushed, page: dict[str, Any]) -> Response:
    numbers = {"schema": kinds.schema(), "min_push_schema": MIN_PUSH_SCHEMA}
    line = {name: value for name, value in vars(pushed).items() if name != "entries"}
    return Response({"server_time": instant(now), **numbers, **line, **page})


def _read(request: Request) -> dict[str, Any]:
    """Return the request checked as far as its envelope; raise 400, 413 or 426."""
    if not isinstance(request.data, dict):
        raise Refusal(400, "malformed", "A sync must be one set of named fields.")
    ops = request.data.get("ops")
    if isinstance(ops, list) and len(ops) > MOST_OPS:
        raise Refusal(413, "too_large", f"One push may hold {MOST_OPS} entries. Send it in smaller parts.")
    serializer = SyncRequestSerializer(data=request.data)
    serializer.is_valid(raise_exception=True)
    sent: dict[str, Any] = serializer.validated_data
    _refuse_old(sent)
    return sent
