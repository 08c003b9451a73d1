"""`manage.py plan`: the demo's season with reasons, bags, cost and gap, and no rule broken."""

from datetime import date
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from lawn.book.people import membership
from lawn.demo import load_demo
from lawn.models import Household, Person
from lawn.planning.book import book_of
from lawn.planning.management.commands.plan import _demo


@pytest.mark.parametrize("today", ["2027-03-01", "2026-11-30"])
def test_the_demo_s_season_is_planned_explained_and_keeps_the_rules(today: str) -> None:
    out = StringIO()
    call_command("plan", household="demo", explain=True, today=date.fromisoformat(today), stdout=out)
    lines = out.getvalue().splitlines()
    steps = [at for at, line in enumerate(lines) if line.startswith("  20")]
    assert len(steps) >= 5
    assert all(lines[at + 1].startswith("      ") for at in steps), "a step without a reason"
    assert lines[-1] == "Rules checked: nothing is broken."
    assert any(line.startswith("Cost: ") for line in lines)
    assert "Bags to buy:" in lines
    assert "Left over:" in lines
    assert "The gap is" in lines[-2]


def planned(household: str, today: date, **options: object) -> list[str]:
    out = StringIO()
    call_command("plan", household=household, today=today, stdout=out, **options)
    return out.getvalue().splitlines()


def test_any_household_is_planned_from_its_rows_with_its_stock_its_wishes_and_the_steps_that_stand(db: None) -> None:
    today = date(2027, 3, 1)
    load_demo(today)
    household = Household.objects.get()
    rows = book_of(household.id, today)
    assert "Street verge" in [row["name"] for row in rows["zones"]]
    assert rows["wishes"]["budget"] == 140
    assert {row["state"] for row in rows["steps"]} == {"planned", "done", "put_off"}
    lines = planned(str(household.id), today, explain=True)
    assert lines[-1] == "Rules checked: nothing is broken."
    assert sum(line.startswith("  20") for line in lines) >= 5


def test_a_household_s_log_is_the_demo_s_whichever_way_it_is_read(db: None) -> None:
    today = date(2027, 3, 1)
    load_demo(today)
    kept, told = book_of(Household.objects.get().id, today), _demo(today)
    for name in ("zones", "products", "climate"):
        assert kept[name] == told[name] or sorted(kept[name], key=by_id) == sorted(told[name], key=by_id), name
    assert {row["id"]: row["void"] for row in kept["entries"]} == {row["id"]: row["void"] for row in told["entries"]}


def by_id(row: dict[str, str]) -> str:
    return row["id"]


@pytest.mark.parametrize("wrong", ["nobody", "00000000-0000-0000-0000-000000000009"])
def test_a_household_that_is_not_there_is_said_to_be_none(db: None, wrong: str) -> None:
    with pytest.raises(CommandError, match="Not planned"):
        planned(wrong, date(2027, 3, 1))


def test_a_household_without_a_climate_is_told_where_to_enter_it(db: None) -> None:
    person = Person.objects.create_user("new@example.org", None, "New")
    member = membership.create_household(person, "New yard", "us", timezone.now())
    with pytest.raises(CommandError, match="Place and weather"):
        planned(str(member.household_id), date(2027, 3, 1))
