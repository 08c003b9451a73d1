"""`manage.py dev`: the server and the front end in one command, each reading anew what is changed."""

from argparse import ArgumentParser
from typing import Any

from django.core.management import CommandError, call_command

from lawn.management.commands import up
from lawn.tooling import developing
from lawn.tooling.build import BuildError, ensure_modules


class Command(up.Command):
    """Prepare the database and run the two until Ctrl+C."""

    help = "Serve the app for developing: Django and Vite with reload, in one command."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --empty and --port."""
        parser.add_argument("--empty", action="store_true", help="leave an empty database empty: no demo household")
        parser.add_argument("--port", type=int, default=5173, help="0 takes any free port")

    def handle(self, *args: Any, **options: Any) -> None:
        """Run the steps in order; each says what it does before it does it."""
        port, behind = (up.listen(developing.HOST, wanted) for wanted in (options["port"], 0))
        with port, behind, developing.told_to_stop():
            self._prepare(options["empty"])
            self._run(port.getsockname()[1], behind.getsockname()[1])

    def _prepare(self, empty: bool) -> None:
        try:
            ensure_modules(self._say)
        except BuildError as error:
            raise CommandError(str(error)) from error
        self._say("Preparing the database ...")
        call_command("migrate", verbosity=0, interactive=False)
        if not empty:
            self._load_demo()

    def _run(self, port: int, behind: int) -> None:
        try:
            with developing.both(port, behind) as running:
                self._say(f"Evenfall is at http://localhost:{port}/   (the API alone: {behind}; Ctrl+C stops both)")
                developing.watch(running)
        except developing.Ended as ended:
            raise CommandError(f"Stopped: {ended}; its own words are above.") from ended
