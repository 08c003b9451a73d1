"""Households of phones and a server, lived through by seed, with everything that can go wrong on the way."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError


class Command(BaseCommand):
    """`manage.py simulate` lives seeds, each twice, and says what was lost, duplicated or not converged."""

    help = "Live seeded households (real phone code, real server code, faulty network and storage) and judge them."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --seeds, --from and --jobs."""
        parser.add_argument("--seeds", type=int, default=1000, help="how many (1,000)")
        parser.add_argument("--from", type=int, default=0, dest="first", help="the first seed (0)")
        parser.add_argument("--jobs", type=int, default=2, help="processes side by side, a Node beside each (2)")

    def handle(self, *args: Any, **options: Any) -> None:
        """Live them; raise CommandError where a promise was broken."""
        for name in ("seeds", "jobs"):
            if options[name] < 1:
                raise CommandError(f"--{name} takes 1 or more.")
        try:
            from tests.simulation import batch, phones
        except ImportError as missing:
            raise CommandError(f"The simulation needs the packages of the tests: uv sync ({missing})") from None
        seeds = range(options["first"], options["first"] + options["seeds"])
        try:
            total = batch.run(seeds, options["jobs"], self._say)
        except phones.Missing as missing:
            raise CommandError(str(missing)) from None
        self._say(total.line())
        if total.failed:
            raise CommandError(f"seeds {', '.join(map(str, sorted(total.failed)[:50]))} failed")

    def _say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()
