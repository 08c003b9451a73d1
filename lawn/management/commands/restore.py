"""`manage.py restore FILE`: put a backup back, whole or not at all."""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lawn.operations import Refused
from lawn.operations.restore import restore


class Command(BaseCommand):
    """Restore a backup."""

    help = "Put a backup into an empty store, or with --replace in the place of what is there (kept aside as a backup)."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare FILE and --replace."""
        parser.add_argument("file", type=Path)
        parser.add_argument("--replace", action="store_true", help="put it in the place of what the store holds")

    def handle(self, *args: Any, **options: Any) -> None:
        """Restore it and say what follows from it."""
        try:
            restore(options["file"].absolute(), replace=options["replace"], say=self.stdout.write)
        except Refused as refused:
            raise CommandError(str(refused)) from refused
        self.stdout.write(
            "Restored. Phones send again what they wrote since, of the last 30 days, as they next meet the server.\n"
            "Members removed and phones signed out since this backup are in again: look through them."
        )
