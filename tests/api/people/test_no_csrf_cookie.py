"""The cookie against forged forms is the operator's pages' alone; the app has none (S21)."""

from typing import Any

from tests.api.conftest import PASSWORD, Caller, Cast
from tests.api.strangers.test_headers import ADMIN

API = "/api/v1"


def test_no_answer_of_the_app_sets_a_csrftoken(cast: Cast) -> None:
    caller = Caller()
    me: dict[str, Any] = {"email": "keeper@example.org", "password": PASSWORD}
    assert caller.post(f"{API}/accounts/sign-in", me).status_code == 200
    caller.post(f"{API}/accounts/password", {"password": PASSWORD, "new_password": "nine tall hedges"})
    caller.post(f"{API}/accounts/sign-out")
    new = {"name": "New", "email": "new@example.org", "password": "nine tall hedges"}
    assert caller.post(f"{API}/accounts/sign-up", {**new, "household_name": "Elm", "units": "us"}).status_code == 201
    caller.client.get("/")
    assert "csrftoken" not in caller.client.cookies


def test_the_operators_form_still_needs_its_token(cast: Cast) -> None:
    from django.test import Client

    client = Client(enforce_csrf_checks=True)
    form = {"username": "keeper@example.org", "password": PASSWORD}
    assert client.post(f"{ADMIN}login/", form).status_code == 403
    client.get(f"{ADMIN}login/")
    token = client.cookies["csrftoken"].value
    assert client.post(f"{ADMIN}login/", {**form, "csrfmiddlewaretoken": token}).status_code == 200
