"""The operator's admin opens on every page, shows what was parked, and changes no record of a book."""

import pytest
from django.contrib import admin
from django.test import Client

from lawn.book import membership
from lawn.book.author import Pen
from lawn.models import Household, Member, Person
from tests.factories import NOW, DeviceFactory, KeeperFactory

ZONE = "0190aaaa-0000-7000-8000-000000000001"


@pytest.fixture
def operator(db: None) -> Client:
    client = Client()
    client.force_login(Person.objects.create_superuser("operator@example.org", "four wet spaniels", "Operator"))
    return client


@pytest.fixture
def keeper(db: None) -> Member:
    keeper: Member = KeeperFactory.create(name="Alder Bend")
    pen = Pen(keeper, DeviceFactory.create(member=keeper, name="Garage phone"))
    bad = {"t": "zone", "id": ZONE, "set": {"ground": {"area_m2": -4, "method": "shapes"}}}
    good = {"t": "zone", "id": ZONE, "set": {"name": {"name": "Verge"}}, "base": {}}
    assert [result["s"] for result in pen.write([[bad], [good], [good]], NOW)] == ["parked", "applied", "merged"]
    membership.create_invitation(keeper, NOW)
    return keeper


def test_every_list_and_the_add_page_of_a_person_open(operator: Client, keeper: Member) -> None:
    for model in admin.site._registry:
        address = f"/admin/of-the-tests/{model._meta.app_label}/{model._meta.model_name}/"
        assert operator.get(address).status_code == 200, address
    assert operator.get("/admin/of-the-tests/lawn/person/add/").status_code == 200
    assert operator.get(f"/admin/of-the-tests/lawn/person/{keeper.person.id}/change/").status_code == 200


def test_a_household_shows_members_phones_parked_entries_and_conflicts(operator: Client, keeper: Member) -> None:
    page = operator.get(f"/admin/of-the-tests/lawn/household/{keeper.household_id}/change/").content.decode()
    for shown in ("Alder Bend", "Garage phone", "Area is -4", "&#x27;name&#x27;: &#x27;Verge&#x27;", str(keeper.id)):
        assert shown in page, shown


def test_the_admin_changes_no_household(operator: Client, keeper: Member) -> None:
    address = f"/admin/of-the-tests/lawn/household/{keeper.household_id}/change/"
    assert operator.post(address, {"name": "Other"}).status_code == 403
    assert operator.get("/admin/of-the-tests/lawn/household/add/").status_code == 403
    assert Household.objects.get().name == "Alder Bend"


def test_a_keeper_is_no_operator(keeper: Member) -> None:
    client = Client()
    client.force_login(keeper.person)
    assert client.get("/admin/of-the-tests/lawn/household/").status_code == 302
