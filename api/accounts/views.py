"""Accounts over HTTP: thin, each one call into the book or Django's own sign-in."""

from django.conf import settings
from django.contrib.auth import logout, update_session_auth_hash
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import serializers, status
from rest_framework.permissions import AllowAny
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api import says
from api.accounts import doors, known, throttles
from api.accounts.reading import error, me_of, read, signed_in
from api.accounts.serializers import MeOut, PasswordIn, SignInIn, SignInsOut, SignUpIn
from api.errors import Refusal
from lawn.book.people import access, devices, membership
from lawn.models import Person
from lawn.web import sessions, sign_in_audit

_TAG = ["accounts"]
_WRONG = "That email and password do not belong together. Check both and try again."
_BY_INVITATION = "Accounts come by invitation here. Ask a keeper of a household, or whoever runs this server."


class SignUp(APIView):
    """Become a person with a household of one's own."""

    permission_classes = [AllowAny]
    throttle_classes = [throttles.SignUpPerAddress, throttles.SignInPerEmail]

    @extend_schema(
        operation_id="accounts_sign_up",
        tags=_TAG,
        request=SignUpIn,
        responses={
            201: MeOut,
            400: error("A field is wrong, or no account can be made of it"),
            403: error("Accounts come by invitation here"),
            429: error("Too many tries"),
        },
    )
    def post(self, request: Request) -> Response:
        """Create the person and their household, and sign them in.

        Whoever has an account and knows its password is signed in, with a household of their own if they have none.
        """
        if settings.SIGN_UP != "open":
            raise Refusal(status.HTTP_403_FORBIDDEN, "by_invitation", _BY_INVITATION)
        form = read(SignUpIn, request)

        def settle(person: Person) -> None:
            membership.create_household(person, form["household_name"], form["units"], timezone.now())

        person, new = doors.new_or_known(request, form, settle)
        if not new and not access.memberships(person).exists():
            settle(person)
        answer = Response(me_of(person), status=status.HTTP_201_CREATED)
        return known.remember(request._request, answer, person.email)


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
        """Answer an unknown email, a wrong password and a closed account alike, after equal work."""
        form = read(SignInIn, request)
        person = doors.try_password(request, form["email"], form["password"])
        if person is None:
            raise Refusal(status.HTTP_400_BAD_REQUEST, "wrong_sign_in", _WRONG)
        return known.remember(request._request, Response(me_of(person)), person.email)


class SignOut(APIView):
    """Sign out on this device."""

    permission_classes = [AllowAny]

    @extend_schema(operation_id="accounts_sign_out", tags=_TAG, request=None, responses={204: None})
    def post(self, request: Request) -> Response:
        """End the session; harmless when there is none."""
        logout(request._request)
        return Response(status=status.HTTP_204_NO_CONTENT)


class SignOutEverywhere(APIView):
    """Sign out on every device."""

    @extend_schema(
        operation_id="accounts_sign_out_everywhere",
        tags=_TAG,
        request=None,
        responses={204: None, 401: error("Signed out")},
    )
    def post(self, request: Request) -> Response:
        """End every session of the person, this one too; what waits on their phones goes after the next sign-in."""
        sessions.end_all(signed_in(request).id)
        logout(request._request)
        return Response(status=status.HTTP_204_NO_CONTENT)


class Password(APIView):
    """Change the password."""

    throttle_classes = [throttles.PasswordPerPerson]

    @extend_schema(
        operation_id="accounts_password",
        tags=_TAG,
        request=PasswordIn,
        responses={
            200: MeOut,
            400: error("A field is wrong"),
            401: error("Signed out"),
            429: error("Too many tries"),
        },
    )
    def post(self, request: Request) -> Response:
        """Set the new password; every other session of the person ends, this one goes on."""
        person, form = signed_in(request), read(PasswordIn, request)
        if not person.check_password(form["password"]):
            raise serializers.ValidationError({"password": ["This is not your password: write the one you have now."]})
        try:
            validate_password(form["new_password"], person)
        except ValidationError as wrong:
            raise serializers.ValidationError({"new_password": says.of_password(wrong)}) from wrong
        person.set_password(form["new_password"])
        person.save(update_fields=["password"])
        before = sessions.of_request(request._request)
        update_session_auth_hash(request._request, person)
        devices.retie(person, before, sessions.of_request(request._request))
        sessions.end_all(person.id, but=sessions.of_request(request._request))
        return Response(me_of(person))


class Me(APIView):
    """Who is signed in."""

    @extend_schema(operation_id="accounts_me", tags=_TAG, responses={200: MeOut, 401: error("Signed out")})
    def get(self, request: Request) -> Response:
        """Give the person and their households."""
        person = signed_in(request)
        return known.remember(request._request, Response(me_of(person)), person.email)


class SignIns(APIView):
    """Who tried to sign in as this person."""

    @extend_schema(operation_id="accounts_sign_ins", tags=_TAG, responses={200: SignInsOut, 401: error("Signed out")})
    def get(self, request: Request) -> Response:
        """Give the newest 50 tries of the last 180 days; of each its network and its kind of machine, no more."""
        return Response(SignInsOut({"sign_ins": sign_in_audit.of_person(signed_in(request))}).data)
