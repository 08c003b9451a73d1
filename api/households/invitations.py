"""Invitations from the keeper's side: make one, see them, take one back."""

import uuid
from io import BytesIO

import segno
from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import status
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error, read
from api.errors import Refusal
from api.households.inside import NO, TAG, member_of, only
from api.households.serializers import InvitationsOut, KeptInvitationOut, NewInvitationIn, NewInvitationOut
from api.households.throttles import InvitesPerPerson
from lawn.book.people import membership

_USED = "Somebody is in by this invitation already. Remove them under Household if they should not be."

_MANY = (
    f"{membership.MOST_OPEN} invitations stand open, the most there may be at once. "
    "Take back those that nobody needs, or wait until they run out."
)


def drawn(link: str) -> str:
    """Draw a link as a QR code: an inline svg element without styles, black on white whatever the theme."""
    out = BytesIO()
    segno.make(link, error="m", micro=False).save(
        out, kind="svg", xmldecl=False, svgns=True, border=4, dark="#000", light="#fff", omitsize=True
    )
    return out.getvalue().decode()


class Invitations(APIView):
    """Invite a person into the household; see whom one invited."""

    throttle_classes = [InvitesPerPerson]

    @extend_schema(
        operation_id="households_invitations",
        tags=TAG,
        responses={200: InvitationsOut, 403: error("Only a keeper sees them"), **NO},
    )
    def get(self, request: Request, household: uuid.UUID) -> Response:
        """Give the keeper all invitations, newest first."""
        member = member_of(request, household)
        with only("Only a keeper of the household sees its invitations."):
            found = membership.invitations(member)
        return Response(InvitationsOut({"invitations": found}).data)

    @extend_schema(
        operation_id="households_invite",
        tags=TAG,
        request=NewInvitationIn,
        responses={
            201: NewInvitationOut,
            403: error("Only a keeper invites"),
            409: error("Too many stand open: too_many_invitations"),
            429: error("Too many new invitations"),
            **NO,
        },
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Make a one-time invitation; only the hash of its token is kept."""
        member = member_of(request, household)
        read(NewInvitationIn, request)
        try:
            with only("Only a keeper of the household invites people."):
                invitation, token = membership.create_invitation(member, timezone.now())
        except membership.TooManyInvitations:
            raise Refusal(status.HTTP_409_CONFLICT, "too_many_invitations", _MANY) from None
        link = request.build_absolute_uri(f"/join/#{token}")  # what follows # is sent to no server
        answer = {"id": invitation.id, "link": link, "svg": drawn(link), "expires_at": invitation.expires_at}
        return Response(NewInvitationOut(answer).data, status=status.HTTP_201_CREATED)


class Withdraw(APIView):
    """Take an invitation back."""

    @extend_schema(
        operation_id="households_withdraw_invitation",
        tags=TAG,
        request=None,
        responses={
            200: KeptInvitationOut,
            403: error("Only a keeper withdraws"),
            409: error("It was used already: invitation_used"),
            **NO,
        },
    )
    def post(self, request: Request, household: uuid.UUID, invitation: uuid.UUID) -> Response:
        """Shut the invitation for good; one withdrawn before stays as it was."""
        member = member_of(request, household)
        try:
            with only("Only a keeper of the household withdraws invitations."):
                found = membership.withdraw(member, invitation, timezone.now())
        except membership.InvitationClosed as closed:
            raise Refusal(status.HTTP_409_CONFLICT, f"invitation_{closed.code}", _USED) from closed
        return Response(KeptInvitationOut(found).data)
