"""The operator's admin opens on every page, shows what was parked, and changes no record of a book."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from django.contrib import admin
from django.core.exceptions import ImproperlyConfigured
from django.test import Client
from rest_framework.throttling import SimpleRateThrottle

from lawn.book.people import membership
from lawn.book.sync.author import Pen
from lawn.models import Household, Member, Person, SignIn
from lawn.tooling.build import ROOT
from lawn.web import environment as read
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


def test_the_admin_is_off_unless_a_path_is_set_for_it(tmp_path: Path) -> None:
    """In a process of its own, with the real settings."""
    code = (
        "import django; django.setup();"
        "from django.test import Client;"
        "ask = Client(headers={'host': 'localhost'}).get;"
        "print([ask(path).status_code for path in ('/admin/', '/admin/blue-kettle-41/')])"
    )
    told = {}
    for value in ("off", "/admin/blue-kettle-41/"):
        env = {**os.environ, "EVENFALL_DATA": str(tmp_path), "EVENFALL_ADMIN": value}
        env = {**env, "DJANGO_SETTINGS_MODULE": "lawn.settings", "DATABASE_URL": f"sqlite:///{tmp_path / 'x.sqlite3'}"}
        command = [sys.executable, "-c", code]
        done = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, check=True)
        told[value] = done.stdout.strip()
    assert told == {"off": "[404, 404]", "/admin/blue-kettle-41/": "[404, 302]"}


@pytest.mark.parametrize("path", ["on", "/admin/", "/admin/short/", "/else/blue-kettle-41/", "/admin/a b c d e f g/"])
def test_a_path_that_is_easily_guessed_is_refused_at_start(monkeypatch: pytest.MonkeyPatch, path: str) -> None:
    monkeypatch.setenv("X", path)
    with pytest.raises(ImproperlyConfigured, match=r"^X is '.*'\. Allowed: off, or /admin/"):
        read.hidden_path("X")


LOGIN = "/admin/of-the-tests/login/"


def test_the_operators_sign_in_is_written_down_and_counted_like_every_other(
    operator: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    rates = {**dict.fromkeys(SimpleRateThrottle.THROTTLE_RATES), "sign_in_email": "2/hour"}
    monkeypatch.setattr(SimpleRateThrottle, "THROTTLE_RATES", rates)
    form = {"username": "operator@example.org", "password": "a wrong one"}
    right = {**form, "password": "four wet spaniels"}
    answers = [Client().post(LOGIN, form).status_code, Client().post(LOGIN, right).status_code]
    late = Client().post(LOGIN, right)
    assert [*answers, late.status_code] == [200, 302, 200]
    assert b"Too many tries" in late.content
    assert list(SignIn.objects.order_by("at").values_list("ok", flat=True)) == [False, True]
    assert operator.get("/admin/of-the-tests/lawn/signin/").status_code == 200
