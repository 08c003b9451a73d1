"""`manage.py types`: the phone's TypeScript types of the API, from its OpenAPI schema."""

import subprocess
import tempfile
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management import BaseCommand, CommandError, call_command

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND, BuildError, ensure_modules

TYPES = FRONTEND / "src" / "platform" / "api.d.ts"


class Command(BaseCommand):
    """Write the types, by openapi-typescript."""

    help = "Write frontend/src/platform/api.d.ts from the OpenAPI schema."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --out."""
        parser.add_argument("--out", type=Path, default=TYPES, help="where to write, if not to the phone's sources")

    def handle(self, *args: Any, **options: Any) -> None:
        """Describe the API, then let the front end's own tool write it as TypeScript."""
        try:
            ensure_modules(self.stderr.write)
        except BuildError as error:
            raise CommandError(str(error)) from error
        with tempfile.TemporaryDirectory() as folder:
            schema = Path(folder) / "openapi.yaml"
            call_command("spectacular", "--validate", "--fail-on-warn", "--file", str(schema))
            tool = FRONTEND / "node_modules" / "openapi-typescript" / "bin" / "cli.js"
            command = [nodejs.node(), str(tool), str(schema), "--output", str(options["out"])]
            done = subprocess.run(command, cwd=FRONTEND, capture_output=True, text=True, check=False)
        if done.returncode:
            raise CommandError(f"openapi-typescript failed:\n{done.stdout}{done.stderr}")
