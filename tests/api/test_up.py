"""`manage.py up`, as a person runs it: a process of its own, an empty data folder, any free port."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

import httpx
import pytest

from lawn.tooling.build import ROOT

PATIENCE_S = 120  # a crowded machine is slow without being wrong
get = partial(httpx.get, timeout=PATIENCE_S)


@contextmanager
def up(data: Path, *options: str) -> Iterator[tuple[str, list[str]]]:
    """Run it until it says its address; give that and all it said, and stop it in the end."""
    command = [sys.executable, "-u", "manage.py", "up", "--port", "0", *options]
    env = {**os.environ, "EVENFALL_DATA": str(data), "DJANGO_SETTINGS_MODULE": "lawn.settings"}
    env.pop("DATABASE_URL", None)
    with subprocess.Popen(command, cwd=ROOT, env=env, stdout=subprocess.PIPE, text=True) as process:
        try:
            assert process.stdout is not None
            said: list[str] = []
            for line in process.stdout:  # ends when it says its address, or when it dies
                said.append(line.strip())
                if found := re.search(r"http://localhost:\d+", line):
                    yield found[0], said
                    return
            pytest.fail(f"It ended without an address: {said}")
        finally:
            process.terminate()
            process.wait()


def test_up_empty_serves_the_app_and_no_one_is_in_it(built_frontend: Path, tmp_path: Path) -> None:
    with up(tmp_path, "--empty") as (address, said):
        assert not any("demo" in line.lower() for line in said)
        page = get(f"{address}/ground")
        assert (page.status_code, page.content) == (200, (built_frontend / "index.html").read_bytes())
        worker = get(f"{address}/serviceworker.js")
        assert worker.text == (built_frontend / "serviceworker.js").read_text()
        assert get(f"{address}/api/v1/accounts/me").status_code == 401
        assert get(f"{address}/icons/icon-192.png").headers["content-type"] == "image/png"


def test_up_serves_every_script_and_style_the_page_names(built_frontend: Path, tmp_path: Path) -> None:
    with up(tmp_path, "--empty") as (address, _):
        page = get(f"{address}/").text
        named = re.findall(r'(?:src|href)="(/[^"]+)"', page)
        assert any(name.endswith(".js") for name in named)
        for name in named:
            answer = get(f"{address}{name}", headers={"Accept-Encoding": "br"})
            assert answer.status_code == 200, name
            if name.endswith((".js", ".css")):
                assert answer.headers["content-encoding"] == "br", name
                assert "immutable" in answer.headers["cache-control"], name


def test_the_page_needs_nothing_that_its_own_policy_forbids(built_frontend: Path) -> None:
    page = (built_frontend / "index.html").read_text()
    assert re.search(r"<script(?![^>]*\bsrc=)", page) is None, "a script written into the page"
    assert re.search(r"<style|\bstyle=|\bon\w+=", page) is None, "a style or a handler written into the page"
    assert re.findall(r'(?:src|href)="(?!/)', page) == [], "something from another site"


def test_up_loads_the_demo_once_and_prints_a_sign_in_that_works(built_frontend: Path, tmp_path: Path) -> None:
    with up(tmp_path) as (address, said):
        line = next(line for line in said if "sign in as" in line)
        found = re.fullmatch(r"sign in as (\S+) with the password (.+)", line)
        assert found is not None, line
        form = {"email": found[1], "password": found[2]}
        me = httpx.post(f"{address}/api/v1/accounts/sign-in", json=form, timeout=PATIENCE_S)
        assert me.status_code == 200
        assert len(me.json()["households"]) == 1
    with up(tmp_path) as (_, again):
        assert any("demo stays out" in line for line in again)


def test_a_taken_port_is_said_at_once_with_what_to_do(tmp_path: Path) -> None:
    with up(tmp_path, "--empty") as (address, _):
        port = address.rsplit(":", 1)[1]
        command = [sys.executable, "manage.py", "up", "--empty", "--port", port]
        env = {**os.environ, "EVENFALL_DATA": str(tmp_path), "DJANGO_SETTINGS_MODULE": "lawn.settings"}
        done = subprocess.run(command, cwd=ROOT, env=env, capture_output=True, text=True, check=False)
    assert done.returncode != 0
    assert "--port 8001" in done.stderr
    assert done.stdout == ""
