"""The demo household "Alder Bend": invented, and marked so in every record.

`load_demo()` fills a database that holds nobody yet, through the very path a phone's entries take
(lawn.book.sync.author). Everything moves with the day of loading, and the household lives on the half of the globe
where grass grows on it (lawn.demo.calendar), so the yard is always in season and the last entry is a day old.
Ids depend on nothing but the scenario and that day.
"""

import uuid
from dataclasses import dataclass
from datetime import UTC, date, datetime, time

from django.contrib.auth import get_user_model
from django.db import transaction
from django.utils import timezone

from lawn.book.people import devices, membership
from lawn.book.sync.author import Pen
from lawn.demo.scenario import Scenario
from lawn.demo.season import Entry, entries_of
from lawn.models import Household, Member

DEMO_PASSWORD = "hopper-one-third-open"  # noqa: S105  # invented for the demo, printed at start
DEMO_EMAIL = "keeper@alder-bend.example"


class DemoRefused(Exception):
    """The database already holds households; the demo never mixes with them."""


@dataclass(frozen=True)
class SignIn:
    """One of the demo's people, to be printed."""

    email: str
    password: str
    role: str


def load_demo(today: date | None = None, password: str = DEMO_PASSWORD) -> list[SignIn]:
    """Load the scenario as of today; return the sign-ins, the keeper's first.

    Raises DemoRefused when any household exists. All or nothing: one transaction.
    """
    if Household.objects.exists():
        raise DemoRefused("This database already has households: the demo is only for an empty one.")
    scenario = Scenario(today or timezone.localdate())
    # loaded as of a day to come, it is written then: the book takes nothing that is yet to be done
    now = max(timezone.now(), datetime.combine(scenario.today, time.max, tzinfo=UTC))
    with transaction.atomic():
        members = _people(scenario, password, now)
        pens = {key: Pen(member, devices.register(member, "Demo phone", now)) for key, member in members.items()}
        keeper = members["keeper"]
        _write(pens["keeper"], scenario.settings(keeper.household_id), now)
        ids = {key: str(member.id) for key, member in members.items()}
        for key, entries in _by_writer(entries_of(scenario, ids)).items():
            _write(pens[key], [entry.items for entry in entries], now)
        for key, claim in scenario.claims():
            _write(pens[key], [[claim]], now)
    return [SignIn(member.person.email, password, str(member.role)) for member in members.values()]


def _people(scenario: Scenario, password: str, now: datetime) -> dict[str, Member]:
    """Sign everyone up; the first keeps the household, the others join it."""
    people = [
        (row, get_user_model().objects.create_user(row["email"], password, row["name"])) for row in scenario.people
    ]
    (first, keeper), *others = people
    found = {first["key"]: membership.create_household(keeper, scenario.household["name"], first["units"], now)}
    household_id: uuid.UUID = found[first["key"]].household_id
    for row, person in others:
        found[row["key"]] = membership.add_member(household_id, person, now, units=row["units"])
    return found


def _by_writer(entries: list[Entry]) -> dict[str, list[Entry]]:
    found: dict[str, list[Entry]] = {}
    for entry in entries:
        found.setdefault(entry.by, []).append(entry)
    return found


def _write(pen: Pen, batches: list[list[dict[str, object]]], now: datetime) -> None:
    """Push, and stop at the first op that was not simply applied: the demo must be clean."""
    for result in pen.write(batches, now):
        if result["s"] != "applied":
            raise ValueError(f"The demo wrote something the book does not take: {result['why']}")
