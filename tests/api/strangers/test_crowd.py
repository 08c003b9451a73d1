"""A9: where too many passwords are tried at once, the rest are asked to come again, and nothing is written of them."""

from typing import Any

import pytest

from lawn.models import Person, SignIn
from lawn.settings import PASSWORD_HASHERS
from lawn.web import hashing
from tests.api.conftest import PASSWORD, Caller, Cast
from tests.api.strangers.test_headers import ADMIN

API = "/api/v1"
WORDS = "nine tall hedges"


@pytest.fixture
def crowded(cast: Cast, settings: Any, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Every place is taken for the length of the test."""
    token = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    settings.PASSWORD_HASHERS = PASSWORD_HASHERS
    for name in ("PATIENCE_S", "FIRST_PATIENCE_S"):
        monkeypatch.setattr(hashing, name, 0.01)
    with hashing.gate.place(hashing.AT_ONCE):
        yield token


@pytest.mark.parametrize("door", ["sign-in", "sign-up", "join", "password"])
def test_a9_every_door_answers_later_when_all_places_are_taken(cast: Cast, crowded: str, door: str) -> None:
    new = {"name": "New", "email": "new@example.org", "password": WORDS}
    form = {
        "sign-in": {"email": "nobody@example.org", "password": PASSWORD},
        "sign-up": {**new, "household_name": "Elm End", "units": "us"},
        "join": {**new, "token": crowded.split("#")[-1].rsplit("/", 1)[-1]},
        "password": {"password": PASSWORD, "new_password": WORDS},
    }[door]
    caller = Caller() if door != "password" else cast.keeper
    if door == "password":
        Person.objects.filter(email="keeper@example.org").update(
            password="argon2$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$aGFzaA"
        )
        caller.client.force_login(Person.objects.get(email="keeper@example.org"))
    before = (Person.objects.count(), SignIn.objects.count())
    answer = caller.post(f"{API}/accounts/{door}", form)
    assert (answer.status_code, answer.json()["code"]) == (503, "crowded")
    assert answer["Retry-After"] == "5"
    assert (Person.objects.count(), SignIn.objects.count()) == before


def test_a9_the_operators_form_says_so_too(cast: Cast, crowded: str) -> None:
    answer = Caller().client.post(f"{ADMIN}login/", {"username": "nobody@example.org", "password": PASSWORD})
    assert answer.status_code == 200
    assert b"Too many tries" in answer.content
