"""Sizes and times as ratios, each beside something comparable; the dial and the mow in invented households."""

import json
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

PARTS = ("engine", "open", "years", "size", "sync", "refit", "dial", "mowing", "season")
# Parts that live invented households (or plan invented yards); how many of them where the part is one among the others.
LIVED = {"dial": 100, "mowing": 8, "season": 2}


class Command(BaseCommand):
    """`manage.py bench` prints one table; nothing of it is asserted, since machines differ."""

    help = "Measure calls, opening, sizes, syncing and re-fits as ratios; live invented households, dial and mow."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --only, --runs, --households, --seed and --json."""
        parser.add_argument("--only", help=f"parts, with commas between: {','.join(PARTS)}")
        parser.add_argument("--runs", type=int, help="how often each thing is measured (each part has its own default)")
        fewer = ", ".join(f"{name} {count}" for name, count in LIVED.items()) + " without --only"
        parser.add_argument("--households", type=int, help=f"dial, mowing, season: so many ({fewer})")
        parser.add_argument("--seed", type=int, help="dial, mowing: the first household's seed")
        parser.add_argument("--json", action="store_true", help="print the figures as JSON instead of a table")

    def handle(self, *args: Any, **options: Any) -> None:
        """Measure the parts asked for, then print."""
        wanted = (options["only"] or ",".join(PARTS)).split(",")
        if unknown := sorted(set(wanted) - set(PARTS)):
            raise CommandError(f"No such part: {', '.join(unknown)}. There are {', '.join(PARTS)}.")
        for name in ("runs", "households"):
            if options[name] is not None and options[name] < 1:
                raise CommandError(f"--{name} takes 1 or more.")
        runs = {} if options["runs"] is None else {"runs": options["runs"]}
        timed = [part for part in PARTS if part in wanted and part not in LIVED]
        figures = [figure for part in timed for figure in _measures()[part](_say, **runs)]
        reports = [_live(part, options) for part in LIVED if part in wanted]
        if options["json"]:
            plain = [figure.plain() for figure in figures] + [row for report in reports for row in report.plain()]
            return self.stdout.write(json.dumps(plain, indent=2))
        from tests.bench.figures import table

        self.stdout.write("\n\n".join([*([table(figures)] if figures else []), *(report.text() for report in reports)]))


def _live(part: str, options: dict[str, Any]) -> Any:
    """A bench of invented households; few of them where it was not asked for by name."""
    given = {name: options[name] for name in ("households", "seed") if options[name] is not None}
    if options["only"] is None:
        given = {"households": LIVED[part], **given}
    return _measures()[part](_say, **given)


def _say(line: str) -> None:
    """Progress goes to stderr, so that the table can be kept by itself."""
    print(line, file=sys.stderr, flush=True)


def _measures() -> dict[str, Any]:
    """The parts; they stand with the tests, whose browsers and phones they use."""
    try:
        from tests.bench import calls, opening, refit, sizes, syncing, years
        from tests.bench.dial import report as dial
        from tests.bench.mowing import report as mowing
        from tests.bench.season import yards as season
    except ImportError as error:
        raise CommandError(f"The bench needs the packages of the tests ({error.name}): uv sync") from error
    timed = {"engine": calls.measure, "open": opening.measure, "years": years.measure, "size": sizes.measure}
    lived = {"dial": dial.measure, "mowing": mowing.measure, "season": season.measure}
    return {**timed, **lived, "sync": syncing.measure, "refit": refit.measure}
