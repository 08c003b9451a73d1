"""`manage.py backup FILE`: the whole store in one file, while the server runs."""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lawn.operations import Refused
from lawn.operations.backup import backup


class Command(BaseCommand):
    """Write a backup."""

    help = "Write everything (rows and photos) into one checked file; the server may run meanwhile."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare FILE and --force."""
        parser.add_argument("file", type=Path)
        parser.add_argument("--force", action="store_true", help="replace a file of this name")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write it and say what is in it."""
        try:
            backup(options["file"].absolute(), replace=options["force"], say=self.stdout.write)
        except Refused as refused:
            raise CommandError(str(refused)) from refused
