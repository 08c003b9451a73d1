"""The record of sign-ins, and what no door tells of who has an account."""

import statistics
import time
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.hashers import BasePasswordHasher, MD5PasswordHasher
from django.core.management import CommandError, call_command
from django.utils import timezone

from lawn import settings as real_settings
from lawn.models import Household, Person, Session, SignIn, ThrottleCount
from lawn.web import sign_in_audit
from tests.api.conftest import PASSWORD, Caller, Cast

API = "/api/v1"
AGENT = "Product/5.0 (Linux; Version 14; Handheld 8) Engine/1.2 (KIND, like another)"
NEW = {"name": "Robin", "email": "robin@example.org", "password": "nine tall hedges"}
SIGN_UP = {**NEW, "household_name": "Brook Corner", "units": "us"}


def sign_in(email: str, password: str, address: str = "192.0.2.77") -> Any:
    caller = Caller()
    caller.client.defaults["REMOTE_ADDR"] = address
    form = {"email": email, "password": password}
    return caller.post(f"{API}/accounts/sign-in", form, **{"User-Agent": AGENT})


def tries(caller: Caller) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = caller.get(f"{API}/accounts/sign-ins").json()["sign_ins"]
    return found


# --- the record ------------------------------------------------------------------------------------


def test_a_person_sees_who_tried_to_sign_in_as_them_and_no_one_elses(cast: Cast) -> None:
    sign_in("member@example.org", "a wrong one")
    sign_in("Member@Example.org ", PASSWORD)
    sign_in("keeper@example.org", PASSWORD)
    seen = [(one["ok"], one["address_part"], one["agent_part"]) for one in tries(cast.member)]
    assert seen == [
        (True, "192.0.2.0/24", "Linux; Version 14; Handheld 8"),
        (False, "192.0.2.0/24", "Linux; Version 14; Handheld 8"),
    ]


def test_a_sign_in_names_the_phone_that_rides_on_it(cast: Cast) -> None:
    caller = Caller()
    caller.post(f"{API}/accounts/sign-in", {"email": "member@example.org", "password": PASSWORD})
    caller.post(f"{API}/households/{cast.ours.id}/devices", {"name": "Pocket"})
    assert [one["device"] for one in tries(caller)] == ["Pocket"]


def test_what_was_typed_is_kept_nowhere(cast: Cast) -> None:
    sign_in("my-secret-typed-in-the-wrong-field", "another secret")
    kept = SignIn.objects.get(person=None)
    assert (kept.ok, kept.session) == (False, "")
    assert not any("secret" in str(value) for value in vars(kept).values())
    assert not ThrottleCount.objects.filter(key__contains="secret").exists()


def test_a_text_no_database_can_hold_is_an_unknown_address(cast: Cast) -> None:
    for email in ("a\x00b@example.org", "\ud800@example.org"):
        assert sign_in(email, "whatever it is").status_code == 400


def test_signing_up_and_joining_are_written_down_as_well(cast: Cast) -> None:
    newcomer = Caller()
    newcomer.post(f"{API}/accounts/sign-up", SIGN_UP)
    assert [one["ok"] for one in tries(newcomer)] == [True]
    Caller().post(f"{API}/accounts/sign-up", {**SIGN_UP, "password": "another tall hedge"})
    assert [one["ok"] for one in tries(newcomer)] == [False, True]


def test_the_record_goes_back_180_days_and_shows_fifty(cast: Cast) -> None:
    assert cast.member.member is not None
    person, now = cast.member.member.person, timezone.now()
    for days in (181, 179, *([1] * 50)):
        SignIn(person=person, at=now - timedelta(days=days), ok=True).save()
    sign_in("keeper@example.org", PASSWORD)
    assert SignIn.objects.filter(person=person).count() == 51
    assert len(tries(cast.member)) == 50


def test_what_has_run_out_is_taken_out_along_with_it(cast: Cast) -> None:
    now = timezone.now()
    Session(session_key="0" * 64, session_data="", expire_date=now - timedelta(seconds=1)).save()
    Session(session_key="1" * 64, session_data="", expire_date=now + timedelta(days=1)).save()
    ThrottleCount(key="0" * 64, due=now.timestamp() - 1).save()
    ThrottleCount(key="1" * 64, due=now.timestamp() + 60).save()
    sign_in_audit.prune(now)
    assert not Session.objects.filter(session_key="0" * 64).exists()
    assert Session.objects.filter(session_key="1" * 64).exists()
    assert list(ThrottleCount.objects.values_list("key", flat=True)) == ["1" * 64]


@pytest.mark.parametrize(
    ("address", "part"),
    [
        ("203.0.113.200", "203.0.113.0/24"),
        ("2001:db8:1234:5678::9", "2001:db8:1234::/48"),
        ("fe80::1%eth0", "fe80::/48"),
        ("::ffff:203.0.113.200", "203.0.113.0/24"),  # IPv4 as IPv6 (RFC 4291, section 2.5.5.2)
        ("", ""),
        ("no address", ""),
    ],
)
def test_only_the_network_of_an_address_is_kept(address: str, part: str) -> None:
    assert sign_in_audit.address_part(address) == part


@pytest.mark.parametrize(
    ("agent", "part"),
    [(AGENT, "Linux; Version 14; Handheld 8"), ("tool/1.0", ""), ("", ""), ("x (" + "y" * 200 + ")", "y" * 80)],
)
def test_only_the_machine_of_a_user_agent_is_kept(agent: str, part: str) -> None:
    assert sign_in_audit.agent_part(agent) == part


def test_neither_passwords_nor_tokens_reach_the_log(cast: Cast, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("DEBUG")
    sign_in("member@example.org", "a wrong secret")
    sign_in("member@example.org", PASSWORD)
    Caller().post(f"{API}/accounts/sign-up", {**SIGN_UP, "email": "keeper@example.org", "password": "some tall secret"})
    link = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    token = link.rsplit("/", 1)[1]
    Caller().post(f"{API}/accounts/join", {"token": token, **NEW})
    said = caplog.text
    assert caplog.records
    for secret in ("a wrong secret", PASSWORD, "some tall secret", token, NEW["password"]):
        assert secret not in said


# --- who has an account ----------------------------------------------------------------------------


def test_a_sign_up_refused_says_the_same_whatever_the_reason(cast: Cast) -> None:
    Person.objects.filter(email="member@example.org").update(is_active=False)
    told = []
    for email, password in [
        ("keeper@example.org", "not the keeper's"),
        ("member@example.org", "not the member's"),
        ("member@example.org", PASSWORD),  # a closed account
    ]:
        answer = Caller().post(f"{API}/accounts/sign-up", {**SIGN_UP, "email": email, "password": password})
        told.append((answer.status_code, answer.content, sorted(answer.headers)))
    assert told == [told[0]] * 3
    assert told[0][0] == 400
    assert "fields" not in str(told[0][1])


def test_a_sign_up_whose_answer_was_lost_can_be_sent_again(cast: Cast) -> None:
    first, again = Caller(), Caller()
    me = first.post(f"{API}/accounts/sign-up", SIGN_UP).json()
    answer = again.post(f"{API}/accounts/sign-up", {**SIGN_UP, "household_name": "Another name"})
    assert (answer.status_code, answer.json()) == (201, me)
    assert again.get(f"{API}/accounts/me").json() == me
    assert Household.objects.filter(name__in=("Brook Corner", "Another name")).count() == 1


def test_who_is_in_no_household_any_more_starts_one_by_signing_up_again(cast: Cast) -> None:
    assert cast.member.member is not None
    cast.member.post(f"{API}/households/{cast.ours.id}/members/{cast.member.member.id}/remove")
    form = {**SIGN_UP, "email": "member@example.org", "password": PASSWORD}
    homes = Caller().post(f"{API}/accounts/sign-up", form).json()["households"]
    assert [(home["name"], home["role"]) for home in homes] == [("Brook Corner", "keeper")]


def test_joining_with_an_address_that_has_an_account_asks_for_its_password(cast: Cast) -> None:
    link = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    form = {**NEW, "token": link.rsplit("/", 1)[1], "email": "stranger@example.org"}
    refused = Caller().post(f"{API}/accounts/join", form)
    assert (refused.status_code, refused.json()["code"]) == (400, "refused_sign_up")
    joined = Caller().post(f"{API}/accounts/join", {**form, "password": PASSWORD})
    assert {home["name"] for home in joined.json()["households"]} == {"Elsewhere", "Alder Bend"}
    assert Person.objects.get(email="stranger@example.org").name == "Stranger"


def test_trying_passwords_by_signing_up_is_counted_with_the_sign_ins(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    from rest_framework.throttling import SimpleRateThrottle

    rates = {**dict.fromkeys(SimpleRateThrottle.THROTTLE_RATES), "sign_in_email": "2/hour"}
    monkeypatch.setattr(SimpleRateThrottle, "THROTTLE_RATES", rates)
    form = {**SIGN_UP, "email": "keeper@example.org"}
    answers = [Caller().post(f"{API}/accounts/sign-up", form).status_code for _ in range(2)]
    assert [*answers, sign_in("keeper@example.org", PASSWORD).status_code] == [400, 400, 429]


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


def test_a_sign_up_hashes_once_whether_the_address_is_taken_or_not(cast: Cast, hashings: list[str]) -> None:
    for email in ("keeper@example.org", "nobody-yet@example.org"):
        hashings.clear()
        Caller().post(f"{API}/accounts/sign-up", {**SIGN_UP, "email": email})
        assert len(hashings) == 1, email


def test_the_time_of_a_refused_sign_in_does_not_tell_an_account_from_none(cast: Cast, settings: Any) -> None:
    """By the real hashing, which is slow by design: without equal work the two differ more than tenfold."""
    settings.PASSWORD_HASHERS = real_settings.PASSWORD_HASHERS
    assert cast.keeper.member is not None
    person = cast.keeper.member.person
    person.set_password(PASSWORD)
    person.save(update_fields=["password"])
    took: dict[str, list[float]] = {"keeper@example.org": [], "nobody@example.org": []}
    for _ in range(7):
        for email, times in took.items():
            begun = time.perf_counter()
            assert sign_in(email, "a wrong one").status_code == 400
            times.append(time.perf_counter() - begun)
    known, unknown = (statistics.median(times) for times in took.values())
    assert 1 / 3 < known / unknown < 3


# --- accounts by invitation only -------------------------------------------------------------------


def test_by_invitation_only_a_sign_up_tells_nothing_at_all_and_makes_nothing(cast: Cast, settings: Any) -> None:
    settings.SIGN_UP = "invitation"
    before = Person.objects.count()
    told = [
        Caller().post(f"{API}/accounts/sign-up", form)
        for form in (SIGN_UP, {**SIGN_UP, "email": "keeper@example.org"}, {**SIGN_UP, "email": "no address"}, {})
    ]
    assert {(answer.status_code, answer.content) for answer in told} == {(403, told[0].content)}
    assert told[0].json()["code"] == "by_invitation"
    assert Person.objects.count() == before
    link = cast.keeper.post(f"{API}/households/{cast.ours.id}/invitations").json()["link"]
    assert Caller().post(f"{API}/accounts/join", {**NEW, "token": link.rsplit("/", 1)[1]}).status_code == 200


def piped(monkeypatch: pytest.MonkeyPatch, line: str) -> None:
    import io

    monkeypatch.setattr("sys.stdin", io.StringIO(line + "\n"))


def test_the_operator_makes_the_first_account(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    piped(monkeypatch, NEW["password"])
    call_command("person", "Robin@Example.org", name="Robin", household="Brook Corner", units="metric")
    answer = sign_in("robin@example.org", NEW["password"])
    assert [(home["name"], home["role"]) for home in answer.json()["households"]] == [("Brook Corner", "keeper")]


def test_the_operator_gives_a_new_password_which_signs_out_everywhere(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    piped(monkeypatch, NEW["password"])
    call_command("person", "member@example.org")
    assert cast.member.get(f"{API}/accounts/me").status_code == 401
    assert sign_in("member@example.org", PASSWORD).status_code == 400
    assert sign_in("member@example.org", NEW["password"]).status_code == 200


@pytest.mark.parametrize(
    ("email", "name", "password"),
    [("robin@example.org", "", "nine tall hedges"), ("robin", "Robin", "nine tall hedges"), ("r@e.org", "R", "short")],
)
def test_the_operator_is_told_what_is_wrong_and_nothing_is_made(
    db: None, monkeypatch: pytest.MonkeyPatch, email: str, name: str, password: str
) -> None:
    piped(monkeypatch, password)
    with pytest.raises(CommandError):
        call_command("person", email, name=name)
    assert not Person.objects.exists()
