"""`manage.py new kind|call|feature NAME`: the files of a recipe, laid out for a person to fill in."""

from argparse import ArgumentParser
from typing import Any

from django.core.management import BaseCommand, CommandError

from lawn.tooling import recipes
from lawn.tooling.build import ROOT

AFTER = {
    "call": "Then: new arguments in the topic's __init__.py, a case in fixtures/parity/, manage.py types --contracts.",
    "kind": "Then: its fields, manage.py makemigrations lawn, manage.py types --contracts.",
    "feature": "Then: its way in (ui/frame/place-bar.tsx or a link), its model/ and drawing/.",
}


class Command(BaseCommand):
    """Lay out the files and say which."""

    help = "Lay out an engine call (topic.name), a kind of log entry or a feature of the phone."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare what, its name and, for a kind, its feature."""
        parser.add_argument("what", choices=sorted(recipes.RECIPES))
        parser.add_argument("name")
        parser.add_argument("--feature", default="log", help="the feature that brings a kind of entry")

    def handle(self, *args: Any, **options: Any) -> None:
        """Lay out, then say what is left to do."""
        what = options["what"]
        more = {"feature": options["feature"]} if what == "kind" else {}
        try:
            made = recipes.RECIPES[what](ROOT, options["name"], **more)
        except recipes.RecipeError as trouble:
            raise CommandError(str(trouble)) from None
        for path in made:
            self.stdout.write(str(path.relative_to(ROOT)))
        self.stdout.write(AFTER[what])
