"""The cast of the API's tests: two households, and everyone who might ask."""

from dataclasses import dataclass, field
from typing import Any

import pytest
from django.core.cache import cache
from django.test import Client
from django.utils import timezone

from lawn.book.people import membership
from lawn.models import Household, Member, Person

PASSWORD = "four wet spaniels"


@dataclass
class Caller:
    """Someone with a browser; `member` is None for who is signed out."""

    member: Member | None = None
    client: Client = field(default_factory=Client)

    def send(self, method: str, path: str, body: Any = None, **headers: str) -> Any:
        """Send JSON and give Django's response."""
        return self.client.generic(
            method, path, b"" if body is None else as_json(body), content_type="application/json", headers=headers
        )

    def get(self, path: str, **headers: str) -> Any:
        return self.send("GET", path, **headers)

    def post(self, path: str, body: Any = None, **headers: str) -> Any:
        return self.send("POST", path, {} if body is None else body, **headers)


def as_json(body: Any) -> bytes:
    import json

    return body if isinstance(body, bytes) else json.dumps(body).encode()


def person(name: str) -> Person:
    return Person.objects.create_user(email=f"{name}@example.org", password=PASSWORD, name=name.title())


def signed_in(member: Member) -> Caller:
    caller = Caller(member)
    caller.client.force_login(member.person)
    return caller


@dataclass
class Cast:
    """Everyone, by their part in `ours`; the stranger is the keeper of `theirs`."""

    keeper: Caller
    member: Caller
    stranger: Caller
    anonymous: Caller
    ours: Household
    theirs: Household

    def caller(self, part: str) -> Caller:
        found: Caller = getattr(self, part)
        return found


@pytest.fixture
def cast(db: None) -> Cast:
    now = timezone.now()
    keeper = membership.create_household(person("keeper"), "Alder Bend", "us", now)
    member = membership.add_member(keeper.household_id, person("member"), now)
    stranger = membership.create_household(person("stranger"), "Elsewhere", "metric", now)
    return Cast(
        keeper=signed_in(keeper),
        member=signed_in(member),
        stranger=signed_in(stranger),
        anonymous=Caller(),
        ours=keeper.household,
        theirs=stranger.household,
    )


@pytest.fixture(autouse=True)
def fresh_counts() -> None:
    """Forget what earlier tests counted towards a throttle."""
    cache.clear()
