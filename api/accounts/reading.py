"""What every view of the API does: read its form, know its person, describe its errors."""

from typing import Any

from drf_spectacular.utils import OpenApiResponse
from rest_framework import serializers
from rest_framework.request import Request

from api.accounts.serializers import ErrorOut, MeOut
from lawn.book.people import access
from lawn.models import Person


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
