"""What former members' phones handed in, over HTTP: for a keeper to accept or to decline."""

import uuid

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework.exceptions import ValidationError
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error
from api.households.inside import NO, TAG, member_of, only
from api.households.serializers import DeclinedOut, PendingAskSerializer, PendingListOut
from api.sync.serializers import ResultSerializer
from lawn.book.sync import pending_review as book

_ONLY = "Only a keeper of the household decides about a former member's entries."
_NO = {403: error("Only a keeper decides"), **NO}


class PendingList(APIView):
    """What is held."""

    @extend_schema(
        operation_id="households_pending_review",
        tags=TAG,
        parameters=[PendingAskSerializer],
        responses={200: PendingListOut, 400: error("The parameter is wrong"), **_NO},
    )
    def get(self, request: Request, household: uuid.UUID) -> Response:
        """Give the keeper the entries that wait for a yes or no, oldest first, a page at a time."""
        member = member_of(request, household)
        asked = PendingAskSerializer(data=request.query_params)
        asked.is_valid(raise_exception=True)
        try:
            with only(_ONLY):
                found = book.waiting(member, asked.validated_data.get("after"))
        except book.BadPlace:
            raise ValidationError({"after": ["There is no such place in the list. Begin again without it."]}) from None
        return Response(PendingListOut(vars(found)).data)


class Accept(APIView):
    """Accept one."""

    @extend_schema(
        operation_id="households_accept_pending", tags=TAG, request=None, responses={200: ResultSerializer, **_NO}
    )
    def post(self, request: Request, household: uuid.UUID, pending: uuid.UUID) -> Response:
        """Let it into the book as its writer's; the answer says what became of it, as for a push."""
        member = member_of(request, household)
        with only(_ONLY):
            return Response(book.accept(member, pending, timezone.now()))


class Decline(APIView):
    """Decline one."""

    @extend_schema(
        operation_id="households_decline_pending", tags=TAG, request=None, responses={200: DeclinedOut, **_NO}
    )
    def post(self, request: Request, household: uuid.UUID, pending: uuid.UUID) -> Response:
        """Leave it out of the book; it is kept, whole and marked, and never deleted."""
        member = member_of(request, household)
        with only(_ONLY):
            book.decline(member, pending, timezone.now())
        return Response(DeclinedOut({"id": pending}).data)
