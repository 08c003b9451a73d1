"""`manage.py types`: the phone's TypeScript types of the records, of the engine's calls and of the API."""

import subprocess
import tempfile
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError, call_command

from lawn.tooling import answers_ts, calls_ts, kinds_ts, nodejs
from lawn.tooling.build import FRONTEND, BuildError, ensure_modules

SOURCES = FRONTEND / "src"
API = "platform/api.d.ts"
CONTRACTS = (kinds_ts, calls_ts, answers_ts)


class Command(BaseCommand):
    """Write the types: those of our own contracts here, those of the API by openapi-typescript."""

    help = "Write the phone's types: of the records, of the engine's calls and of the API."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --out and --contracts."""
        parser.add_argument("--out", type=Path, default=SOURCES, help="the folder to write in, if not the phone's own")
        parser.add_argument("--contracts", action="store_true", help="only those of records and calls: no Node needed")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write what comes from our own files, then let the front end's own tool write the API."""
        for contract in CONTRACTS:
            try:
                _write(options["out"] / contract.FILE, contract.text())
            except LookupError as error:
                raise CommandError(str(error)) from error
        if not options["contracts"]:
            _write_api(options["out"] / API, self.stderr.write)


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def _write_api(out: Path, say: Any) -> None:
    try:
        ensure_modules(say)
    except BuildError as error:
        raise CommandError(str(error)) from error
    out.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        schema = Path(folder) / "openapi.yaml"
        call_command("spectacular", "--validate", "--fail-on-warn", "--file", str(schema))
        tool = FRONTEND / "node_modules" / "openapi-typescript" / "bin" / "cli.js"
        command = [nodejs.node(), str(tool), str(schema), "--output", str(out)]
        done = subprocess.run(command, cwd=FRONTEND, capture_output=True, text=True, check=False)
    if done.returncode:
        raise CommandError(f"openapi-typescript failed:\n{done.stdout}{done.stderr}")
