"""`manage.py check`: Django's own checks, then the quick lane, of linters, types and tests without browsers."""

import time
from typing import Any

from django.core.management import CommandError
from django.core.management.base import CommandParser
from django.core.management.commands import check

from lawn.tooling import lanes
from lawn.tooling.build import BuildError, ensure_modules

# Said with any of these, the command is Django's and nothing else: settings are looked at before a deployment.
DJANGOS = ("tags", "list_tags", "deploy", "databases")


class Command(check.Command):
    """Run every part, say each with its time, and end with code 1 where one failed."""

    help = "Run Django's checks; without options of theirs, the linters, type checkers and quick tests as well."

    def add_arguments(self, parser: CommandParser) -> None:
        """Declare Django's own options, --settings-only and --jobs."""
        super().add_arguments(parser)
        parser.add_argument("--settings-only", action="store_true", help="Django's own checks and nothing else")
        parser.add_argument("--jobs", type=int, help="how many parts run at once; as many as there are cores")

    def handle(self, *app_labels: Any, **options: Any) -> None:
        """Look at the settings, then run the lane."""
        super().handle(*app_labels, **options)
        if app_labels or options.get("settings_only") or any(options.get(name) for name in DJANGOS):
            return
        began = time.monotonic()
        failed = lanes.tell(self._parts(), self._say, options.get("jobs"))
        took = f"{time.monotonic() - began:.0f} s"
        if failed:
            raise CommandError(f"Failed after {took}: {', '.join(failed)}.")
        self._say(f"All passed in {took}. The rest, browsers and running servers: uv run pytest")

    def _parts(self) -> list[lanes.Part]:
        try:
            ensure_modules(self._say)
        except BuildError as error:
            raise CommandError(str(error)) from error
        return lanes.quick()

    def _say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()
