"""What accounts take in and give out."""

import re
from typing import Any

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from rest_framework import serializers

from api import says
from lawn.models import Person

UNITS = ("us", "metric")
_TOKEN = re.compile("[A-Za-z0-9_-]+")  # RFC 4648, section 5


def _name(**options: Any) -> says.Text:
    return says.Text("Your name", "write 1 to 60 characters", max_length=60, **options)


def _password(
    allowed: str = "write at least 10 characters, such as a few words of your own", **options: Any
) -> says.Text:
    return says.Text("The password", allowed, max_length=256, trim_whitespace=False, write_only=True, **options)


def _check_password(name: str, email: str, password: str) -> None:
    try:
        validate_password(password, Person(name=name, email=email))
    except ValidationError as error:
        raise serializers.ValidationError({"password": says.of_password(error)}) from error


class SignUpIn(serializers.Serializer[Any]):
    """A new person and the household they start."""

    name = _name()
    email = says.Email(max_length=254)
    password = _password()
    household_name = says.Text("The household's name", "write 1 to 60 characters", max_length=60)
    units = says.Choice("Units", UNITS)

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        """Hold the password against the validators, knowing the person's name and email."""
        _check_password(attrs["name"], attrs["email"], attrs["password"])
        return attrs


class SignInIn(serializers.Serializer[Any]):
    """An email and a password, of any shape: what is wrong with them is never told apart."""

    email = says.Text("Your e-mail address", "write the one you signed up with", max_length=254)
    password = _password("write the one you signed up with")


class Token(says.Text):
    """An invitation's token, or its whole link, with whatever a person's pasting put around it."""

    def __init__(self, **options: Any) -> None:
        super().__init__("The invitation", "open its link or ask for a new one", max_length=200, **options)

    def to_internal_value(self, data: Any) -> str:
        """Return the token alone: the last run of the characters that tokens are made of."""
        text = super().to_internal_value(data)
        found = _TOKEN.findall(text)
        return found[-1] if found else text


class TokenIn(serializers.Serializer[Any]):
    """An invitation to be looked at."""

    token = Token()


class JoinIn(serializers.Serializer[Any]):
    """An invitation's token and, for someone who is not signed in, who they are."""

    token = Token()
    name = _name(required=False)
    email = says.Email(max_length=254, required=False)
    password = _password(required=False)
    units = says.Choice("Units", UNITS, required=False)


class NewcomerIn(serializers.Serializer[Any]):
    """The part of a joining that a person who is signed out must fill in."""

    name = _name()
    email = says.Email(max_length=254)
    password = _password()

    def validate(self, attrs: dict[str, Any]) -> dict[str, Any]:
        """Hold the password against the validators, knowing the person's name and email."""
        _check_password(attrs["name"], attrs["email"], attrs["password"])
        return attrs


class PasswordIn(serializers.Serializer[Any]):
    """The password that was, and the one to be; the view holds the second against the validators."""

    password = _password("write the one you have now")
    new_password = _password()


class PersonOut(serializers.Serializer[Any]):
    """A person as they see themselves."""

    id = serializers.UUIDField()
    name = serializers.CharField()
    email = serializers.EmailField()


class MyHouseholdOut(serializers.Serializer[Any]):
    """A household the person is in, and their part in it."""

    id = serializers.UUIDField(source="household_id")
    name = serializers.CharField(source="household.name")
    role = serializers.ChoiceField(choices=("keeper", "member"))
    member_id = serializers.UUIDField(source="id")


class MeOut(serializers.Serializer[Any]):
    """The signed-in person and their households."""

    person = PersonOut()
    households = MyHouseholdOut(many=True)


class SignInOut(serializers.Serializer[Any]):
    """One try to sign in, as its person sees it."""

    at = serializers.DateTimeField(source="sign_in.at")
    ok = serializers.BooleanField(source="sign_in.ok")
    address_part = serializers.CharField(source="sign_in.address_part", help_text="Its network; blank where unknown")
    agent_part = serializers.CharField(source="sign_in.agent_part", help_text="What the browser said of its machine")
    device = serializers.CharField(help_text="The phone that rides on this sign-in; blank where none does")


class SignInsOut(serializers.Serializer[Any]):
    """The newest 50 tries to sign in as this person, newest first."""

    sign_ins = SignInOut(many=True)


class InvitationOut(serializers.Serializer[Any]):
    """What an invitation tells whoever holds its token."""

    household_name = serializers.CharField(source="household.name")
    expires_at = serializers.DateTimeField()


class ErrorOut(serializers.Serializer[Any]):
    """The one shape of every error."""

    code = serializers.CharField(help_text="A word that programs compare")
    message = serializers.CharField(help_text="A sentence for a person")
    fields = serializers.DictField(  # type: ignore[assignment]  # the metaclass takes it off the class again
        child=serializers.CharField(), required=False, help_text="A sentence for each field that is wrong"
    )
