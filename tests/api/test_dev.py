"""`manage.py dev`, as a person runs it: both servers answer at one address, and one Ctrl+C ends them."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

from lawn.tooling.build import ROOT
from tests.api.test_up import PATIENCE_S, get

SAID = re.compile(r"(http://localhost:\d+)/.*API alone: (\d+)")


@contextmanager
def dev(data: Path, *options: str) -> Iterator[tuple["subprocess.Popen[str]", str, str]]:
    """Run it until it says its address; give that and the API's own, and stop it in the end."""
    command = [sys.executable, "-u", "manage.py", "dev", "--port", "0", *options]
    env = {**os.environ, "EVENFALL_DATA": str(data), "DJANGO_SETTINGS_MODULE": "lawn.settings"}
    env.pop("DATABASE_URL", None)
    with subprocess.Popen(command, cwd=ROOT, env=env, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            for line in process.stdout:
                if found := SAID.search(line):
                    yield process, found[1], f"http://127.0.0.1:{found[2]}"
                    return
            pytest.fail("It ended without an address.")
        finally:
            process.terminate()


def unanswered(address: str) -> bool:
    try:
        get(address)
    except httpx.ConnectError:
        return True
    return False


def test_one_command_serves_the_sources_and_the_api_and_stops_both(node_modules: object, tmp_path: Path) -> None:
    with dev(tmp_path, "--empty") as (process, address, behind):
        assert "/src/app/main.tsx" in get(f"{address}/ground").text  # the sources, not a build
        assert "import" in get(f"{address}/src/app/main.tsx").text
        for place in (address, behind):
            me = get(f"{place}/api/v1/accounts/me")
            assert (me.status_code, me.json()["code"]) == (401, "signed_out")
        assert b"door.py" in get(f"{address}/@engine-files").content
        process.send_signal(signal.SIGINT)
        assert process.wait(PATIENCE_S) == 0
        assert unanswered(address)
        assert unanswered(behind)


def test_a_write_through_the_front_ends_address_counts_as_of_this_site(node_modules: object, tmp_path: Path) -> None:
    with dev(tmp_path, "--empty") as (_, address, _):
        form = {"name": "Sam Example", "email": "sam@example.org", "password": "four plain garden words"}
        form |= {"household_name": "Trial yard", "units": "us"}
        headers = {"Origin": address, "Sec-Fetch-Site": "same-origin"}
        done = httpx.post(f"{address}/api/v1/accounts/sign-up", json=form, headers=headers, timeout=PATIENCE_S)
        assert done.status_code in (200, 201), done.text
