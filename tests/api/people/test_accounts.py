"""Signing up, in and out; invitations; cookies; what an answer must not give away."""

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.hashers import BasePasswordHasher, MD5PasswordHasher
from django.utils import timezone

from lawn import settings as real_settings
from lawn.book.people import membership
from lawn.models import Household, Invitation, Member, Person
from tests.api.conftest import PASSWORD, Caller, Cast

API = "/api/v1"
NEWCOMER = {"name": "Robin", "email": "robin@example.org", "password": "nine tall hedges"}


def sign_up(caller: Caller, **more: Any) -> Any:
    form = {**NEWCOMER, "household_name": "Brook Corner", "units": "metric", **more}
    return caller.post(f"{API}/accounts/sign-up", form)


def invite(cast: Cast) -> str:
    answer = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()
    return str(answer["link"].split("#")[1])


def test_signing_up_makes_the_person_their_household_and_its_keeper(db: None) -> None:
    caller = Caller()
    response = sign_up(caller)
    assert response.status_code == 201
    me = response.json()
    assert (me["person"]["name"], me["person"]["email"]) == ("Robin", "robin@example.org")
    assert [(h["name"], h["role"]) for h in me["households"]] == [("Brook Corner", "keeper")]
    assert Member.objects.get().units == "metric"
    assert caller.get(f"{API}/accounts/me").json() == me


def test_a_taken_email_with_another_password_is_refused_in_plain_words_and_makes_no_household(cast: Cast) -> None:
    before = Household.objects.count()
    response = sign_up(cast.anonymous, email="Keeper@Example.org")
    assert (response.status_code, response.json()["code"]) == (400, "refused_sign_up")
    assert "fields" not in response.json()
    assert Household.objects.count() == before


def test_the_password_a_person_chose_is_kept_as_argon2() -> None:
    first = real_settings.PASSWORD_HASHERS[0]
    assert first == "lawn.web.hashing.Argon2"


@pytest.mark.parametrize("password", ["short", "1234567890", "password123", "robin@example.org", " "])
def test_a_weak_password_is_refused_beside_the_field(db: None, password: str) -> None:
    response = sign_up(Caller(), password=password)
    assert response.status_code == 400
    assert list(response.json()["fields"]) == ["password"]
    assert not Person.objects.exists()


def test_signing_in_ignores_the_case_of_the_email_and_out_ends_it(cast: Cast) -> None:
    caller = Caller()
    form = {"email": "KEEPER@example.org", "password": PASSWORD}
    assert caller.post(f"{API}/accounts/sign-in", form).status_code == 200
    assert caller.get(f"{API}/accounts/me").status_code == 200
    assert caller.post(f"{API}/accounts/sign-out").status_code == 204
    signed_out = caller.get(f"{API}/accounts/me")
    assert (signed_out.status_code, signed_out.json()["code"]) == (401, "signed_out")


@pytest.fixture
def hashings(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Every password that is hashed, in order."""
    seen: list[str] = []
    encode = MD5PasswordHasher.encode

    def noted(self: BasePasswordHasher, password: str, salt: str, *more: Any) -> str:
        seen.append(password)
        return encode(self, password, salt, *more)

    monkeypatch.setattr(MD5PasswordHasher, "encode", noted)
    return seen


def test_sign_in_tells_nothing_of_who_has_an_account(cast: Cast, hashings: list[str]) -> None:
    """Same status, same words, same number of hashings for each way to be wrong."""
    Person.objects.filter(email="member@example.org").update(is_active=False)
    wrong = [
        ("nobody@example.org", "a wrong password"),
        ("keeper@example.org", "a wrong password"),
        ("member@example.org", PASSWORD),
        ("no address at all", "a wrong password"),
    ]
    told = []
    for email, password in wrong:
        hashings.clear()
        response = Caller().post(f"{API}/accounts/sign-in", {"email": email, "password": password})
        told.append((response.status_code, response.content, sorted(response.headers), len(hashings)))
    assert told == [told[0]] * len(wrong)
    assert told[0][0] == 400
    assert told[0][3] == 1


def test_the_session_cookie_is_out_of_reach_of_scripts_and_other_sites(db: None) -> None:
    cookie = sign_up(Caller()).cookies["evenfall_session"]
    assert cookie["httponly"] is True
    assert cookie["samesite"] == "Lax"
    assert cookie["max-age"] == 180 * 24 * 3600
    # Over plain http on one's own machine; tests/api/test_settings.py shows it secure behind TLS.
    assert cookie["secure"] == ""


def test_the_session_is_renewed_once_a_day_and_not_on_every_request(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = f"{API}/accounts/me"
    assert "evenfall_session" in cast.keeper.get(path).cookies
    assert "evenfall_session" not in cast.keeper.get(path).cookies
    later = timezone.now() + timedelta(days=1, minutes=1)
    monkeypatch.setattr("lawn.web.sessions.timezone.now", lambda: later)
    assert "evenfall_session" in cast.keeper.get(path).cookies


def test_signing_in_changes_the_session_key(cast: Cast) -> None:
    caller = Caller()
    sign_up(caller)
    before = caller.client.cookies["evenfall_session"].value
    caller.post(f"{API}/accounts/sign-in", {"email": "keeper@example.org", "password": PASSWORD})
    assert caller.client.cookies["evenfall_session"].value != before


def test_an_invitation_says_the_households_name_and_lets_a_newcomer_in(cast: Cast) -> None:
    token = invite(cast)
    seen = cast.anonymous.post(f"{API}/accounts/invitation", {"token": token}).json()
    assert seen["household_name"] == "Alder Bend"
    joined = cast.anonymous.post(f"{API}/accounts/join", {"token": token, **NEWCOMER})
    assert joined.status_code == 200
    assert [(h["id"], h["role"]) for h in joined.json()["households"]] == [(str(cast.ours.id), "member")]
    assert cast.anonymous.get(f"{API}/accounts/me").json() == joined.json()


def test_an_invitation_lets_one_person_in_and_then_no_more(cast: Cast) -> None:
    token = invite(cast)
    assert cast.stranger.post(f"{API}/accounts/join", {"token": token}).status_code == 200
    late = Caller().post(f"{API}/accounts/join", {"token": token, **NEWCOMER})
    assert (late.status_code, late.json()["code"]) == (404, "invitation_used")
    assert not Person.objects.filter(email=NEWCOMER["email"]).exists()


def test_a_signed_in_person_joins_beside_their_own_household(cast: Cast) -> None:
    joined = cast.stranger.post(f"{API}/accounts/join", {"token": invite(cast)}).json()
    assert {h["name"]: h["role"] for h in joined["households"]} == {"Elsewhere": "keeper", "Alder Bend": "member"}


def test_an_invitation_runs_out_after_seven_days(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    token = invite(cast)
    start = Invitation.objects.get().created_at
    path = f"{API}/accounts/invitation"
    monkeypatch.setattr("api.accounts.joining.timezone.now", lambda: start + timedelta(days=7, seconds=-1))
    assert cast.anonymous.post(path, {"token": token}).status_code == 200
    monkeypatch.setattr("api.accounts.joining.timezone.now", lambda: start + timedelta(days=7))
    assert cast.anonymous.post(path, {"token": token}).json()["code"] == "invitation_expired"
    late = cast.anonymous.post(f"{API}/accounts/join", {"token": token, **NEWCOMER})
    assert late.json()["code"] == "invitation_expired"


def test_a_newcomer_who_leaves_a_field_out_loses_neither_words_nor_invitation(cast: Cast) -> None:
    token = invite(cast)
    lacking = cast.anonymous.post(f"{API}/accounts/join", {"token": token, "name": "Robin"})
    assert (lacking.status_code, set(lacking.json()["fields"])) == (400, {"email", "password"})
    assert cast.anonymous.post(f"{API}/accounts/join", {"token": token, **NEWCOMER}).status_code == 200


def test_a_shut_invitation_says_nothing_about_an_email(cast: Cast) -> None:
    form = {**NEWCOMER, "token": "made-up"}
    known = cast.anonymous.post(f"{API}/accounts/join", {**form, "email": "keeper@example.org"})
    unknown = cast.anonymous.post(f"{API}/accounts/join", form)
    assert (known.status_code, known.content) == (unknown.status_code, unknown.content)


def test_the_invitations_token_is_stored_nowhere(cast: Cast) -> None:
    token = invite(cast)
    stored = Invitation.objects.get()
    assert token not in stored.token_hash
    assert membership.hash_token(token) == stored.token_hash


def test_the_qr_drawing_is_one_svg_without_styles_or_scripts(cast: Cast) -> None:
    svg = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["svg"]
    assert svg.startswith("<svg ")
    assert svg.count("<svg") == 1
    assert "style" not in svg
    assert "<script" not in svg


def test_a_device_belongs_to_the_member_who_made_it(cast: Cast) -> None:
    from lawn.models import Device

    answer = cast.member.post(f"{API}/households/{cast.ours.id}/devices", {"name": "Pocket"}).json()
    device = Device.objects.get()
    assert (str(device.id), device.name) == (answer["device"], "Pocket")
    assert cast.member.member is not None
    assert device.member_id == cast.member.member.id


def test_a_body_that_is_no_json_or_no_object_is_refused_in_the_one_shape(cast: Cast) -> None:
    for body in (b"{", b"[]", b'"text"', b"null"):
        response = cast.anonymous.post(f"{API}/accounts/sign-in", body)
        assert response.status_code == 400, body
        assert {"code", "message"} <= set(response.json())


def test_an_unknown_address_answers_in_the_one_shape(db: None) -> None:
    response = Caller().get(f"{API}/nothing/here")
    assert (response.status_code, response.json()["code"]) == (404, "not_found")


def test_what_nobody_foresaw_is_answered_in_the_one_shape_without_details(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks(*_: object) -> None:
        raise RuntimeError("a detail of the inside")

    monkeypatch.setattr("api.accounts.views.me_of", breaks)
    cast.keeper.client.raise_request_exception = False
    response = cast.keeper.get(f"{API}/accounts/me")
    assert (response.status_code, response.json()["code"]) == (500, "trouble")
    assert b"detail of the inside" not in response.content
