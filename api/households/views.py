"""A household's invitations and devices over HTTP."""

import uuid
from io import BytesIO

import segno
from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import status
from rest_framework.exceptions import NotFound
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.views import error, read, signed_in
from api.households.serializers import DeviceIn, DeviceOut, NewInvitationIn, NewInvitationOut
from lawn.book import access, membership
from lawn.models import Member

_TAG = ["households"]
_NO = {
    401: error("Signed out"),
    404: error("No such household, or not a member of it"),
}


def drawn(link: str) -> str:
    """Draw a link as a QR code: an inline svg element without styles, black on white whatever the theme."""
    out = BytesIO()
    segno.make(link, error="m", micro=False).save(
        out, kind="svg", xmldecl=False, svgns=True, border=4, dark="#000", light="#fff", omitsize=True
    )
    return out.getvalue().decode()


def member_of(request: Request, household: uuid.UUID) -> Member:
    """Find the person's place in a household; another's household looks like no household (P10)."""
    try:
        return access.member_of(signed_in(request), household)
    except access.NoAccess as no:
        raise NotFound from no


class Invitations(APIView):
    """Invite a person into the household."""

    @extend_schema(
        operation_id="households_invite",
        tags=_TAG,
        request=NewInvitationIn,
        responses={201: NewInvitationOut, 403: error("Only the keeper invites"), **_NO},
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Make a one-time invitation; only the hash of its token is kept."""
        member = member_of(request, household)
        read(NewInvitationIn, request)
        if not member.is_keeper:
            self.permission_denied(request, message="Only the household's keeper invites people.")
        invitation, token = membership.create_invitation(member, timezone.now())
        link = request.build_absolute_uri(f"/join/{token}")
        answer = {"link": link, "svg": drawn(link), "expires_at": invitation.expires_at}
        return Response(NewInvitationOut(answer).data, status=status.HTTP_201_CREATED)


class Devices(APIView):
    """Make a phone known to the household."""

    @extend_schema(
        operation_id="households_add_device",
        tags=_TAG,
        request=DeviceIn,
        responses={201: DeviceOut, 400: error("A field is wrong"), **_NO},
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Issue the id under which this phone pushes (sync.md, S5)."""
        member = member_of(request, household)
        form = read(DeviceIn, request)
        device = membership.add_device(member, form["name"], timezone.now())
        return Response(DeviceOut({"device": device.id}).data, status=status.HTTP_201_CREATED)
