"""The phone and the server read any written number alike: random texts through both grammars."""

import json
import random
import subprocess

import pytest

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND
from lawn.units.numbers_as_written import WrittenError, read_number

PIECES = [
    *"0123456789",
    ",",
    ".",
    " ",
    "/",
    "-",
    "+",
    "00",
    "000",
    ",500",
    " 250",
    "1/2",
    "½",
    "\u202f",
    "\u2212",
    "a",
    "e",
]
SCRIPT = """
const { readNumber } = await import(process.argv[1]);
let text = "";
for await (const part of process.stdin) text += part;
console.log(JSON.stringify(JSON.parse(text).map(([one, comma]) => readNumber(one, comma))));
"""


def texts(seed: int, count: int) -> list[tuple[str, bool]]:
    chance = random.Random(seed)  # repeatable texts, no secret
    return [
        ("".join(chance.choice(PIECES) for _ in range(chance.randint(1, 7))), chance.random() < 0.5)
        for _ in range(count)
    ]


def on_the_phone(asked: list[tuple[str, bool]]) -> list[dict[str, object]]:
    module = (FRONTEND / "src" / "format" / "number.ts").as_uri()
    command = [nodejs.node(), "--input-type=module", "--no-warnings", "-e", SCRIPT, module]
    done = subprocess.run(command, input=json.dumps(asked), capture_output=True, text=True, check=True)
    found: list[dict[str, object]] = json.loads(done.stdout)
    return found


def here(text: str, comma: bool) -> dict[str, object]:
    try:
        return {"ok": True, "value": float(read_number(text, comma=comma))}
    except WrittenError as refused:
        return {"ok": False, "code": refused.code, "message": refused.message}


def test_both_read_or_refuse_the_same_texts_with_the_same_words() -> None:
    asked = texts(seed=24_0_6, count=5000)
    answers = on_the_phone(asked)
    read = 0
    for (text, comma), phone in zip(asked, answers, strict=True):
        server = here(text, comma)
        if server["ok"]:
            read += 1
            assert phone["ok"], (text, comma, phone)
            assert phone["value"] == pytest.approx(server["value"], rel=1e-15), text
        else:
            assert phone == server, (text, comma)
    assert 500 < read < 4500  # both sorts were met
