"""PouchDB beside us: its express server on LevelDB, installed and run by the bench alone."""

import json
import subprocess
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from lawn.tooling import nodejs

HERE = Path(__file__).parents[1] / "pouch"
Entry = dict[str, Any]
# How PouchDB is told to replicate: as it comes (batches of 100), and by batches as large as our pages.
REPLICATION: dict[str, dict[str, int]] = {"default": {}, "by_1000": {"batch_size": 1000}}


def ensure_installed(say: Callable[[str], None]) -> None:
    """Fetch the pinned packages once, into a folder git does not look at; none of them runs anything on the way."""
    if not (HERE / "node_modules" / "express-pouchdb").is_dir():
        say("installing what is measured beside (npm, once) ...")
        kept = ["install", "--ignore-scripts", "--no-package-lock", "--no-audit", "--no-fund", "--loglevel", "error"]
        subprocess.run([*nodejs.npm(), *kept], cwd=HERE, env=nodejs.environment(), check=True)


@contextmanager
def served() -> Iterator[str]:
    """A running server; its address."""
    with tempfile.TemporaryDirectory(prefix="beside-") as folder:
        command = [nodejs.node(), str(HERE / "server.cjs"), folder]
        with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as process:
            assert process.stdout is not None
            port = process.stdout.readline().strip()
            try:
                if not port:
                    raise RuntimeError("the server measured beside did not start")
                yield f"http://127.0.0.1:{port}"
            finally:
                process.kill()


def between_nodes(url: str, number: int, entries: Sequence[Entry], how: str = "by_1000") -> dict[str, float]:
    """Entries sent by a phone in Node and fetched by a second, both on LevelDB, set up as REPLICATION says; ms."""
    with tempfile.TemporaryDirectory(prefix="beside-phones-") as folder:
        file = Path(folder) / "entries.json"
        file.write_text(json.dumps(list(entries)))
        command = [nodejs.node(), str(HERE / "phones.cjs"), f"{url}/db/nodes{number}{how}", folder, str(file)]
        command.append(json.dumps(REPLICATION[how]))
        done = subprocess.run(command, check=True, capture_output=True, text=True)
    found: dict[str, float] = json.loads(done.stdout)
    return found
