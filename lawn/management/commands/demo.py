"""Load the invented demo household into an empty database."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lawn.demo import DemoRefused, load_demo


class Command(BaseCommand):
    """`manage.py demo`: for a database that is migrated and has no household yet."""

    help = "Load the demo household (all invented) into a database without households."

    def handle(self, *args: Any, **options: Any) -> None:
        """Load it and print how to sign in."""
        try:
            people = load_demo()
        except DemoRefused as refused:
            raise CommandError(str(refused)) from refused
        for person in people:
            self.stdout.write(f"{person.role}: sign in as {person.email} with the password {person.password}")
