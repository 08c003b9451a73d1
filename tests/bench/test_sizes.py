"""What the first load weighs, and that the engine waits for the first paint: the same at any speed of the machine."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest

from tests.bench.sizes import AT_THE_START, ENGINE, SHELL_LIMIT_KB, Built, total_kb
from tests.journeys import acts
from tests.journeys.browsers import chromium
from tests.journeys.server import Server

# Notes when each worker is made. (The browser's own entry for a worker's script does not say when it was asked for.)
WATCH = """
window.__workers = [];
window.Worker = class extends Worker {
  constructor(...given) {
    window.__workers.push([String(given[0]), performance.now()]);
    super(...given);
  }
};
"""
# When the page painted, when it made workers, when it asked for files itself: all by one clock.
TIMES = """
const paint = performance.getEntriesByName("first-contentful-paint")[0];
const asked = performance.getEntriesByType("resource").filter(({ initiatorType }) => initiatorType !== "other");
return { painted: paint.startTime, asked: asked.map(({ name, startTime }) => [name, startTime]), workers: __workers };
"""


class FirstLoad:
    """A phone that has never seen the app opens it and starts a book; what the page asked for, in order."""

    def __init__(self, phone: Any, dist: Path) -> None:
        self.phone, self.dist = phone, dist
        self.names: list[str] = []
        phone.page.on("request", lambda request: self.names.append(urlsplit(request.url).path.lstrip("/")))
        phone.page.add_init_script(WATCH)
        phone.open("/")
        phone.see_role("heading", "Evenfall")
        phone.wait(lambda: phone.evaluate("return __workers.length"), "the engine is not started")
        self.times = phone.evaluate(TIMES)
        acts.sign_up(phone, "first@load.example")

    @property
    def engine(self) -> list[str]:
        """The engine's files among them."""
        return [name for name in self.names if name.removeprefix("assets/").startswith(ENGINE)]

    @property
    def shell(self) -> set[Path]:
        """The page, its scripts and its styles; every address of the app is answered with the one page."""
        kinds = (".js", ".mjs", ".css")
        files = {self.dist / name for name in self.names if name.endswith(kinds) and name not in self.engine}
        return {self.dist / "index.html", *files} - {self.dist / "serviceworker.js"}


@pytest.fixture(scope="module")
def first_load(built_frontend: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[FirstLoad]:
    server = Server()
    try:
        server.start()
        with chromium() as make:
            phone = make(server.url, tmp_path_factory.mktemp("pictures"))
            try:
                yield FirstLoad(phone, built_frontend)
            finally:
                phone.quit()
    finally:
        server.close()


def test_each_part_fetched_at_the_start_has_a_file_of_its_name(built_frontend: Path) -> None:
    names = [path.name for path in Built(built_frontend).shell]
    assert [part for part in AT_THE_START if not any(name.startswith(part) for name in names)] == []


def test_the_shell_of_the_first_load_is_within_150_kb(first_load: FirstLoad) -> None:
    assert len(first_load.shell) > 3, first_load.names
    assert total_kb(sorted(first_load.shell)) <= SHELL_LIMIT_KB, sorted(path.name for path in first_load.shell)


def test_the_bench_weighs_every_file_that_the_first_load_fetches(first_load: FirstLoad, built_frontend: Path) -> None:
    """Beyond those of the bench's list, only the place where a book is begun was opened."""
    beyond = {path.name.split("-")[0] for path in first_load.shell - set(Built(built_frontend).shell)}
    assert beyond == {"entrance"}


def test_the_engine_is_asked_for_only_after_the_first_paint(first_load: FirstLoad) -> None:
    times = first_load.times
    assert times["painted"] > 0
    assert [at >= times["painted"] for _, at in times["workers"]] == [True], times
    early = [name for name, at in times["asked"] if at < times["painted"]]
    assert not [name for name in early if name.rpartition("/")[2].startswith(ENGINE)]
    # The rest of the engine is asked for by that worker; the page itself asks for none of it.
    assert {name.split("-")[0] for name in first_load.engine} <= {
        "assets/worker",
        "assets/micropython",
        "assets/engine",
    }
    assert first_load.engine[:1] == [urlsplit(times["workers"][0][0]).path.lstrip("/")]
