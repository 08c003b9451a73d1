"""A household's phones: who sees them, when they were last heard of, and signing out one that was lost."""

import sqlite3
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.utils import timezone

from api.accounts.reading import me_of
from lawn.book.people import access, devices
from lawn.models import Device, Hole, Session
from lawn.web import sessions
from tests.api.conftest import PASSWORD, Caller, Cast
from tests.factories import DeviceFactory

API = "/api/v1"


def register(caller: Caller, cast: Cast, name: str = "Pocket") -> str:
    return str(caller.post(f"{API}/households/{cast.ours.id}/devices", {"name": name}).json()["device"])


def listed(caller: Caller, cast: Cast) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = caller.get(f"{API}/households/{cast.ours.id}/devices").json()["devices"]
    return found


def sign_out(caller: Caller, cast: Cast, device: str) -> Any:
    return caller.post(f"{API}/households/{cast.ours.id}/devices/{device}/sign-out")


def sync(caller: Caller, cast: Cast, device: str) -> Any:
    incarnation = "0190aaaa-0000-4000-8000-000000000001"
    body = {"proto": 1, "schema": 1, "device": device, "incarnation": incarnation, "cursor": 0}
    return caller.post(f"{API}/households/{cast.ours.id}/sync", body)


def browser() -> Caller:
    """Another browser in which the member signs in."""
    caller = Caller()
    caller.post(f"{API}/accounts/sign-in", {"email": "member@example.org", "password": PASSWORD})
    return caller


def test_everyone_of_the_household_sees_all_phones_and_which_one_is_this(cast: Cast) -> None:
    mine, theirs = register(cast.keeper, cast, "Barn"), register(cast.member, cast, "Pocket")
    seen = {(phone["id"], phone["name"], phone["member_name"], phone["this"]) for phone in listed(cast.member, cast)}
    assert seen == {(mine, "Barn", "Keeper", False), (theirs, "Pocket", "Member", True)}
    [this] = [phone for phone in listed(cast.keeper, cast) if phone["this"]]
    assert (this["id"], this["closed_at"], this["acked_dseq"], this["waiting_holes"]) == (mine, None, 0, 0)


def test_f56_a_phones_holes_are_counted_in_the_list(cast: Cast) -> None:
    mine, other = register(cast.keeper, cast), register(cast.member, cast)
    hole = {"device_id": mine, "incarnation": mine, "op": mine, "at": timezone.now(), "household_id": cast.ours.id}
    access.add([Hole(dseq=number, **hole) for number in (3, 5)])
    assert {phone["id"]: phone["waiting_holes"] for phone in listed(cast.member, cast)} == {mine: 2, other: 0}


def test_s21_a_lost_phone_is_signed_out_from_another_one(cast: Cast) -> None:
    lost, other = browser(), browser()
    device = register(lost, cast)
    assert sync(lost, cast, device).status_code == 200
    closed = sign_out(other, cast, device)
    assert (closed.status_code, closed.json()["closed_at"] is not None) == (200, True)
    refused = sync(lost, cast, device)
    assert (refused.status_code, refused.json()["code"]) == (401, "signed_out")
    assert other.get(f"{API}/accounts/me").status_code == 200
    assert cast.member.get(f"{API}/accounts/me").status_code == 200


def test_s21_a_signed_out_phone_begins_anew_after_signing_in(cast: Cast) -> None:
    lost = browser()
    device = register(lost, cast)
    sign_out(cast.member, cast, device)
    lost.post(f"{API}/accounts/sign-in", {"email": "member@example.org", "password": PASSWORD})
    assert sync(lost, cast, device).status_code == 404
    assert sync(lost, cast, register(lost, cast)).status_code == 200


def test_a_keeper_signs_out_any_phone_a_member_only_their_own(cast: Cast) -> None:
    keepers, members = register(cast.keeper, cast), register(browser(), cast)
    assert sign_out(cast.member, cast, keepers).status_code == 403
    assert sync(cast.keeper, cast, keepers).status_code == 200
    assert sign_out(cast.keeper, cast, members).status_code == 200
    assert cast.member.get(f"{API}/accounts/me").status_code == 200


def test_signing_a_phone_out_again_keeps_the_first_moment_and_ends_no_later_session(cast: Cast) -> None:
    lost = browser()
    device = register(lost, cast)
    first = sign_out(cast.keeper, cast, device).json()["closed_at"]
    again = browser()
    assert sign_out(cast.keeper, cast, device).json()["closed_at"] == first
    assert again.get(f"{API}/accounts/me").status_code == 200


def test_s21_the_tie_follows_a_new_sign_in_on_the_same_phone(cast: Cast) -> None:
    """The session ran out, the person signs in again: the phone is found under its new session at its next round."""
    phone = browser()
    device = register(phone, cast)
    phone.post(f"{API}/accounts/sign-out")
    phone.post(f"{API}/accounts/sign-in", {"email": "member@example.org", "password": PASSWORD})
    assert sync(phone, cast, device).status_code == 200
    sign_out(cast.keeper, cast, device)
    assert sync(phone, cast, device).status_code == 401


def test_s21_the_tie_outlives_the_sliding_renewal_of_the_session(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    phone = browser()
    device = register(phone, cast)
    later = timezone.now() + timedelta(days=2)
    monkeypatch.setattr("django.utils.timezone.now", lambda: later)
    assert "evenfall_session" in sync(phone, cast, device).cookies
    sign_out(cast.keeper, cast, device)
    assert sync(phone, cast, device).status_code == 401


def test_a_phone_registered_anew_in_the_same_browser_takes_the_tie_over(cast: Cast) -> None:
    phone = browser()
    old, new = register(phone, cast), register(phone, cast)
    assert [known["id"] for known in listed(phone, cast) if known["this"]] == [new]
    sign_out(cast.keeper, cast, old)
    assert sync(phone, cast, new).status_code == 200


def test_f18_another_persons_cookie_sends_nothing_from_a_phone_and_sees_nothing_of_it(cast: Cast) -> None:
    """The server's part of it: a device is its own member's, whoever holds the phone."""
    device = register(cast.member, cast)
    for other in (cast.keeper, cast.stranger):
        refused = sync(other, cast, device)
        assert (refused.status_code, refused.json()["code"]) == (404, "not_found")
    assert access.rows(Device, cast.ours.id).get(id=device).last_seen_at is None


# --- when it was last heard of ---------------------------------------------------------------------


@pytest.fixture
def device(db: None) -> Device:
    found: Device = DeviceFactory.create()
    return found


def fresh(device: Device) -> Device:
    return access.rows(Device, device.household_id).get(id=device.id)


def test_s12_a_round_that_only_pulls_is_written_down_every_five_minutes_at_most(
    device: Device, django_assert_num_queries: Any
) -> None:
    now = timezone.now()
    devices.seen(device, "a", now)
    known = fresh(device)
    with django_assert_num_queries(0):
        devices.seen(known, "a", now + timedelta(minutes=4, seconds=59))
    assert fresh(device).last_seen_at == now
    devices.seen(known, "a", now + timedelta(minutes=5))
    assert fresh(device).last_seen_at == now + timedelta(minutes=5)


def test_s12_another_session_is_written_down_at_once(device: Device) -> None:
    now = timezone.now()
    devices.seen(device, "a", now)
    devices.seen(fresh(device), "b", now + timedelta(seconds=1))
    assert fresh(device).session == "b"


@pytest.mark.django_db(transaction=True)
def test_s12_f54_a_pull_waits_for_no_writer_to_say_that_it_was_heard_of() -> None:
    """With the database being written to, the pull is answered and nothing is written down; the next one is."""
    device: Device = DeviceFactory.create()
    now = timezone.now()
    with writing(device):
        devices.seen(device, "a", now)
    assert fresh(device).last_seen_at is None
    devices.seen(device, "a", now)
    assert fresh(device).last_seen_at == now


class writing:  # noqa: N801 — read as a word of the test
    """Another connection that holds what a writer holds: SQLite's one write lock, or the row on PostgreSQL."""

    def __init__(self, device: Device) -> None:
        self._device = device

    def __enter__(self) -> None:
        self._other: Any = connection.copy()
        if connection.vendor == "sqlite":
            self._raw = sqlite3.connect(str(connection.settings_dict["NAME"]), isolation_level=None)
            self._raw.execute("BEGIN IMMEDIATE")
            return
        self._other.set_autocommit(False)
        with self._other.cursor() as cursor:
            cursor.execute("SELECT 1 FROM lawn_device WHERE id = %s FOR UPDATE", [self._device.id])

    def __exit__(self, *_: object) -> None:
        if connection.vendor == "sqlite":
            self._raw.rollback()
            self._raw.close()
            return
        self._other.rollback()
        self._other.close()


# --- sessions --------------------------------------------------------------------------------------


def test_the_cookie_itself_is_stored_nowhere(cast: Cast) -> None:
    caller = browser()
    cookie = caller.client.cookies["evenfall_session"].value
    keys = set(Session.objects.values_list("session_key", flat=True))
    assert cookie not in keys
    assert sessions.key_hash(cookie) in keys
    found = Session.objects.get(session_key=sessions.key_hash(cookie))
    assert cast.member.member is not None
    assert found.person_id == cast.member.member.person_id
    assert not any(cookie in str(value) for value in found.__dict__.values())


def test_what_the_table_holds_opens_no_door(cast: Cast) -> None:
    stolen = Session.objects.filter(person_id__isnull=False).values_list("session_key", flat=True)[0]
    thief = Caller()
    thief.client.cookies["evenfall_session"] = stolen
    assert thief.get(f"{API}/accounts/me").status_code == 401


def test_s21_a_session_lives_180_days_after_its_last_use_and_no_longer(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    caller, start = browser(), timezone.now()

    def after(days: float) -> int:
        monkeypatch.setattr("django.utils.timezone.now", lambda: start + timedelta(days=days))
        return int(caller.get(f"{API}/accounts/me").status_code)

    assert [after(days) for days in (100, 200, 379)] == [200, 200, 200]
    assert after(379 + 180.1) == 401


def test_a_changed_password_ends_every_other_session_and_keeps_this_one_and_its_phone(cast: Cast) -> None:
    here, there = browser(), browser()
    device = register(here, cast)
    form = {"password": PASSWORD, "new_password": "nine tall hedges"}
    assert here.post(f"{API}/accounts/password", form).status_code == 200
    assert (here.get(f"{API}/accounts/me").status_code, there.get(f"{API}/accounts/me").status_code) == (200, 401)
    assert [known["id"] for known in listed(here, cast) if known["this"]] == [device]
    sign_out(cast.keeper, cast, device)
    assert here.get(f"{API}/accounts/me").status_code == 401


def test_a_password_set_by_the_operator_ends_every_session(cast: Cast) -> None:
    caller = browser()
    assert cast.member.member is not None
    person = cast.member.member.person
    person.set_password("nine tall hedges")
    person.save(update_fields=["password"])
    assert caller.get(f"{API}/accounts/me").status_code == 401


@pytest.mark.parametrize(
    ("form", "field"),
    [
        ({"password": "not the one", "new_password": "nine tall hedges"}, "password"),
        ({"password": PASSWORD, "new_password": "short"}, "new_password"),
        ({"password": PASSWORD, "new_password": "member@example.org"}, "new_password"),
    ],
)
def test_a_password_is_changed_by_who_knows_the_old_one_for_one_that_is_none_too_plain(
    cast: Cast, form: dict[str, str], field: str
) -> None:
    caller = browser()
    answer = caller.post(f"{API}/accounts/password", form)
    assert (answer.status_code, list(answer.json()["fields"])) == (400, [field])
    assert cast.member.get(f"{API}/accounts/me").status_code == 200


def test_signing_out_everywhere_ends_every_session_of_the_person_and_of_no_other(cast: Cast) -> None:
    here, there = browser(), browser()
    device = register(there, cast)
    assert here.post(f"{API}/accounts/sign-out-everywhere").status_code == 204
    assert [caller.get(f"{API}/accounts/me").status_code for caller in (here, there, cast.member)] == [401] * 3
    assert cast.keeper.get(f"{API}/accounts/me").status_code == 200
    again = browser()  # the phones stay known: what waits on them goes after the next sign-in
    assert sync(again, cast, device).status_code == 200


def test_a_session_ended_while_its_request_is_under_way_is_answered_and_stays_ended(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    caller = browser()
    later = timezone.now() + timedelta(days=2)  # so that this request renews it
    monkeypatch.setattr("django.utils.timezone.now", lambda: later)

    def ended_meanwhile(person: Any) -> dict[str, Any]:
        sessions.end_all(person.id)
        return me_of(person)

    monkeypatch.setattr("api.accounts.views.me_of", ended_meanwhile)
    assert caller.get(f"{API}/accounts/me").status_code == 200
    assert caller.get(f"{API}/accounts/me").status_code == 401
