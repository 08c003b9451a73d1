"""A household's pictures over HTTP. Each household has its own: no name tells what another one keeps (P10)."""

import uuid
from collections.abc import Iterable
from typing import cast

from django.conf import settings
from django.http import HttpResponse
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter, extend_schema
from rest_framework.exceptions import NotFound
from rest_framework.negotiation import BaseContentNegotiation, DefaultContentNegotiation
from rest_framework.parsers import BaseParser
from rest_framework.renderers import BaseRenderer
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error, read
from api.errors import Refusal
from api.households.inside import member_of
from api.photos.parsers import ChunkParser
from api.photos.ranges import read_range
from api.photos.serializers import MissingIn, MissingOut, UploadAsk, UploadOut
from api.photos.throttles import PhotosPerPerson
from lawn.contract.refusal import Refused
from lawn.photos import files, upload
from lawn.photos.refusal import Full, Gap

_TAG = ["photos"]
_NO = {401: error("Signed out"), 404: error("No such household or picture, or not a member")}
_RANGE = OpenApiParameter(
    "Content-Range", str, OpenApiParameter.HEADER, required=True, description="bytes first-last/total (RFC 9110, 14.4)"
)
_YEAR_S = 365 * 24 * 3600


def household_of(request: Request, household: uuid.UUID, sha256: str) -> uuid.UUID:
    """Return the caller's household; 404 for another's, and for what cannot be a picture's name."""
    member = member_of(request, household)
    if not files.is_name(sha256):
        raise NotFound
    return member.household_id


class Missing(APIView):
    """Which pictures to send."""

    throttle_classes = [PhotosPerPerson]

    @extend_schema(
        operation_id="photos_missing",
        tags=_TAG,
        request=MissingIn,
        responses={200: MissingOut, 400: error("A field is wrong"), **_NO},
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Say which of a phone's pictures this household lacks on the server."""
        member = member_of(request, household)
        form = read(MissingIn, request)
        return Response(MissingOut({"missing": upload.missing(member.household_id, form["sha256"])}).data)


class Upload(APIView):
    """Where to go on with a picture."""

    throttle_classes = [PhotosPerPerson]

    @extend_schema(
        operation_id="photos_upload",
        tags=_TAG,
        parameters=[UploadAsk],
        responses={200: UploadOut, 400: error("A parameter is wrong"), **_NO},
    )
    def get(self, request: Request, household: uuid.UUID, sha256: str) -> Response:
        """Say how much of a picture has come, after a cut or before the first chunk."""
        here = household_of(request, household, sha256)
        asked = UploadAsk(data=request.query_params)
        asked.is_valid(raise_exception=True)
        return Response(UploadOut(upload.standing(here, sha256, asked.validated_data.get("total"))).data)


class AsItIs(BaseContentNegotiation):
    """Whoever asks for an image gets the picture, or an error in the one shape: there is no other form to choose."""

    def select_parser(self, request: Request, parsers: Iterable[BaseParser]) -> BaseParser | None:
        """Choose by the body's own media type, as everywhere."""
        return DefaultContentNegotiation().select_parser(request, parsers)

    def select_renderer(
        self, request: Request, renderers: Iterable[BaseRenderer], format_suffix: str | None = None
    ) -> tuple[BaseRenderer, str]:
        """Choose JSON, which only errors and standings are written in."""
        first = next(iter(renderers))
        return first, first.media_type


class Picture(APIView):
    """One picture, under the SHA-256 of its bytes."""

    content_negotiation_class = AsItIs
    parser_classes = [ChunkParser]
    throttle_classes = [PhotosPerPerson]

    @extend_schema(
        operation_id="photos_send",
        tags=_TAG,
        parameters=[_RANGE],
        request={"application/octet-stream": OpenApiTypes.BINARY},
        responses={
            200: UploadOut,
            400: error("Content-Range and the body do not agree"),
            409: error("The chunk begins after what has come; ask where to go on"),
            413: error("More than one chunk may hold"),
            415: error("Not application/octet-stream"),
            422: error("A picture that is not kept"),
            507: error("No room for more photos"),
            **_NO,
        },
    )
    def put(self, request: Request, household: uuid.UUID, sha256: str) -> Response:
        """Take one chunk (header Content-Range); with the last one the picture is checked and kept."""
        here = household_of(request, household, sha256)
        chunk = _chunk(request)
        try:
            return Response(UploadOut(upload.take(here, sha256, chunk)).data)
        except Gap as gap:
            message = f"This chunk begins after the {gap.have_bytes:,} bytes that have come so far. Go on from there."
            raise Refusal(409, "gap", message) from None
        except Refused as no:
            raise Refusal(422, no.code, no.message) from no
        except Full:
            raise Refusal(507, "photos_full", _full()) from None

    @extend_schema(operation_id="photos_get", tags=_TAG, responses={(200, "image/jpeg"): OpenApiTypes.BINARY, **_NO})
    def get(self, request: Request, household: uuid.UUID, sha256: str) -> HttpResponse:
        """Give a whole picture. It never changes, and is nobody's but the household's."""
        here = household_of(request, household, sha256)
        data = files.read(here, sha256)
        if data is None:
            raise NotFound
        return HttpResponse(data, content_type="image/jpeg", headers=_headers(sha256))


def _chunk(request: Request) -> upload.Chunk:
    """Return the chunk as sent; raise 400 where header and body do not agree."""
    data = cast(bytes, request.data)
    said = read_range(request.headers.get("Content-Range"))
    if said.length != len(data):
        message = f"Content-Range announces {said.length:,} bytes and {len(data):,} came."
        raise Refusal(400, "bad_range", message)
    return upload.Chunk(said.first, said.total, data)


def _headers(sha256: str) -> dict[str, str]:
    """Return headers under which a picture can be nothing but a picture, whatever a browser makes of its bytes."""
    return {
        "Cache-Control": f"private, max-age={_YEAR_S}, immutable",
        "Content-Disposition": f'attachment; filename="{sha256}.jpg"',
        "Content-Security-Policy": "default-src 'none'; sandbox",
        "Cross-Origin-Resource-Policy": "same-origin",
        "X-Content-Type-Options": "nosniff",
    }


def _full() -> str:
    most, megabytes = settings.PHOTOS_MOST, settings.PHOTOS_MOST_BYTES // 1_000_000
    return (
        f"The server has no room for more photos: it keeps {most:,} photos or {megabytes:,} MB for a household. "
        "This one stays on the phone."
    )
