"""Another build of the app: the same code under other names, as any change of the code would give it.

Every hashed asset gets a name of its own, and with it the page and the worker that name them; so a phone sees a new
build whose files it has none of.
"""

import re
import shutil
from pathlib import Path

from tests.journeys.server import Server

PACKED = (".br", ".gz")
TEXT = (".js", ".mjs", ".css", ".html", ".json")


def other_build(dist: Path, to: Path, tag: str) -> Path:
    """Write the build in `dist` to `to`, each hashed file renamed by `tag`; `to`."""
    shutil.copytree(dist, to, ignore=shutil.ignore_patterns(*(f"*{end}" for end in PACKED)))
    names = {path.name: f"{path.stem}{tag}{path.suffix}" for path in (to / "assets").iterdir()}
    for path in [path for path in to.rglob("*") if path.suffix in TEXT]:
        path.write_text(_renamed(path.read_text(), names, tag))
    for path in list((to / "assets").iterdir()):
        path.rename(path.with_name(names[path.name]))
    return to


def _renamed(text: str, names: dict[str, str], tag: str) -> str:
    found = re.compile("|".join(re.escape(name) for name in names))
    text = found.sub(lambda match: names[match[0]], text)
    # The shell's own revision in the worker's list; its content has changed with the names.
    return re.sub(r'("revision":"[0-9a-f]+)(","url":"/")', rf"\g<1>{tag}\g<2>", text)


def serve(server: Server, build: Path, former: Path | None = None, worker: bool = True) -> None:
    """Start the server anew with that build, the hashed files of `former` kept beside it as after a real build."""
    server.stop()
    kept = build.parent / "former" / "1" / "assets"
    shutil.rmtree(kept, ignore_errors=True)
    if former:
        shutil.copytree(former / "assets", kept)
    server.settings = {
        "DJANGO_SETTINGS_MODULE": "tests.journeys.other_settings",
        "JOURNEYS_BUILD": str(build),
        "EVENFALL_WORKER": "on" if worker else "off",
    }
    server.start()
