"""What the project depends on: pinned to the last one, unaltered, under licences that let it be passed on.

Published weaknesses are asked for by a program of its own (`tests/quality/audit.py` says why); its judgement is tested
here on answers in the registries' forms.
"""

import json
import re
from importlib.metadata import Distribution
from typing import Any

import pytest

from lawn.tooling.build import FRONTEND
from tests.quality import audit
from tests.quality.installed import distributions, plain, project, runtime

# SPDX names (https://spdx.org/licenses/), and the older words that packages still use for them. Free to use and pass
# on; LGPL and MPL ask only that changes to the package itself be shared, and we change none.
ALLOWED = re.compile(
    r"\b(MIT|MIT-CMU|HPND|BSD|0BSD|BSD-[23]-Clause|Apache|Apache-2\.0|ISC|PSF|PSF-2\.0|Python-2\.0|MPL-2\.0|MPL|LGPL|"
    r"LGPL-3\.0-only|BlueOak-1\.0\.0|CC0-1\.0|CC-BY-4\.0|Unlicense|Zlib)\b"
)
REFUSED = re.compile(r"\b(?<!L)(?:A?GPL|SSPL|BUSL|Proprietary|UNLICENSED|Commercial)", re.I)
# Packages that run a program of their own when they are installed, each with what it does.
MAY_RUN_AT_INSTALL: dict[str, str] = {}
LOCK: dict[str, Any] = json.loads((FRONTEND / "package-lock.json").read_text())
NODE = {path: package for path, package in LOCK["packages"].items() if path}


def licence(found: Distribution) -> str:
    """What a distribution says of its licence: the SPDX expression where it has one."""
    said = found.metadata

    def first(name: str) -> str:
        return str((said.get_all(name) or [""])[0])

    classified = " ".join(line for line in said.get_all("Classifier") or [] if line.startswith("License"))
    return first("License-Expression") or f"{classified} {first('License')[:60]}".strip()


def test_every_distribution_the_server_runs_on_is_the_pinned_one() -> None:
    lines = [line for part in project().values() for line in part]
    pins = {plain(re.split(r"[\[=]", line)[0]): line.split("==")[1] for line in lines}
    assert len(runtime()) > len(project()["server"])
    assert {name: version for name, version in runtime().items() if pins.get(name) != version} == {}


def test_nothing_is_installed_from_a_place_other_than_a_registry() -> None:
    """direct_url.json is written for what came from a folder, an address or a version control system (PEP 610)."""
    assert [name for name, found in distributions().items() if found.read_text("direct_url.json")] == []


def test_every_licence_of_the_server_lets_it_be_passed_on() -> None:
    said = {name: licence(found) for name, found in distributions().items()}
    assert {name: text for name, text in said.items() if REFUSED.search(text) or not ALLOWED.search(text)} == {}


def test_every_licence_of_the_phone_app_and_its_tools_lets_it_be_passed_on() -> None:
    said = {path: str(package.get("license")) for path, package in NODE.items()}
    assert {path: text for path, text in said.items() if REFUSED.search(text) or not ALLOWED.search(text)} == {}


def test_no_package_runs_a_program_when_it_is_installed() -> None:
    runs = {path.rsplit("node_modules/", 1)[1] for path, package in NODE.items() if package.get("hasInstallScript")}
    assert runs == set(MAY_RUN_AT_INSTALL)


def test_every_package_of_the_phone_app_is_held_to_its_content() -> None:
    assert {path for path, package in NODE.items() if not package.get("integrity", "").startswith("sha512-")} == set()
    assert {path for path, package in NODE.items() if package.get("link") or "resolved" in package} == set()


@pytest.mark.parametrize("text", ["GPL-3.0-only", "AGPL-3.0", "UNLICENSED", "", "None", "SEE LICENSE IN FILE"])
def test_a_licence_that_is_not_listed_is_refused(text: str) -> None:
    assert REFUSED.search(text) or not ALLOWED.search(text)


# --- the judgement of the audit --------------------------------------------------------------------

KNOWN = {"info": {"yanked": False}, "vulnerabilities": [{"id": "PYSEC-0000-1", "fixed_in": ["2.0"], "withdrawn": None}]}
TAKEN_BACK = {"info": {}, "vulnerabilities": [{"id": "PYSEC-0000-2", "withdrawn": "2026-01-01T00:00:00Z"}]}
CLEAN: dict[str, Any] = {"info": {"yanked": False}, "vulnerabilities": []}


@pytest.mark.parametrize(
    ("answer", "found", "code"),
    [
        (KNOWN, ["one 1.0: PYSEC-0000-1, mended in 2.0"], 1),
        ({**CLEAN, "info": {"yanked": True}}, ["one 1.0: withdrawn by its makers"], 1),
        (TAKEN_BACK, [], 0),
        (CLEAN, [], 0),
        (None, [], 2),
        ({"info": {}}, [], 2),
    ],
)
def test_the_audit_fails_on_a_weakness_and_never_takes_silence_for_none(
    answer: dict[str, Any] | None, found: list[str], code: int
) -> None:
    told = audit.python_answers({"one": "1.0"}, lambda path: answer)
    assert (told.found, audit.verdict([told, audit.Told([])])) == (found, code)


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ('{"vulnerabilities": {"one": {"severity": "high", "range": "<2"}}}', 1),
        ('{"vulnerabilities": {}}', 0),
        ('{"message": "405 Method Not Allowed"}', 2),
        ("", 2),
    ],
)
def test_the_audit_reads_npms_report_and_its_silence(said: str, code: int) -> None:
    assert audit.verdict([audit.Told([]), audit.npm_answers(said)]) == code
