"""What every route inside a household begins with: who asks, and may they."""

import uuid
from collections.abc import Iterator
from contextlib import contextmanager

from rest_framework.exceptions import NotFound, PermissionDenied
from rest_framework.request import Request

from api.accounts.reading import error, signed_in
from lawn.book.people import access
from lawn.models import Member

TAG = ["households"]
NO = {
    401: error("Signed out"),
    404: error("No such household, or not a member of it"),
}


def member_of(request: Request, household: uuid.UUID) -> Member:
    """Find the person's place in a household; another's household looks like no household (P10)."""
    try:
        return access.member_of(signed_in(request), household)
    except access.NoAccess as no:
        raise NotFound from no


@contextmanager
def only(message: str) -> Iterator[None]:
    """Answer what the book does not find by 404, and what it does not allow by 403 with a sentence."""
    try:
        yield
    except access.NoAccess as no:
        raise NotFound from no
    except PermissionError as no:
        raise PermissionDenied(message) from no
