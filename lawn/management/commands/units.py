"""Write fixtures/units.json from the Pint registry, or say whether it is up to date."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lawn.units.registry import UNITS_FILE, as_file


class Command(BaseCommand):
    """`manage.py units` writes the file; `manage.py units --check` only compares."""

    help = "Write fixtures/units.json, the factors by which the phone reads and shows measurements."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --check."""
        parser.add_argument("--check", action="store_true", help="compare and do not write")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the file, or compare and fail with what to run."""
        text = as_file()
        if not options["check"]:
            UNITS_FILE.write_text(text, encoding="utf-8")
        elif not UNITS_FILE.exists() or UNITS_FILE.read_text(encoding="utf-8") != text:
            raise CommandError("fixtures/units.json differs from lawn/units/registry.py: run `manage.py units`.")
        self.stdout.write("fixtures/units.json is as lawn/units/registry.py says.")
