"""A household's own days of weather, read from a table and written into its book as a phone would: a month a record."""

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from lawn.book.people import access, devices
from lawn.book.sync.author import Item, Pen
from lawn.models import Member, WeatherMonth
from lawn.models.ids import new_id

Days = list[dict[str, Any]]


def by_month(days: Days) -> dict[str, Days]:
    """Return the days by the first day of their month."""
    found: dict[str, Days] = {}
    for day in days:
        found.setdefault(f"{day['date'][:7]}-01", []).append(day)
    return found


def write(member: Member, days: Days, from_file: str, now: datetime) -> list[dict[str, Any]]:
    """Write days into the member's household; return what the book says to each month.

    A month that is there already is laid over day by day: days that the table does not have stay.
    """
    pen = Pen(member, devices.register(member, "Import on the server", now))
    return pen.write(list(_items(member, days, from_file)), now)


def _items(member: Member, days: Days, from_file: str) -> Iterator[list[Item]]:
    kept = {row.month: row for row in access.rows(WeatherMonth, member.household_id).exclude(deleted=True)}
    for month, fresh in by_month(days).items():
        row = kept.get(month)
        days_of = {day["date"]: day for day in [*((row.days or []) if row else []), *fresh]}
        value = {"month": month, "days": [days_of[key] for key in sorted(days_of)], "from_file": from_file[:120]}
        base = {"days": row.versions["days"]["version"]} if row else {"days": None}
        yield [{"t": "weather_month", "id": str(row.id if row else new_id()), "set": {"days": value}, "base": base}]
