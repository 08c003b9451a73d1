"""Invitations from the side of who holds one: look at it, and join by it."""

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import status
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts import doors, known, throttles
from api.accounts.reading import error, me_of, read, signed_in
from api.accounts.serializers import InvitationOut, JoinIn, MeOut, NewcomerIn, TokenIn
from api.errors import Refusal
from lawn.book.people import membership
from lawn.models import Invitation, Person

_SHUT = {
    "unknown": "There is no such invitation. Check the link, or ask for a new one.",
    "used": "This invitation was used already: each lets one person in. Ask for a new one.",
    "withdrawn": "This invitation was taken back. Ask for a new one.",
    "expired": "This invitation has run out: each lasts 7 days. Ask for a new one.",
}


def shut(closed: membership.InvitationClosed) -> Refusal:
    """Turn a closed invitation into an answer that says why."""
    return Refusal(status.HTTP_404_NOT_FOUND, f"invitation_{closed.code}", _SHUT[closed.code])


def open_invitation(token: str) -> Invitation:
    """Find an invitation that can be used now, or answer why it cannot."""
    try:
        return membership.find_invitation(token, timezone.now())
    except membership.InvitationClosed as closed:
        raise shut(closed) from closed


class SeeInvitation(APIView):
    """What an invitation is for."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.InvitationPerAddress]

    @extend_schema(
        operation_id="invitations_see",
        tags=["invitations"],
        request=TokenIn,
        responses={
            200: InvitationOut,
            400: error("No token"),
            404: error("Unknown, used, withdrawn or expired"),
            429: error("Too many tries"),
        },
    )
    def post(self, request: Request) -> Response:
        """Give the household's name to whoever holds the token, while it can still be used.

        A body carries it: addresses stand in logs and histories.
        """
        return Response(InvitationOut(open_invitation(read(TokenIn, request)["token"])).data)


class Join(APIView):
    """Join a household by an invitation."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.InvitationPerAddress, throttles.SignInPerEmail]

    @extend_schema(
        operation_id="accounts_join",
        tags=["accounts"],
        request=JoinIn,
        responses={
            200: MeOut,
            400: error("A field is wrong, or no account can be made of it"),
            404: error("Unknown, used, withdrawn or expired"),
            429: error("Too many tries"),
        },
    )
    def post(self, request: Request) -> Response:
        """Let in the signed-in person, one who knows their password, or a newcomer with a new account."""
        form = read(JoinIn, request)
        open_invitation(form["token"])  # before anything is said about an email

        def enter(person: Person) -> None:
            membership.redeem(form["token"], person, timezone.now(), form.get("units", "us"))

        try:
            person = self._entered(request, enter)
        except membership.InvitationClosed as closed:
            raise shut(closed) from closed
        return known.remember(request._request, Response(me_of(person)), person.email)

    def _entered(self, request: Request, enter: doors.Make) -> Person:
        """Let the person in; a newcomer and their place in the household are made together or not at all."""
        if request.user.is_authenticated:
            person, new = signed_in(request), False
        else:
            person, new = doors.new_or_known(request, read(NewcomerIn, request), enter)
        if not new:
            enter(person)
        return person
