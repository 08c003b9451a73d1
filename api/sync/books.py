"""GET bootstrap and digest: a whole book for a phone that has none, and the parts of one to repair."""

import json
import uuid
from collections.abc import Iterator
from typing import Any, cast

from django.http import Http404, HttpResponse
from django.utils.decorators import method_decorator
from django.views.decorators.gzip import gzip_page
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework.renderers import BaseRenderer, JSONRenderer
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error
from api.sync import throttles
from api.sync.serializers import BootstrapAskSerializer, BootstrapLineSerializer, BucketSerializer, DigestAskSerializer
from lawn.book.people import access
from lawn.book.sync import bootstrap, repair
from lawn.contract import kinds
from lawn.models import Member, Person

_NO = {
    400: error("A parameter is wrong"),
    401: error("Signed out"),
    404: error("No such household, or not a member of it"),
    429: error("Too often: Retry-After says when"),
}


def _member(request: Request, household: uuid.UUID) -> Member:
    try:
        return access.member_of(cast(Person, request.user), household)
    except access.NoAccess:
        raise Http404 from None


class LinesRenderer(BaseRenderer):
    """Lets `Accept: application/x-ndjson` through; errors are still told as JSON."""

    media_type = "application/x-ndjson"
    format = "lines"
    charset = None

    def render(self, data: Any, accepted_media_type: str | None = None, renderer_context: Any = None) -> bytes:
        """Return an error as JSON."""
        return JSONRenderer().render(data)


@method_decorator(gzip_page, name="dispatch")
class BootstrapView(APIView):
    """Gives a whole book, page by page."""

    throttle_classes = [throttles.PerPhone, throttles.PerMember]
    renderer_classes = [JSONRenderer, LinesRenderer]

    @extend_schema(
        operation_id="bootstrap",
        parameters=[BootstrapAskSerializer],
        responses={
            (200, "application/x-ndjson"): OpenApiResponse(
                BootstrapLineSerializer, "A line of its own each: the head, whole records, and `after`"
            ),
            **_NO,
        },
    )
    def get(self, request: Request, household: uuid.UUID) -> HttpResponse:
        """Give one page: a first line about the book, a record a line, and where the next page begins."""
        member = _member(request, household)
        asked = BootstrapAskSerializer(data=request.query_params)
        asked.is_valid(raise_exception=True)
        page = bootstrap.page(member.household_id, asked.validated_data["after"], asked.validated_data["limit"])
        lines = "".join(f"{line}\n" for line in _lines(page, asked.validated_data["limit"]))
        return HttpResponse(lines.encode(), content_type="application/x-ndjson")


def _lines(page: bootstrap.Booted, limit: int) -> Iterator[str]:
    first = {"epoch": page.epoch, "schema": kinds.schema(), "head": page.head, "limit": limit}
    for said in (first, *page.records, {"after": page.after}):
        yield json.dumps(said, separators=(",", ":"), ensure_ascii=False)


@method_decorator(gzip_page, name="dispatch")
class DigestView(APIView):
    """Gives the digest of a part of the book, for a phone whose own differs."""

    throttle_classes = [throttles.PerPhone, throttles.PerMember]

    @extend_schema(
        operation_id="digest",
        parameters=[DigestAskSerializer],
        responses={200: BucketSerializer, **_NO},
    )
    def get(self, request: Request, household: uuid.UUID) -> Response:
        """Give one bucket: its digest, and its children's or its records."""
        member = _member(request, household)
        asked = DigestAskSerializer(data=request.query_params)
        asked.is_valid(raise_exception=True)
        return Response(repair.bucket(member.household_id, asked.validated_data["prefix"]))
