"""A household with two members and a phone each, over Django's own test client."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from django.test import Client

from lawn.book.people import devices
from lawn.models import Household, Member
from tests.factories import NOW, KeeperFactory, MemberFactory
from tests.sync.phone import Phone


def signed_in(member: Member) -> Client:
    """A browser in which the member is signed in."""
    client = Client()
    client.force_login(member.person)
    return client


def poster(member: Member, client: Client | None = None) -> Callable[[dict[str, Any]], dict[str, Any]]:
    """A function that posts to the member's household and insists on a 200."""
    browser = client or signed_in(member)
    path = f"/api/v1/households/{member.household_id}/sync"

    def post(body: dict[str, Any]) -> dict[str, Any]:
        response = browser.post(path, body, content_type="application/json")
        assert response.status_code == 200, response.content
        answer: dict[str, Any] = response.json()
        return answer

    return post


def phone_of(member: Member) -> Phone:
    """A new phone of the member."""
    return Phone(poster(member), devices.register(member, "Phone", NOW).id)


@dataclass
class House:
    """One household, its keeper's phone and another member's."""

    keeper: Member
    member: Member
    mine: Phone
    theirs: Phone

    @property
    def household(self) -> Household:
        """The household's row as it is now."""
        return Household.objects.get(id=self.keeper.household_id)

    @property
    def path(self) -> str:
        """The address of its sync."""
        return f"/api/v1/households/{self.keeper.household_id}/sync"


@pytest.fixture
def house(db: None) -> House:
    keeper = KeeperFactory.create()
    member = MemberFactory.create(household_id=keeper.household_id)
    return House(keeper, member, phone_of(keeper), phone_of(member))
