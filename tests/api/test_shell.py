"""The app's own files over HTTP: what is kept how long, under which headers, and what is missing."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from PIL import Image

from lawn.tooling import build
from lawn.tooling.build import FRONTEND

PAGE = b"<!doctype html><title>Built</title>"
WORKER = b"self.addEventListener('fetch', () => {})"


@pytest.fixture
def dist(tmp_path: Path, settings: Any) -> Path:
    """A small build in place of the real one."""
    (tmp_path / "assets").mkdir()
    (tmp_path / "icons").mkdir()
    (tmp_path / "index.html").write_bytes(PAGE)
    (tmp_path / "serviceworker.js").write_bytes(WORKER)
    (tmp_path / "manifest.json").write_bytes(b"{}")
    (tmp_path / "assets" / "main-abcd1234.js").write_bytes(b"plain")
    (tmp_path / "assets" / "main-abcd1234.js.br").write_bytes(b"br")
    (tmp_path / "assets" / "engine-abcd1234.wasm").write_bytes(b"\0asm")
    (tmp_path / "icons" / "icon-192.png").write_bytes(b"png")
    settings.FRONTEND_DIST = tmp_path
    return tmp_path


@pytest.fixture
def pwa_worker(dist: Path, monkeypatch: pytest.MonkeyPatch, settings: Any) -> None:
    settings.PWA_SERVICE_WORKER_PATH = str(dist / "serviceworker.js")
    monkeypatch.setattr("pwa.app_settings.PWA_SERVICE_WORKER_PATH", settings.PWA_SERVICE_WORKER_PATH)


@pytest.mark.parametrize("path", ["/", "/ground", "/ground/new", "/spread/0190-ab", "/join/aZ_9-x", "/enter"])
def test_every_address_of_the_app_gives_the_page_never_kept_unasked(dist: Path, path: str) -> None:
    response = Client().get(path)
    assert (response.status_code, response.content) == (200, PAGE)
    assert response["Cache-Control"] == "no-cache"
    again = Client().get(path, headers={"If-None-Match": response["ETag"]})
    assert (again.status_code, again.content) == (304, b"")


@pytest.mark.parametrize("path", ["/missing.js", "/assets/old-00000000.js", "/assets/x", "/robots.txt", "/static/x"])
def test_a_missing_file_is_not_answered_with_the_page(dist: Path, path: str) -> None:
    assert Client().get(path).status_code == 404


def test_hashed_assets_are_kept_for_good_and_sent_compressed(dist: Path) -> None:
    response = Client().get("/assets/main-abcd1234.js", headers={"Accept-Encoding": "br"})
    assert response.content == b"br"
    assert response["Content-Encoding"] == "br"
    assert "immutable" in response["Cache-Control"]
    assert Client().get("/assets/main-abcd1234.js").content == b"plain"
    assert "immutable" not in Client().get("/icons/icon-192.png")["Cache-Control"]


def test_the_engine_is_served_as_webassembly_and_in_slices(dist: Path) -> None:
    assert Client().get("/assets/engine-abcd1234.wasm")["Content-Type"] == "application/wasm"
    part = Client().get("/assets/engine-abcd1234.wasm", headers={"Range": "bytes=1-2"})
    assert (part.status_code, part.content) == (206, b"as")


def test_the_built_worker_is_served_at_the_root_and_never_kept_unasked(pwa_worker: None) -> None:
    response = Client().get("/serviceworker.js")
    assert response.content == WORKER
    assert response["Content-Type"].startswith("application/javascript")
    assert response["Cache-Control"] == "no-cache, no-store"


def test_s18_the_kill_switch_stands_in_the_workers_place_even_without_a_build(tmp_path: Path, settings: Any) -> None:
    settings.WORKER = False
    settings.FRONTEND_DIST = tmp_path / "none"
    response = Client().get("/serviceworker.js")
    assert response["Content-Type"] == "application/javascript"
    assert response["Cache-Control"] == "no-cache, no-store"
    text = response.content.decode()
    assert "registration.unregister()" in text
    assert "indexedDB" not in text


@pytest.fixture
def builds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, settings: Any) -> Callable[[str], None]:
    """Replace the build by one of that name, as `ensure_built` does, and serve it."""
    monkeypatch.setattr(build, "DIST", tmp_path / "dist")
    monkeypatch.setattr(build, "_NOTES", tmp_path)
    monkeypatch.setattr(build, "FORMER", tmp_path / "former")
    settings.FRONTEND_DIST, settings.FORMER_BUILDS = tmp_path / "dist", tmp_path / "former"

    def replace(name: str) -> None:
        build.set_aside()
        shutil.rmtree(tmp_path / "dist", ignore_errors=True)
        (tmp_path / "dist" / "assets").mkdir(parents=True)
        (tmp_path / "dist" / "assets" / f"main-{name}.js").write_text(name)
        (tmp_path / "dist" / "index.html").write_text(name)
        monkeypatch.setattr(build, "_noted", lambda _: name)

    return replace


def served(*names: str) -> list[str]:
    """Which of those builds' assets the server has."""
    return [name for name in names if Client().get(f"/assets/main-{name}.js").content == name.encode()]


def test_s18_the_hashed_assets_of_three_builds_are_served(builds: Callable[[str], None]) -> None:
    for name in ("one", "two", "three", "four"):
        builds(name)
    assert served("one", "two", "three", "four") == ["two", "three", "four"]
    assert "immutable" in Client().get("/assets/main-two.js")["Cache-Control"]
    assert Client().get("/").content == b"four"


def test_f43_after_a_rollback_pages_of_the_newer_build_still_find_their_assets(builds: Callable[[str], None]) -> None:
    for name in ("old", "newer", "old"):
        builds(name)
    assert served("old", "newer") == ["old", "newer"]
    assert Client().get("/").content == b"old"


def test_s18_a_build_that_never_ended_pushes_none_out(
    builds: Callable[[str], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("one", "two"):
        builds(name)
    build.set_aside()
    (tmp_path / "dist" / "assets" / "main-half.js").write_text("half")
    monkeypatch.setattr(build, "_noted", lambda _: "")  # the note goes as building begins, and comes at its end
    builds("three")
    assert served("one", "two", "half", "three") == ["one", "two", "three"]


def test_the_manifest_comes_from_the_settings_with_icons_that_exist(dist: Path) -> None:
    response = Client().get("/manifest.json")
    manifest = json.loads(response.content)
    assert (manifest["name"], manifest["start_url"], manifest["display"]) == ("Evenfall", "/", "standalone")
    assert {icon["purpose"] for icon in manifest["icons"]} == {"any", "maskable"}
    for icon in manifest["icons"]:
        with Image.open(FRONTEND / "public" / icon["src"].lstrip("/")) as image:
            assert f"{image.width}x{image.height}" == icon["sizes"]


@pytest.mark.parametrize("path", ["/", "/serviceworker.js"])
def test_without_a_build_it_says_how_to_make_one(tmp_path: Path, settings: Any, path: str) -> None:
    settings.FRONTEND_DIST = tmp_path / "none"
    settings.PWA_SERVICE_WORKER_PATH = str(tmp_path / "none" / "serviceworker.js")
    response = Client().get(path)
    assert response.status_code == 503
    assert b"uv run manage.py up" in response.content


@pytest.mark.django_db
@pytest.mark.parametrize(
    "path", ["/", "/api/v1/accounts/me", "/assets/main-abcd1234.js", "/manifest.json", "/admin/of-the-tests/"]
)
def test_every_answer_carries_the_headers_that_keep_others_out(dist: Path, path: str) -> None:
    response = Client().get(path)
    policy = dict(part.strip().split(" ", 1) for part in response["Content-Security-Policy"].split(";"))
    assert policy["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert policy["default-src"] == policy["worker-src"] == policy["connect-src"] == "'self'"
    assert policy["frame-ancestors"] == policy["object-src"] == "'none'"
    assert "unsafe-inline" not in response["Content-Security-Policy"]
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Referrer-Policy"] == "same-origin"


def test_the_admin_has_its_own_style(db: None) -> None:
    assert Client().get("/static/admin/css/base.css").status_code == 200


def test_only_reading_is_allowed(dist: Path) -> None:
    assert Client().post("/ground").status_code == 405
