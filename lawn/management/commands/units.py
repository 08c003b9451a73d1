"""Write fixtures/units.json and the engine's table of units from the Pint registry, or say what is stale."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lawn.units.registry import ENGINE_FILE, UNITS_FILE, as_engine, as_file


class Command(BaseCommand):
    """`manage.py units` writes both files; `manage.py units --check` only compares."""

    help = "Write fixtures/units.json and lawn/engine/units/table.py: the factors by which amounts are read and shown."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --check."""
        parser.add_argument("--check", action="store_true", help="compare and do not write")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the files, or compare and fail with what to run."""
        for path, text in ((UNITS_FILE, as_file()), (ENGINE_FILE, as_engine())):
            if not options["check"]:
                path.write_text(text, encoding="utf-8")
            elif not path.exists() or path.read_text(encoding="utf-8") != text:
                raise CommandError(f"{path.name} differs from lawn/units/registry.py: run `manage.py units`.")
        self.stdout.write("fixtures/units.json and the engine's table are as lawn/units/registry.py says.")
