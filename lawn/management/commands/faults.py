"""`manage.py faults`: each promise, rule and fault of the sync design with the tests that prove it."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError


class Command(BaseCommand):
    """Print the table; `--all` names every test instead of the first three."""

    help = "List the promises, rules and faults of the sync design with the tests that prove them."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --all."""
        parser.add_argument("--all", action="store_true", help="name every test, not the first three")

    def handle(self, *args: Any, **options: Any) -> None:
        """Read the tests' names and print."""
        try:
            from tests.faults.proofs import table
        except ImportError as error:
            raise CommandError(f"The table is read from the tests ({error.name}): use a whole checkout.") from error
        self.stdout.write(table(options["all"]))
