"""`manage.py dev`, as a person runs it: both servers answer at one address, read changes anew, and end together."""

import json
import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import httpx
import pytest
from websocket import WebSocket, create_connection

from lawn.tooling.build import FRONTEND, ROOT
from tests.api.test_up import PATIENCE_S, get
from tests.live.cluster import until

SAID = re.compile(r"(http://localhost:\d+)/.*API alone: (\d+)")


def errors(data: Path) -> Path:
    """Where everything goes that the two servers complain of."""
    return data / "errors.txt"


@contextmanager
def dev(data: Path, *options: str, root: Path = ROOT) -> Iterator[tuple["subprocess.Popen[str]", str, str]]:
    """Run it until it says its address; give that and the API's own, and stop it in the end. See also `errors`."""
    command = [sys.executable, "-u", "manage.py", "dev", "--port", "0", *options]
    env = {**os.environ, "EVENFALL_DATA": str(data), "DJANGO_SETTINGS_MODULE": "lawn.settings"}
    env.pop("DATABASE_URL", None)
    # As a shell begins what runs in the background: deaf to Ctrl+C.
    deaf = ["sh", "-c", 'trap "" INT; exec "$@"', "sh", *command]
    data.mkdir(exist_ok=True)
    with (
        errors(data).open("w") as said,
        subprocess.Popen(deaf, cwd=root, env=env, stdout=subprocess.PIPE, stderr=said, text=True) as process,
    ):
        try:
            assert process.stdout is not None
            for line in process.stdout:
                if found := SAID.search(line):
                    yield process, found[1], f"http://127.0.0.1:{found[2]}"
                    return
            pytest.fail(f"It ended without an address:\n{errors(data).read_text()}")
        finally:
            process.terminate()


def unanswered(address: str) -> bool:
    try:
        get(address)
    except httpx.ConnectError:
        return True
    return False


def signed_up(address: str) -> int:
    """The status of a sign-up by a page of that address: a write counts as of this site."""
    form = {"name": "Sam Example", "email": "sam@example.org", "password": "four plain garden words"}
    form |= {"household_name": "Trial yard", "units": "us"}
    headers = {"Origin": address, "Sec-Fetch-Site": "same-origin"}
    done = httpx.post(f"{address}/api/v1/accounts/sign-up", json=form, headers=headers, timeout=PATIENCE_S)
    return done.status_code


def test_one_command_serves_the_sources_and_the_api_takes_a_write_and_stops_both(
    node_modules: object, tmp_path: Path
) -> None:
    with dev(tmp_path, "--empty") as (process, address, behind):
        assert "/src/app/main.tsx" in get(f"{address}/ground").text  # the sources, not a build
        assert "import" in get(f"{address}/src/app/main.tsx").text
        for place in (address, behind):
            me = get(f"{place}/api/v1/accounts/me")
            assert (me.status_code, me.json()["code"]) == (401, "signed_out")
        assert signed_up(address) in (200, 201)
        assert b"door.py" in get(f"{address}/@engine-files").content
        assert "ECONNREFUSED" not in errors(tmp_path).read_text()  # nobody was asked for before they were there
        process.send_signal(signal.SIGINT)
        assert process.wait(PATIENCE_S) == 0
        assert unanswered(address)
        assert unanswered(behind)


def page_at(address: str) -> WebSocket:
    """What a page of the development server listens to, as Vite's own client does."""
    token = re.search(r'wsToken = "([^"]+)"', get(f"{address}/@vite/client").text)
    assert token, "Vite's client holds no token"
    place = address.replace("http", "ws", 1) + f"/?token={token[1]}"
    return create_connection(place, timeout=PATIENCE_S, subprotocols=["vite-hmr"], origin=address)


def wait_told(page: WebSocket, by: str | None) -> None:
    """Wait until the page is told to load anew; Vite names its own file that changed, and none for the engine."""
    while True:
        said = json.loads(page.recv())
        named = said.get("triggeredBy")
        if said["type"] == "full-reload" and (named or "").endswith(by or "") and bool(named) == bool(by):
            return


def add(path: Path, line: str) -> None:
    path.write_text(f"{path.read_text()}\n{line}\n")


@pytest.fixture
def copy(tmp_path: Path, node_modules: object) -> Path:
    """As much of the tree as the two servers read."""
    root, left_out = tmp_path / "copy", shutil.ignore_patterns("node_modules", "dist", ".build", "__pycache__")
    for name in ("lawn", "api", "fixtures", "frontend"):
        shutil.copytree(ROOT / name, root / name, ignore=left_out)
    shutil.copy(ROOT / "manage.py", root)
    for package in (FRONTEND / "node_modules").glob("[!.]*"):  # each by itself: whoever clears the folder clears links
        (root / "frontend/node_modules").mkdir(exist_ok=True)
        (root / "frontend/node_modules" / package.name).symlink_to(package)
    shutil.copytree(ROOT / "var/build", root / "var/build", ignore=shutil.ignore_patterns("former"))
    return root


def test_what_is_changed_in_the_sources_the_engine_or_the_server_is_read_anew(copy: Path, tmp_path: Path) -> None:
    with dev(tmp_path / "data", "--empty", root=copy) as (_, address, _):
        get(f"{address}/src/app/main.tsx")
        with closing(page_at(address)) as page:
            add(copy / "frontend/src/app/main.tsx", "console.log('read anew');")
            wait_told(page, by="/main.tsx")
            assert "read anew" in get(f"{address}/src/app/main.tsx").text
            add(copy / "lawn/engine/door.py", "READ = 'anew'")
            wait_told(page, by=None)
            assert b"READ = 'anew'" in get(f"{address}/@engine-files").content
        errors = copy / "api/errors.py"
        errors.write_text(errors.read_text().replace("Sign in to go on.", "Read anew."))
        until(lambda: "Read anew." in get(f"{address}/api/v1/accounts/me").text, "the server has begun anew")
