"""A member's calendar link, and the plan's steps for whoever has it."""

import uuid
from collections.abc import Iterable

from django.http import HttpResponse
from django.urls import reverse
from django.utils import timezone
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import extend_schema
from rest_framework import status
from rest_framework.exceptions import NotFound
from rest_framework.negotiation import BaseContentNegotiation
from rest_framework.parsers import BaseParser
from rest_framework.permissions import AllowAny
from rest_framework.renderers import BaseRenderer
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error, read
from api.calendar.serializers import CalendarIn, CalendarOut, NewCalendarOut
from api.calendar.throttles import CalendarPerAddress, LinksPerPerson
from api.households.inside import NO, member_of, only
from lawn.book.calendar import ics, links, steps
from lawn.book.people import access
from lawn.models import Member

_TAG = ["calendar"]
_ICS = "text/calendar; charset=utf-8"
_ONLY = "Only a member has a calendar link."


def _state(member: Member) -> Response:
    found = links.kept(member)
    return Response(CalendarOut({"on": found is not None, "made_at": found.made_at if found else None}).data)


class Link(APIView):
    """One's own link."""

    throttle_classes = [LinksPerPerson]

    @extend_schema(operation_id="calendar_link", tags=_TAG, responses={200: CalendarOut, **NO})
    def get(self, request: Request, household: uuid.UUID) -> Response:
        """Say whether the member's link is on; the link itself was shown once."""
        return _state(member_of(request, household))

    @extend_schema(
        operation_id="calendar_make_link",
        tags=_TAG,
        request=CalendarIn,
        responses={201: NewCalendarOut, 429: error("Too many links"), **NO},
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Make the member's link; one they had before ends at once."""
        member = member_of(request, household)
        read(CalendarIn, request)
        with only(_ONLY):
            link, token = links.make(member, timezone.now())
        address = request.build_absolute_uri(reverse("calendar", kwargs={"token": token}))
        answer = NewCalendarOut({"link": address, "made_at": link.made_at}).data
        return Response(answer, status=status.HTTP_201_CREATED)


class Off(APIView):
    """Turn it off."""

    throttle_classes = [LinksPerPerson]

    @extend_schema(operation_id="calendar_off", tags=_TAG, request=None, responses={200: CalendarOut, **NO})
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """End the member's link at once."""
        member = member_of(request, household)
        links.turn_off(member)
        return _state(member)


class _AsItIs(BaseContentNegotiation):
    """A calendar is a calendar, whatever an Accept header wishes; refusals are JSON."""

    def select_parser(self, request: Request, parsers: Iterable[BaseParser]) -> BaseParser | None:
        """Nothing is read."""
        return None

    def select_renderer(
        self, request: Request, renderers: Iterable[BaseRenderer], format_suffix: str | None = None
    ) -> tuple[BaseRenderer, str]:
        """Errors go out by the first renderer."""
        first = next(iter(renderers))
        return first, first.media_type


class Feed(APIView):
    """The calendar."""

    authentication_classes = ()  # the link is all that counts: no cookie is read, none is set
    permission_classes = [AllowAny]
    throttle_classes = [CalendarPerAddress]
    content_negotiation_class = _AsItIs

    @extend_schema(
        operation_id="calendar",
        tags=_TAG,
        auth=[],
        responses={
            (200, "text/calendar"): OpenApiTypes.STR,
            404: error("No such link, or one that was ended"),
            429: error("Too many looks"),
        },
    )
    def get(self, request: Request, token: str) -> HttpResponse:
        """Give the plan's steps to whoever has the link."""
        try:
            member = links.reader(token)
        except access.NoAccess as no:
            raise NotFound from no
        jobs = steps.jobs(member, timezone.now())
        name = f"Evenfall: {member.household.name or 'Household'}"
        body = ics.written(name, jobs, request.build_absolute_uri("/season"))
        return HttpResponse(body, content_type=_ICS, headers={"Content-Disposition": 'inline; filename="evenfall.ics"'})
