"""`manage.py weather --import file.csv`: read a table of daily weather, show what it says, and take it where asked to.

The same reader as the phone's (the engine's call weather.read_table), so both give the same days.
"""

import json
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError
from django.utils import timezone

from lawn.book.people import access
from lawn.engine.door import call
from lawn.models import Member, Person
from lawn.weather import importing

_OPTIONS = {
    "temperature_unit": ("--temperature", ("c", "f"), "unit of temperatures where no heading names one"),
    "rain_unit": ("--rain", ("mm", "cm", "in"), "unit of rain where no heading names one"),
    "wind_unit": ("--wind", ("m_s", "km_h", "mph", "kn"), "unit of wind where no heading names one"),
    "date_order": ("--dates", ("day_first", "month_first"), "which comes first where the year stands last"),
}
_WRONG = {
    "no_date": "this is no date",
    "no_number": "this is not a number",
    "out_of_range": "this is outside what weather can be",
    "min_over_max": "its lowest temperature is above its highest",
    "twice": "this day stands twice; the first one is taken",
    "ahead": "this day is still to come",
    "nothing": "this day says nothing",
}


class Command(BaseCommand):
    """Look a table over; with --into, write its days into a household's book."""

    help = "Read a CSV of daily weather: shows what it says, and with --into takes it into a household."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare the file, what its headings may leave open, and whose book it goes into."""
        parser.add_argument("--import", dest="file", type=Path, required=True, metavar="FILE")
        parser.add_argument("--into", metavar="EMAIL", help="the member whose household takes the days")
        parser.add_argument("--json", action="store_true", help="print the days alone, as the phone would keep them")
        for name, (option, choices, says) in _OPTIONS.items():
            parser.add_argument(option, dest=name, choices=choices, help=says)

    def handle(self, *args: Any, **options: Any) -> None:
        """Read, show, and write where a household is named."""
        found = _read(options)
        if options["json"]:
            self.stdout.write(json.dumps(found["days"]))
        else:
            for line in _said(found):
                self.stdout.write(line)
        if options["into"]:
            self.stdout.write(_write(options["into"], found["days"], options["file"].name))


def _read(options: dict[str, Any]) -> dict[str, Any]:
    try:
        table = options["file"].read_text(encoding="utf-8-sig", errors="replace")
    except OSError as wrong:
        raise CommandError(f"{options['file']} cannot be read: {wrong.strerror}.") from wrong
    told = {name: options[name] for name in _OPTIONS if options[name]}
    answer = call("weather.read_table", {"table": table, "today": timezone.localdate().isoformat(), **told})
    if "error" in answer:
        raise CommandError(answer["error"]["message"])
    found: dict[str, Any] = answer["value"]
    if found["needs"]:
        ask = ", ".join(f"{_OPTIONS[name][0]} ({' or '.join(_OPTIONS[name][1])})" for name in found["needs"])
        raise CommandError(f"The headings leave something open. Say it by: {ask}.")
    return found


def _said(found: dict[str, Any]) -> list[str]:
    days = found["days"]
    span = f", {days[0]['date']} to {days[-1]['date']}" if days else ""
    taken = ", ".join(f"{one['heading']} ({one['unit']})" for one in found["columns"])
    wrong = [
        f"Line {one['line']}: {one['column']} “{one['value']}”: {_WRONG[one['code']]}." for one in found["problems"]
    ]
    more = found["left_out"] - len(wrong)
    return [
        f"{len(days)} days{span}. Taken: {taken}.",
        *([f"Not taken: {', '.join(found['ignored'])}."] if found["ignored"] else []),
        *([f"{found['left_out']} lines left out:"] if wrong else []),
        *wrong,
        *([f"... and {more} more."] if more else []),
    ]


def _write(email: str, days: importing.Days, name: str) -> str:
    person = Person.objects.filter(email=email.strip().lower()).first()
    member: Member | None = access.memberships(person).first() if person else None
    if member is None:
        raise CommandError(f"{email} is in no household.")
    if not days:
        raise CommandError("There is no day to take.")
    results = importing.write(member, days, name, timezone.now())
    bad = [result["why"]["message"] for result in results if result["s"] not in ("applied", "merged")]
    if bad:
        raise CommandError(f"{len(bad)} months were not taken: {bad[0]}")
    return f"{len(days)} days are in the book of {member.household.name}, in {len(results)} months."
