"""Accounts over HTTP: thin, each one call into the book or Django's own sign-in."""

from typing import Any

from django.contrib.auth import authenticate, login, logout
from django.db import IntegrityError, transaction
from django.utils import timezone
from drf_spectacular.utils import OpenApiResponse, extend_schema
from rest_framework import serializers, status
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts import throttles
from api.accounts.serializers import ErrorOut, InvitationOut, JoinIn, MeOut, NewcomerIn, SignInIn, SignUpIn
from api.errors import Refusal
from lawn.book import access, membership
from lawn.models import Invitation, Person

_TAG = ["accounts"]
_WRONG = "That email and password do not belong together. Check both and try again."
_TAKEN = "There is an account with this email already. Sign in with it instead."
_SHUT = {
    "unknown": "There is no such invitation. Check the link, or ask for a new one.",
    "used": "This invitation was used already: each lets one person in. Ask for a new one.",
    "expired": "This invitation has run out: each lasts 7 days. Ask for a new one.",
}


def error(description: str) -> OpenApiResponse:
    """Describe an error answer in the schema."""
    return OpenApiResponse(ErrorOut, description)


def me_of(person: Person) -> dict[str, Any]:
    """Gather what the app needs to know about the signed-in person."""
    return MeOut({"person": person, "households": access.memberships(person)}).data


def signed_in(request: Request) -> Person:
    """Give the person behind a request that the permission class let through."""
    assert isinstance(request.user, Person)
    return request.user


def read(form: type[serializers.Serializer[Any]], request: Request) -> dict[str, Any]:
    """Validate the request's body; an error becomes the API's one shape."""
    filled = form(data=request.data)
    filled.is_valid(raise_exception=True)
    return dict(filled.validated_data)


def shut(closed: membership.InvitationClosed) -> Refusal:
    """Turn a closed invitation into an answer that says why."""
    return Refusal(status.HTTP_404_NOT_FOUND, f"invitation_{closed.code}", _SHUT[closed.code])


def open_invitation(token: str) -> Invitation:
    """Find an invitation that can be used now, or answer why it cannot."""
    try:
        return membership.find_invitation(token, timezone.now())
    except membership.InvitationClosed as closed:
        raise shut(closed) from closed


def new_person(name: str, email: str, password: str) -> Person:
    """Create a person; a taken email is an error beside the field."""
    try:
        with transaction.atomic():
            return Person.objects.create_user(email=email, password=password, name=name)
    except IntegrityError as taken:
        raise serializers.ValidationError({"email": [_TAKEN]}) from taken


class SignUp(APIView):
    """Become a person with a household of one's own."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.SignUpPerAddress]

    @extend_schema(
        operation_id="accounts_sign_up",
        tags=_TAG,
        request=SignUpIn,
        responses={201: MeOut, 400: error("A field is wrong"), 429: error("Too many tries")},
    )
    def post(self, request: Request) -> Response:
        """Create the person and their household, and sign them in."""
        form = read(SignUpIn, request)
        with transaction.atomic():
            person = new_person(form["name"], form["email"], form["password"])
            membership.create_household(person, form["household_name"], form["units"], timezone.now())
        login(request._request, person)
        return Response(me_of(person), status=status.HTTP_201_CREATED)


class SignIn(APIView):
    """Sign in with an email and a password."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.SignInPerAddress, throttles.SignInPerEmail]

    @extend_schema(
        operation_id="accounts_sign_in",
        tags=_TAG,
        request=SignInIn,
        responses={200: MeOut, 400: error("Email and password do not match"), 429: error("Too many tries")},
    )
    def post(self, request: Request) -> Response:
        """Answer an unknown email, a wrong password and a closed account alike, after equal work.

        Django's backend hashes the password even when it knows no such email, so that the time
        tells nothing either.
        """
        form = read(SignInIn, request)
        person = authenticate(request._request, username=form["email"], password=form["password"])
        if not isinstance(person, Person):
            raise Refusal(status.HTTP_400_BAD_REQUEST, "wrong_sign_in", _WRONG)
        login(request._request, person)
        return Response(me_of(person))


class SignOut(APIView):
    """Sign out on this device."""

    permission_classes = [AllowAny]

    @extend_schema(operation_id="accounts_sign_out", tags=_TAG, request=None, responses={204: None})
    def post(self, request: Request) -> Response:
        """End the session; harmless when there is none."""
        logout(request._request)
        return Response(status=status.HTTP_204_NO_CONTENT)


class Me(APIView):
    """Who is signed in."""

    @extend_schema(operation_id="accounts_me", tags=_TAG, responses={200: MeOut, 401: error("Signed out")})
    def get(self, request: Request) -> Response:
        """Give the person and their households."""
        return Response(me_of(signed_in(request)))


class SeeInvitation(APIView):
    """What an invitation is for."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.InvitationPerAddress]

    @extend_schema(
        operation_id="invitations_see",
        tags=["invitations"],
        responses={200: InvitationOut, 404: error("Unknown, used or expired"), 429: error("Too many tries")},
    )
    def get(self, request: Request, token: str) -> Response:
        """Give the household's name to whoever holds the token, while it can still be used."""
        return Response(InvitationOut(open_invitation(token)).data)


class Join(APIView):
    """Join a household by an invitation."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.InvitationPerAddress]

    @extend_schema(
        operation_id="accounts_join",
        tags=_TAG,
        request=JoinIn,
        responses={
            200: MeOut,
            400: error("A field is wrong"),
            404: error("Unknown, used or expired"),
            429: error("Too many tries"),
        },
    )
    def post(self, request: Request) -> Response:
        """Let the signed-in person in, or make an account for a newcomer first; all or nothing."""
        form = read(JoinIn, request)
        open_invitation(form["token"])  # before anything is said about an email
        with transaction.atomic():
            person = self._signed_in_or_new(request)
            try:
                membership.redeem(form["token"], person, timezone.now(), form.get("units", "us"))
            except membership.InvitationClosed as closed:
                raise shut(closed) from closed
        if not request.user.is_authenticated:
            login(request._request, person)
        return Response(me_of(person))

    def _signed_in_or_new(self, request: Request) -> Person:
        if request.user.is_authenticated:
            return signed_in(request)
        form = read(NewcomerIn, request)
        return new_person(form["name"], form["email"], form["password"])
