"""POST /api/v1/households/{id}/sync: push and pull in one round trip."""

import uuid
from dataclasses import asdict
from typing import Any, cast

from django.http import Http404
from django.utils import timezone
from django.utils.decorators import method_decorator
from django.views.decorators.gzip import gzip_page
from drf_spectacular.utils import extend_schema
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.errors import Refusal
from api.sync.parsers import PushParser
from api.sync.serializers import MOST_OPS, SyncAnswerSerializer, SyncRequestSerializer
from lawn import sessions
from lawn.book import access, apply, devices, kinds, pull
from lawn.book.record import instant
from lawn.models import Person

PROTO = 1
MIN_PUSH_SCHEMA = 1


def _refuse_old(sent: dict[str, Any]) -> None:
    """Raise 426 for an app this server no longer, or does not yet, speak with; its outbox stays whole (S9)."""
    if sent["proto"] != PROTO or (sent["ops"] and sent["schema"] < MIN_PUSH_SCHEMA):
        raise Refusal(426, "update_needed", "The app and the server differ too much. Open the app again to update it.")


@method_decorator(gzip_page, name="dispatch")
class SyncView(APIView):
    """Takes what a phone has written, and gives it what it has not seen."""

    parser_classes = [PushParser]

    @extend_schema(operation_id="sync", request=SyncRequestSerializer, responses=SyncAnswerSerializer)
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Apply the ops, if any, then read one page of changes. Without ops nothing is written (S12)."""
        try:
            member = access.member_of(cast(Person, request.user), household)
            sent = _read(request)
            device = access.device_of(member, sent["device"])
        except access.NoAccess:
            raise Http404 from None
        now, ops = timezone.now(), sent["ops"]
        confirmed, incarnation = sent["confirmed_dseq"], sent["incarnation"]
        if ops:
            pushed = apply.push(household, device, incarnation, member, ops, now, confirmed)
        else:
            pushed = apply.standing(household, device, incarnation)
        page = pull.page(household, sent["cursor"], sent["limit"])
        devices.seen(device, sessions.of_request(request._request), now)
        numbers = {"schema": kinds.schema(), "min_push_schema": MIN_PUSH_SCHEMA}
        return Response({"server_time": instant(now), **numbers, **asdict(pushed), **asdict(page)})


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
