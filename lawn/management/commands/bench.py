"""Sizes and times as ratios: what the app weighs and how it opens, asks and syncs, each beside something comparable."""

import json
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

PARTS = ("engine", "open", "size", "sync")


class Command(BaseCommand):
    """`manage.py bench` prints one table; nothing of it is asserted, since machines differ."""

    help = "Measure engine calls, opening from the cache, sizes and syncing; print them as ratios."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --only, --runs and --json."""
        parser.add_argument("--only", default=",".join(PARTS), help=f"parts, with commas between: {','.join(PARTS)}")
        parser.add_argument("--runs", type=int, help="how often each thing is measured (each part has its own default)")
        parser.add_argument("--json", action="store_true", help="print the figures as JSON instead of a table")

    def handle(self, *args: Any, **options: Any) -> None:
        """Measure the parts asked for, then print."""
        wanted = options["only"].split(",")
        if unknown := sorted(set(wanted) - set(PARTS)):
            raise CommandError(f"No such part: {', '.join(unknown)}. There are {', '.join(PARTS)}.")
        if options["runs"] is not None and options["runs"] < 1:
            raise CommandError("--runs takes 1 or more.")
        runs = {} if options["runs"] is None else {"runs": options["runs"]}
        figures = [figure for part in PARTS if part in wanted for figure in _measures()[part](_say, **runs)]
        if options["json"]:
            return self.stdout.write(json.dumps([figure.plain() for figure in figures], indent=2))
        from tests.bench.figures import table

        self.stdout.write(table(figures))


def _say(line: str) -> None:
    """Progress goes to stderr, so that the table can be kept by itself."""
    print(line, file=sys.stderr, flush=True)


def _measures() -> dict[str, Any]:
    """The parts; they stand with the tests, whose browsers and phones they use."""
    try:
        from tests.bench import calls, opening, sizes, syncing
    except ImportError as error:
        raise CommandError(f"The bench needs the packages of the tests ({error.name}): uv sync") from error
    return {"engine": calls.measure, "open": opening.measure, "size": sizes.measure, "sync": syncing.measure}
