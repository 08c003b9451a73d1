"""Ask the engine from the command line, on CPython or on the phone's MicroPython."""

import json
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lawn.engine import door
from lawn.tooling import phone_engine

RUNTIMES = ("python", "micropython")


class Command(BaseCommand):
    """`manage.py engine CALL JSON` prints the answer; an error answer also ends with status 1."""

    help = "Run one engine call and print its answer as JSON, or list every call. Needs no database."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare the call, its arguments, the runtime and --list."""
        parser.add_argument("call", nargs="?", help="name of the call, such as label.rate")
        parser.add_argument("arguments", nargs="?", default="{}", help="its arguments as JSON")
        parser.add_argument("--runtime", choices=RUNTIMES, default="python", help="micropython is what phones run")
        parser.add_argument("--list", action="store_true", help="every call with arguments, units and ranges")

    def handle(self, *args: Any, **options: Any) -> None:
        """Print the list, or the answer of one call."""
        if options["list"]:
            return self._list()
        if not options["call"]:
            raise CommandError("Name a call, or ask for --list.")
        answer = json.loads(self._ask(options["call"], options["arguments"], options["runtime"]))
        self.stdout.write(json.dumps(answer, indent=2, ensure_ascii=False))
        if "error" in answer:
            sys.exit(1)

    def _ask(self, call: str, arguments: str, runtime: str) -> str:
        if runtime == "python":
            return door.call_json(call, arguments)
        try:
            return phone_engine.answer(call, arguments)
        except (phone_engine.NotInstalledError, phone_engine.PhoneEngineError) as error:
            raise CommandError(str(error)) from error

    def _list(self) -> None:
        for row in door.describe():
            self.stdout.write(self.style.MIGRATE_HEADING(row["call"]) + "  " + row["summary"])
            for entry in row["args"]:
                self.stdout.write("    " + _line(entry))
            for entry in row["returns"]:
                self.stdout.write("  > " + _line(entry))
            self.stdout.write("")


def _line(entry: dict[str, Any]) -> str:
    """One argument or result: name, optional mark, unit, range, what it is."""
    name = entry["name"] + ("?" if entry["optional"] else "")
    span = "" if entry["low"] is None else f", {entry['low']:g} to {entry['high']:g}"
    return f"{name} [{entry['unit']}{span}]: {entry['says']}"
