"""Roles, removal and leaving over HTTP."""

import uuid
from collections.abc import Iterator
from contextlib import contextmanager

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import status
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error, read
from api.errors import Refusal
from api.households.inside import NO, TAG, member_of, only
from api.households.serializers import MemberOut, RoleIn
from lawn.book.people import membership

_LAST = "A household keeps one keeper at least. Make someone else keeper first."
_ANSWERS = {200: MemberOut, 403: error("Only a keeper may"), 409: error("The last keeper stays: last_keeper"), **NO}


@contextmanager
def _keeping_one() -> Iterator[None]:
    try:
        yield
    except membership.LastKeeper as last:
        raise Refusal(status.HTTP_409_CONFLICT, "last_keeper", _LAST) from last


class Role(APIView):
    """Make a member keeper, or a keeper member."""

    @extend_schema(
        operation_id="households_set_role",
        tags=TAG,
        request=RoleIn,
        responses={**_ANSWERS, 400: error("No such role")},
    )
    def post(self, request: Request, household: uuid.UUID, member: uuid.UUID) -> Response:
        """Give the role; every phone hears of it."""
        actor = member_of(request, household)
        role = read(RoleIn, request)["role"]
        with only("Only a keeper of the household gives roles."), _keeping_one():
            changed = membership.set_role(actor, member, role, timezone.now())
        return Response(MemberOut(changed).data)


class Remove(APIView):
    """Remove a member, or leave."""

    @extend_schema(operation_id="households_remove_member", tags=TAG, request=None, responses=_ANSWERS)
    def post(self, request: Request, household: uuid.UUID, member: uuid.UUID) -> Response:
        """End the membership: their phones have no access from the next request on; what they wrote stays."""
        actor = member_of(request, household)
        with only("Only a keeper of the household removes others."), _keeping_one():
            former = membership.remove(actor, member, timezone.now())
        return Response(MemberOut(former).data)
