"""Guessing is held back, by address and by email; the rates are settings."""

from collections.abc import Callable
from typing import Any

import pytest
from rest_framework.throttling import SimpleRateThrottle

from lawn.models import SignIn
from tests.api.conftest import PASSWORD, Caller, Cast

SIGN_IN = "/api/v1/accounts/sign-in"
Rates = Callable[..., None]


@pytest.fixture
def rates(monkeypatch: pytest.MonkeyPatch) -> Rates:
    """Set throttle rates; whatever is not named stays off."""

    def set_rates(**given: str) -> None:
        all_rates = {**dict.fromkeys(SimpleRateThrottle.THROTTLE_RATES), **given}
        monkeypatch.setattr(SimpleRateThrottle, "THROTTLE_RATES", all_rates)

    return set_rates


def attempt(email: str, address: str = "192.0.2.7", password: str = "a wrong password") -> int:
    caller = Caller()
    caller.client.defaults["REMOTE_ADDR"] = address
    return int(caller.post(SIGN_IN, {"email": email, "password": password}).status_code)


def test_one_address_is_held_back_whatever_emails_it_tries(cast: Cast, rates: Rates) -> None:
    rates(sign_in_address="3/hour")
    assert [attempt(f"{name}@example.org") for name in "abcd"] == [400, 400, 400, 429]
    assert attempt("keeper@example.org", address="192.0.2.8", password=PASSWORD) == 200


def test_one_email_is_held_back_from_whatever_addresses(cast: Cast, rates: Rates) -> None:
    rates(sign_in_email="2/hour")
    tried = [attempt("keeper@example.org", address=f"192.0.2.{n}") for n in range(3)]
    assert tried == [400, 400, 429]
    assert attempt("member@example.org", password=PASSWORD) == 200


def test_an_unknown_email_is_held_back_just_as_a_known_one(cast: Cast, rates: Rates) -> None:
    rates(sign_in_email="2/hour")
    known = [attempt("keeper@example.org") for _ in range(3)]
    unknown = [attempt("nobody@example.org") for _ in range(3)]
    assert known == unknown


def test_the_email_is_counted_whatever_its_case_and_blanks(cast: Cast, rates: Rates) -> None:
    rates(sign_in_email="2/hour")
    assert [attempt(email) for email in ("keeper@example.org", " KEEPER@example.org", "Keeper@example.org ")][2] == 429


def test_a_forged_forwarding_header_does_not_make_a_new_address(cast: Cast, rates: Rates) -> None:
    rates(sign_in_address="1/hour")
    answers = []
    for forged in ("203.0.113.1", "203.0.113.2"):
        caller = Caller()
        form = {"email": "keeper@example.org", "password": "wrong one"}
        answers.append(caller.post(SIGN_IN, form, **{"X-Forwarded-For": forged}).status_code)
    assert answers == [400, 429]


@pytest.mark.parametrize("absent", [None, ""])
def test_requests_without_an_address_are_counted_together(cast: Cast, rates: Rates, absent: Any) -> None:
    """Behind a Unix socket a server is told no address: ASGI leaves it out, WSGI may give an empty one."""
    rates(sign_in_address="2/hour")
    answers = []
    for _ in range(3):
        caller = Caller()
        caller.client.defaults["REMOTE_ADDR"] = absent
        answers.append(caller.post(SIGN_IN, {"email": "keeper@example.org", "password": "wrong one"}).status_code)
    assert answers == [400, 400, 429]
    assert attempt("keeper@example.org", password=PASSWORD) == 200
    assert list(SignIn.objects.filter(ok=False).values_list("address_part", flat=True)) == ["", ""]


def test_a_held_back_request_says_when_to_try_again(cast: Cast, rates: Rates) -> None:
    rates(sign_in_address="1/hour")
    attempt("keeper@example.org", address="127.0.0.1")
    late = Caller().post(SIGN_IN, {"email": "keeper@example.org", "password": PASSWORD})
    assert late.status_code == 429
    assert 0 < int(late["Retry-After"]) <= 3600
    assert {"code", "message"} <= set(late.json())


def test_signing_up_and_looking_at_invitations_are_held_back_too(cast: Cast, rates: Rates) -> None:
    rates(sign_up="1/hour", invitation="1/hour")
    assert [Caller().post("/api/v1/accounts/sign-up").status_code for _ in range(2)] == [400, 429]
    assert [Caller().post("/api/v1/accounts/invitation", {"token": "made-up"}).status_code for _ in range(2)] == [
        404,
        429,
    ]


# --- a stranger's tries and the owner --------------------------------------------------------------


def sign_in(caller: Caller, password: str, address: str = "192.0.2.7") -> int:
    caller.client.defaults["REMOTE_ADDR"] = address
    return int(caller.post(SIGN_IN, {"email": "keeper@example.org", "password": password}).status_code)


def test_strangers_tries_never_lock_the_owner_out_on_a_phone_they_signed_in_on_before(cast: Cast, rates: Rates) -> None:
    phone = Caller()
    assert sign_in(phone, PASSWORD) == 200
    phone.post("/api/v1/accounts/sign-out")
    rates(sign_in_email="2/hour", sign_in_address="3/hour")
    assert [attempt("keeper@example.org") for _ in range(4)] == [400, 400, 429, 429]
    assert sign_in(Caller(), PASSWORD, "192.0.2.99") == 429, "a phone nobody knows waits with the strangers"
    assert sign_in(phone, PASSWORD) == 200


def test_a_known_phone_guesses_no_more_often_than_anybody(cast: Cast, rates: Rates) -> None:
    phone = Caller()
    sign_in(phone, PASSWORD)
    rates(sign_in_email="2/hour")
    assert [sign_in(phone, "a wrong one") for _ in range(3)] == [400, 400, 429]


@pytest.mark.parametrize("forged", ["", "x", "eyJhIjoiYiJ9:1abc:def", "W10:1", "\x00"])
def test_a_mark_that_is_not_ours_makes_no_phone_known(cast: Cast, rates: Rates, forged: str) -> None:
    rates(sign_in_email="1/hour")
    attempt("keeper@example.org")
    phone = Caller()
    phone.client.cookies["evenfall_known"] = forged
    assert sign_in(phone, PASSWORD) == 429


def test_a_phone_is_known_for_its_own_people_only(cast: Cast, rates: Rates) -> None:
    phone = Caller()
    phone.post(SIGN_IN, {"email": "member@example.org", "password": PASSWORD})
    rates(sign_in_email="1/hour")
    attempt("keeper@example.org")
    assert sign_in(phone, PASSWORD) == 429


def test_a_phone_signed_in_since_before_there_were_marks_becomes_known(cast: Cast, rates: Rates) -> None:
    cast.keeper.get("/api/v1/accounts/me")
    mark = cast.keeper.client.cookies["evenfall_known"]
    assert (mark["httponly"], mark["samesite"], mark["path"]) == (True, "Lax", "/api/v1/accounts/")
    assert "keeper" not in mark.value
    rates(sign_in_email="1/hour")
    attempt("keeper@example.org")
    assert sign_in(cast.keeper, PASSWORD) == 200


def test_strangers_tries_do_not_keep_who_is_signed_in_from_changing_their_password(cast: Cast, rates: Rates) -> None:
    rates(sign_in_email="1/hour")
    attempt("keeper@example.org")
    form = {"password": PASSWORD, "new_password": "nine tall hedges"}
    assert cast.keeper.post("/api/v1/accounts/password", form).status_code == 200
