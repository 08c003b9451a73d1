"""`manage.py up`: from a fresh clone to a served app, saying each step."""

import socket
from argparse import ArgumentParser
from collections.abc import Callable
from typing import Any

import uvicorn
from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.management import BaseCommand, CommandError, call_command

from lawn.tooling.build import BuildError, ensure_built
from lawn.web import serving


class Command(BaseCommand):
    """Build what is stale, prepare the database, serve."""

    help = "Build the app when stale, migrate, load the demo into an empty database, and serve it."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare --empty, --host and --port."""
        parser.add_argument("--empty", action="store_true", help="leave an empty database empty: no demo household")
        parser.add_argument("--host", default="127.0.0.1", help="0.0.0.0 lets phones of this network in")
        parser.add_argument("--port", type=int, default=8000, help="0 takes any free port")

    def handle(self, *args: Any, **options: Any) -> None:
        """Run the steps in order; each says what it does before it does it."""
        listener = listen(options["host"], options["port"])
        try:
            ensure_built(self._say)
        except BuildError as error:
            raise CommandError(str(error)) from error
        self._say("Preparing the database ...")
        call_command("migrate", verbosity=0, interactive=False)
        call_command("clearsessions")
        if not options["empty"]:
            self._load_demo()
        self._serve(listener, options["host"])

    def _say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()

    def _load_demo(self) -> None:
        from lawn import demo

        if get_user_model().objects.exists():
            return self._say("The database has people in it already: the demo stays out.")
        self._say("Loading the demo household (all invented) ...")
        demo.load_demo()
        self._say(f"  sign in as {demo.DEMO_EMAIL} with the password {demo.DEMO_PASSWORD}")

    def _serve(self, listener: socket.socket, host: str) -> None:
        port = listener.getsockname()[1]
        lines = [f"Evenfall is at http://localhost:{port}/   (Ctrl+C stops it)"]
        if host not in ("127.0.0.1", "localhost", "::1"):
            lines.append(_let_network_in(port))
        _Announcing(serving.config(), lambda: self._say("\n".join(lines))).run(sockets=[listener])


class _Announcing(uvicorn.Server):
    """A server that says its address once it answers there, not before."""

    def __init__(self, config: uvicorn.Config, announce: Callable[[], None]) -> None:
        super().__init__(config)
        self._announce = announce

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Listen, then say where."""
        await super().startup(sockets=sockets)
        self._announce()


def listen(host: str, port: int) -> socket.socket:
    """Take the port before the long steps, so that a taken port is known at once."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
    except OSError as error:
        raise CommandError(f"Cannot serve at {host}:{port}: {error.strerror}. Choose another: --port 8001") from error
    return listener


def _let_network_in(port: int) -> str:
    """Allow this machine's own address as a host name and say it."""
    mine = _network_address()
    if mine is None:
        return "No network address found for this machine; set EVENFALL_HOSTS to the names phones will use."
    settings.ALLOWED_HOSTS.append(mine)
    return (
        f"On this network: http://{mine}:{port}/   (a phone installs the app and gives its location only over "
        "https: README, Hosting)"
    )


def _network_address() -> str | None:
    """Find the address this machine uses towards its network; sends nothing."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address kept for documentation (RFC 5737)
        except OSError:
            return None
        return str(probe.getsockname()[0])
