"""`manage.py plant`: put known faults into a copy of the code, one by one, and see which test catches each."""

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError


class Command(BaseCommand):
    """Plant one, some or all; ends with code 1 where one survives."""

    help = "Plant known faults in a copy of the code, one by one, and print which test catches each."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare the names, --all, --list and --jobs."""
        parser.add_argument("names", nargs="*", metavar="NAME", help="which faults to plant")
        parser.add_argument("--all", action="store_true", help="plant every fault")
        parser.add_argument("--list", action="store_true", help="say what there is and plant nothing")
        parser.add_argument("--jobs", type=int, default=1, help="how many copies to work in at once (1)")
        parser.add_argument("--words", action="store_true", help="show what the tests said of each that survived")

    def handle(self, *args: Any, **options: Any) -> None:
        """Plant and print."""
        try:
            from tests.plants import catalogue
        except ImportError as error:
            raise CommandError(f"Faults are planted beside the tests ({error.name}): use a whole checkout.") from error
        if options["list"]:
            return self._list(catalogue.TOPICS)
        unknown = [name for name in options["names"] if name not in catalogue.ALL]
        if unknown or not (options["all"] or options["names"]):
            wrong = f"There is no fault named {', '.join(unknown)}." if unknown else "Name a fault, or say --all."
            raise CommandError(f"{wrong} `plant --list` names them all.")
        names = list(catalogue.ALL) if options["all"] else options["names"]
        return self._plant([catalogue.ALL[name] for name in names], max(1, options["jobs"]), options["words"])

    def _list(self, topics: dict[str, Any]) -> None:
        for topic, plants in topics.items():
            self.stdout.write(f"\n{topic} ({len(plants)})")
            for plant in plants:
                self.stdout.write(f"  {plant.name:<38} {plant.wrong}")

    def _plant(self, plants: list[Any], jobs: int, with_words: bool) -> None:
        from tests.plants import running

        for bare in running.without_faults(plants):
            if bare.how != "passed":
                raise CommandError(f"Without any fault the named tests do not pass ({bare.how}):\n{bare.words}")
        self.stdout.write("Without any fault every named test passes.")
        survived = 0
        for outcome in running.outcomes(plants, jobs):
            self.stdout.write(str(outcome))
            self.stdout.flush()
            survived += not outcome.caught
            if with_words and not outcome.caught:
                self.stdout.write("\n".join(run.words for run in outcome.runs))
        self.stdout.write(f"{len(plants) - survived} of {len(plants)} planted faults caught.")
        if survived:
            raise CommandError(f"{survived} survived: a test is missing.")
