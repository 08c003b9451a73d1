"""`manage.py person EMAIL`: an account made by the operator, with a household of its own unless told otherwise.

The way to the first account of a server that takes new people by invitation only (EVENFALL_SIGN_UP=invitation), and to
a new password for who has forgotten theirs: this server sends no mail.
"""

import getpass
import sys
from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.management import BaseCommand, CommandError
from django.core.validators import validate_email
from django.db import transaction
from django.utils import timezone

from lawn.book.people import access, membership
from lawn.models import Person
from lawn.web import sessions


class Command(BaseCommand):
    """Make a person, or give one a new password."""

    help = "Make an account with its household, or give an account that is there a new password."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare who, and what their household is called."""
        parser.add_argument("email")
        parser.add_argument("--name", default="", help="needed for a new account")
        parser.add_argument("--household", default="", help="the name of a new account's household; without it none")
        parser.add_argument("--units", choices=("us", "metric"), default="us")

    def handle(self, *args: Any, **options: Any) -> None:
        """Ask for the password (or read a line of it from a pipe), then write."""
        email = str(options["email"]).strip().lower()
        person = Person.objects.filter(email=email).first()
        if person is None and not options["name"]:
            raise CommandError("There is no such account yet. To make it, say whose: --name “Sam Example”.")
        whose = person or Person(email=email, name=options["name"])
        password = _password()
        try:
            validate_email(email)
            validate_password(password, whose)
        except ValidationError as wrong:
            raise CommandError(" ".join(wrong.messages)) from wrong
        self.stdout.write(_write(whose, password, person is None, options))


def _password() -> str:
    """Read the password without showing it; from a pipe, its first line."""
    return getpass.getpass("Password: ") if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")


def _write(person: Person, password: str, new: bool, options: dict[str, Any]) -> str:
    person.set_password(password)  # takes its time, so before the database's one writer is held
    with transaction.atomic():
        if new:
            person.save(force_insert=True)
        else:
            person.save(update_fields=["password"])
            sessions.end_all(person.id)
        if options["household"] and not access.memberships(person).exists():
            membership.create_household(person, options["household"], options["units"], timezone.now())
    return (
        f"{person.email} can sign in." if new else f"{person.email} has a new password, and is signed out everywhere."
    )
