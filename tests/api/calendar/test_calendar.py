"""A member's calendar link: who has one, who reads by it, and what stands in the calendar (RFC 5545)."""

import io
import logging
import re
import uuid
from datetime import date, datetime, timedelta
from typing import Any

import pytest
from django.core.cache import cache
from django.utils import timezone
from hypothesis import example, given
from hypothesis import strategies as st
from icalendar import Calendar

from lawn.book.calendar import ics
from lawn.book.calendar.steps import Job
from lawn.book.people import devices, membership
from lawn.book.sync import record as record_models
from lawn.book.sync.author import Pen
from lawn.models import CalendarLink, Member
from lawn.web.discretion import Discreet
from tests.api.conftest import Caller, Cast

PLAN, STEP, ZONE, BAG = (str(uuid.UUID(int=at + 1)) for at in range(4))
SOON = date.fromisoformat("2026-04-05")


class Writer:
    """One phone of a household's keeper, which writes groups of settings."""

    def __init__(self, caller: Caller) -> None:
        assert caller.member is not None
        self.pen = Pen(caller.member, devices.register(caller.member, "Phone", timezone.now()))
        self.at = timezone.now() - timedelta(hours=2)

    def write(self, t: str, record: str, **groups: dict[str, Any]) -> None:
        self.at += timedelta(minutes=1)
        kept: Any = record_models.KEPT_MODELS[t]
        row = kept._default_manager.filter(id=record).first()
        seen = {name: was["version"] for name, was in (row.versions if row else {}).items() if name in groups}
        [result] = self.pen.write([[{"t": t, "id": record, "set": groups, "base": seen}]], self.at)
        assert result["s"] == "applied", result


@pytest.fixture
def phone(cast: Cast) -> Writer:
    """A phone of the keeper of `ours`, with a plan of one feed, its zone and its bag."""
    written, today = Writer(cast.keeper), timezone.now().date()
    written.write("zone", ZONE, name={"name": "Kitchen lawn"}, ground={"area_m2": 200.0, "method": "typed"})
    written.write("product", BAG, name={"name": "Plain 20-0-5", "sort": "fertilizer"}, label={"net_kg": 18.0})
    written.write("plan", PLAN, year={"starts_on": f"{today.year}-01-01", "southern": False})
    written.write(
        "step",
        STEP,
        job={"plan_id": PLAN, "job": "feed"},
        ground={"zone_ids": [ZONE]},
        window={"from_on": today.isoformat(), "to_on": (today + timedelta(days=6)).isoformat()},
        product={"product_id": BAG, "rate_kg_m2": 0.015},
        state={"state": "planned"},
    )
    return written


def link_of(caller: Caller, household: uuid.UUID) -> str:
    made = caller.post(f"/api/v1/households/{household}/calendar")
    assert made.status_code == 201
    link: str = made.json()["link"]
    return link


def events(answer: Any) -> list[Any]:  # the package's types are unions of all values there are
    assert answer.status_code == 200, answer.content
    return [part for part in Calendar.from_ical(answer.content).walk() if part.name == "VEVENT"]


def the_event(cast: Cast, link: str) -> Any:
    [found] = events(cast.anonymous.get(link))
    return found


def test_whoever_has_the_link_reads_the_steps_over_their_days_and_gets_no_cookie(cast: Cast, phone: Writer) -> None:
    answer = cast.anonymous.get(link_of(cast.keeper, cast.ours.id), Accept="text/calendar")
    [event] = events(answer)
    today = timezone.now().date()
    assert (event["DTSTART"].dt, event["DTEND"].dt) == (today, today + timedelta(days=7))
    assert str(event["SUMMARY"]) == "Feed: Kitchen lawn"
    assert str(event["UID"]) == f"{STEP}@evenfall"
    assert str(event["STATUS"]) == "CONFIRMED"
    # 0.015 kg/m² are 3.07 lb/1,000 ft²; 3 kg of an 18 kg bag are 6.61 of 39.7 lb (0.45359237 kg a pound)
    assert str(event["DESCRIPTION"]).splitlines() == [
        "Zones: Kitchen lawn",
        "Product: Plain 20-0-5",
        "Rate: 3.07 lb/1,000 ft²",
        "Amount: 6.61 lb, out of 1 bag of 39.7 lb",
    ]
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert "private" in answer["Cache-Control"]
    assert not answer.cookies


def test_a_member_has_a_link_of_their_own_in_their_own_units(cast: Cast, phone: Writer) -> None:
    Member.objects.filter(id=cast.member.member.id).update(units="metric")  # type: ignore[union-attr]
    event = the_event(cast, link_of(cast.member, cast.ours.id))
    assert "Rate: 15 g/m²" in str(event["DESCRIPTION"])
    assert "Amount: 3 kg, out of 1 bag of 18 kg" in str(event["DESCRIPTION"])
    assert cast.keeper.get(f"/api/v1/households/{cast.ours.id}/calendar").json() == {"on": False, "made_at": None}


def test_a_renewed_link_ends_the_old_one_at_once(cast: Cast, phone: Writer) -> None:
    old = link_of(cast.keeper, cast.ours.id)
    new = link_of(cast.keeper, cast.ours.id)
    assert cast.anonymous.get(old).status_code == 404
    assert len(events(cast.anonymous.get(new))) == 1
    assert CalendarLink.objects.count() == 1


def test_a_link_turned_off_opens_nothing(cast: Cast, phone: Writer) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    answer = cast.keeper.post(f"/api/v1/households/{cast.ours.id}/calendar/off")
    assert answer.json() == {"on": False, "made_at": None}
    assert cast.anonymous.get(link).status_code == 404


def test_only_the_hash_of_a_token_is_kept(cast: Cast) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    token = re.search(r"calendar/([\w-]{43})\.ics$", link)
    assert token is not None
    kept = CalendarLink.objects.get()
    assert token[1] not in str(vars(kept))
    assert kept.token_hash == membership.hash_token(token[1])


@pytest.mark.parametrize("token", ["x", "A" * 43, "%00", "ä", "..", "' or 1=1"])
def test_a_wrong_token_is_answered_as_any_other_that_is_none(cast: Cast, phone: Writer, token: str) -> None:
    link_of(cast.keeper, cast.ours.id)
    answer = cast.anonymous.get(f"/api/v1/calendar/{token}.ics")
    nothing = cast.anonymous.get("/api/v1/calendar/none.ics")
    assert (answer.status_code, answer.json()["code"]) == (404, nothing.json()["code"])


def test_p10_a_link_shows_its_own_household_and_no_other(cast: Cast, phone: Writer) -> None:
    assert events(cast.anonymous.get(link_of(cast.stranger, cast.theirs.id))) == []
    assert len(events(cast.anonymous.get(link_of(cast.keeper, cast.ours.id)))) == 1


def test_a_removed_member_s_link_ends_and_does_not_come_back_with_them(cast: Cast, phone: Writer) -> None:
    link = link_of(cast.member, cast.ours.id)
    keeper, member = cast.keeper.member, cast.member.member
    assert keeper is not None
    assert member is not None
    membership.remove(keeper, member.id, timezone.now())
    assert cast.anonymous.get(link).status_code == 404
    membership.add_member(cast.ours.id, member.person, timezone.now())
    assert cast.anonymous.get(link).status_code == 404


def test_p10_a_link_ends_with_its_membership_however_that_ended(cast: Cast, phone: Writer) -> None:
    link = link_of(cast.member, cast.ours.id)
    Member.objects.filter(person__email="member@example.org").update(active=False)
    assert cast.anonymous.get(link).status_code == 404


def test_a_link_is_made_so_often_an_hour_and_read_so_often_a_minute(cast: Cast, monkeypatch: Any) -> None:
    from api.calendar.throttles import CalendarPerAddress, LinksPerPerson

    rates = {"calendar": "2/min", "calendar_links": "1/hour"}
    monkeypatch.setattr(CalendarPerAddress, "THROTTLE_RATES", rates)
    monkeypatch.setattr(LinksPerPerson, "THROTTLE_RATES", rates)
    cache.clear()
    link = link_of(cast.keeper, cast.ours.id)
    assert cast.keeper.post(f"/api/v1/households/{cast.ours.id}/calendar").status_code == 429
    assert [cast.anonymous.get(link).status_code for _ in range(3)] == [200, 200, 429]


# --- what changes ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("state", "status", "summary"),
    [("done", "CONFIRMED", "Done: Feed: Kitchen lawn"), ("put_off", "TENTATIVE", "Put off: Feed: Kitchen lawn")],
)
def test_a_step_done_or_put_off_stays_and_says_so(
    cast: Cast, phone: Writer, state: str, status: str, summary: str
) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    before = the_event(cast, link)
    phone.write("step", STEP, state={"state": state})
    after = the_event(cast, link)
    assert (str(after["STATUS"]), str(after["SUMMARY"])) == (status, summary)
    assert before["UID"] == after["UID"]
    assert after["SEQUENCE"] > before["SEQUENCE"]
    assert after["LAST-MODIFIED"].dt > before["LAST-MODIFIED"].dt


def test_a_removed_step_is_cancelled_for_thirty_days_and_then_gone(cast: Cast, phone: Writer, monkeypatch: Any) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    before = the_event(cast, link)
    phone.write("step", STEP, deleted={"deleted": True})
    after = the_event(cast, link)
    assert str(after["STATUS"]) == "CANCELLED"
    assert after["SEQUENCE"] > before["SEQUENCE"]
    later = timezone.now() + timedelta(days=31)
    monkeypatch.setattr("api.calendar.views.timezone.now", lambda: later)
    assert events(cast.anonymous.get(link)) == []


def test_a_removed_plan_cancels_its_steps(cast: Cast, phone: Writer) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    phone.write("plan", PLAN, deleted={"deleted": True})
    assert str(the_event(cast, link)["STATUS"]) == "CANCELLED"


def test_a_zone_renamed_is_a_later_telling_of_the_step(cast: Cast, phone: Writer) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    before = the_event(cast, link)
    phone.write("zone", ZONE, name={"name": "Back lawn"})
    after = the_event(cast, link)
    assert str(after["SUMMARY"]) == "Feed: Back lawn"
    assert after["SEQUENCE"] > before["SEQUENCE"]


def test_of_two_plans_of_one_year_the_one_written_first_stands(cast: Cast, phone: Writer) -> None:
    other, step = str(uuid.UUID(int=90)), str(uuid.UUID(int=91))
    today = timezone.now().date()
    phone.write("plan", other, year={"starts_on": f"{today.year}-01-01", "southern": False})
    phone.write(
        "step",
        step,
        job={"plan_id": other, "job": "lime"},
        window={"from_on": today.isoformat(), "to_on": today.isoformat()},
    )
    assert the_event(cast, link_of(cast.keeper, cast.ours.id))["UID"] == f"{STEP}@evenfall"


@pytest.mark.parametrize(
    "typed", [{"amount": "3", "unit": ["lb_kft2"]}, {"amount": "3" * 500, "unit": "g_m2"}, [], "x"]
)
def test_a_rate_typed_in_no_form_of_ours_is_told_by_its_figure(cast: Cast, phone: Writer, typed: Any) -> None:
    phone.write("step", STEP, product={"product_id": BAG, "rate_kg_m2": 0.015, "rate_typed": typed})
    event = the_event(cast, link_of(cast.keeper, cast.ours.id))
    assert "Rate: 3.07 lb/1,000 ft²" in str(event["DESCRIPTION"])


def test_a_step_of_many_zones_counts_them_instead_of_naming_each(cast: Cast, phone: Writer) -> None:
    more = [str(uuid.UUID(int=200 + at)) for at in range(20)]
    for zone in more:
        phone.write("zone", zone, name={"name": "Strip"}, ground={"area_m2": 10.0, "method": "typed"})
    phone.write("step", STEP, ground={"zone_ids": [ZONE, *more]})
    event = the_event(cast, link_of(cast.keeper, cast.ours.id))
    assert str(event["SUMMARY"]) == "Feed: 21 zones"
    assert str(event["DESCRIPTION"]).splitlines()[0] == "Zones: 21 zones"


def test_a_rate_is_told_as_it_was_typed(cast: Cast, phone: Writer) -> None:
    typed = {"amount": "3", "unit": "lb_kft2"}
    phone.write("step", STEP, product={"product_id": BAG, "rate_kg_m2": 0.015, "rate_typed": typed})
    assert "Rate: 3 lb/1,000 ft²" in str(the_event(cast, link_of(cast.keeper, cast.ours.id))["DESCRIPTION"])


def test_no_log_names_a_link_even_where_it_opens_nothing(cast: Cast) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    cast.keeper.post(f"/api/v1/households/{cast.ours.id}/calendar/off")
    handler = logging.StreamHandler(found := io.StringIO())
    handler.addFilter(Discreet())
    logger = logging.getLogger("django.request")
    logger.addHandler(handler)
    try:
        assert cast.anonymous.get(link).status_code == 404
    finally:
        logger.removeHandler(handler)
    token = link.rpartition("/")[2].removesuffix(".ics")
    assert "/api/v1/calendar/" in found.getvalue()
    assert token not in found.getvalue()


def test_the_same_steps_are_the_same_bytes(cast: Cast, phone: Writer) -> None:
    link = link_of(cast.keeper, cast.ours.id)
    assert cast.anonymous.get(link).content == cast.anonymous.get(link).content


# --- what is typed ---------------------------------------------------------------------------------

LINES = st.text(st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp")), min_size=1, max_size=120)
TITLES = st.one_of(
    LINES,
    st.text("\\;,:\"'\n\r\tnN=", min_size=1, max_size=60),
    st.just("Neighborhoodgrasscuttingwork " * 4),
    st.just("🌱" * 60),
    st.just("BEGIN:VEVENT\r\nEND:VCALENDAR"),
)


def job(title: str, lines: tuple[str, ...]) -> Job:
    changed = datetime.fromisoformat("2026-04-01T10:00:00+00:00")
    return Job(STEP, title, SOON, SOON, "planned", lines, changed, 7)


def said(body: bytes, name: str) -> str | None:
    """A property's text, unfolded (RFC 5545, 3.1) and read sign by sign (3.3.11).

    The package's own reading takes one sign after the other out of the whole text, and so loses typed backslashes.
    """
    lines = body.replace(b"\r\n ", b"").decode().split("\r\n")
    found = next((line.partition(":")[2] for line in lines if line.startswith(f"{name}:")), None)
    return found and re.sub(r"\\(.)", lambda sign: "\n" if sign[1] in "nN" else sign[1], found)


@given(name=TITLES, title=TITLES, lines=st.lists(TITLES, max_size=4).map(tuple))
@example(name="a", title="\\N", lines=("C:\\Next", "\\n", "\\;"))
def test_whatever_is_typed_is_read_back_as_it_was(name: str, title: str, lines: tuple[str, ...]) -> None:
    body = ics.written(name, [job(title, lines)], "https://book.example.org/season")
    assert said(body, "NAME") == ics.plain(name)
    assert said(body, "SUMMARY") == ics.plain(title)
    assert said(body, "DESCRIPTION") == ("\n".join(ics.plain(line) for line in lines) or None)
    found: Any = Calendar.from_ical(body)
    [event] = [part for part in found.walk() if part.name == "VEVENT"]
    assert event.errors == []
    if "\\" not in title:
        assert str(event["SUMMARY"]) == ics.plain(title)


@given(title=TITLES)
def test_no_line_is_longer_than_75_octets_nor_split_within_a_letter(title: str) -> None:
    body = ics.written("Alder Bend", [job(title, (title,))], "https://book.example.org/season")
    assert body.endswith(b"\r\n")
    for line in body.split(b"\r\n"):
        assert len(line) <= 75
        assert b"\n" not in line
        line.decode()
