"""`manage.py doctor`: look the whole store over; exit code 1 where something is wrong."""

import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand

from lawn.operations import doctor, epoch


class Command(BaseCommand):
    """Look, say, and mend on demand."""

    help = "Check settings, database, every book and the files; the server may run meanwhile. Deletes nothing."
    requires_system_checks: list[str] = []  # the doctor runs them itself, and says what they say

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --repair and --new-epoch."""
        parser.add_argument("--repair", action="store_true", help="work wrong digest sums and stamps out anew")
        parser.add_argument(
            "--new-epoch",
            action="store_true",
            help="have phones send again their last 30 days: after the database was put back by other means",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Mend first what is asked for, then look."""
        if options["new_epoch"]:
            self.stdout.write(f"{epoch.begin_new()} households begin a new epoch.")
        if options["repair"]:
            for line in doctor.repair():
                self.stdout.write(line)
        found = doctor.look()
        for finding in found:
            self.stdout.write(f"{'!' if finding.fault else '-'} {finding.says}")
        if any(finding.fault for finding in found):
            sys.exit(1)
        self.stdout.write("All is well.")
