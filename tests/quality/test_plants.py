"""The planted faults: each still has its place and its tests, and a sample of them is planted and caught.

All of them take some minutes: `uv run manage.py plant --all --jobs 2`.
"""

import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from tests.plants import running
from tests.plants.catalogue import ALL, TOPICS
from tests.plants.fault import ROOT, Named, Planted
from tests.plants.tree import copied

PLANTS = list(ALL.values())
IN_PYTHON = [plant for plant in PLANTS if plant.file.endswith(".py")]
# One of each topic, by quick tests. That these pass without a fault, the suite shows beside it.
SAMPLE = ("gap_ignored", "late_loser_not_kept", "bucket_wrong", "last_keeper_goes", "picture_hash_not_checked")
PHONE_SAMPLE = ("hash_made_anew", "retry_after_ignored")


def planted_text(plant: Planted) -> str:
    return plant.in_text((ROOT / plant.file).read_text(encoding="utf-8"))


def test_there_are_at_least_forty_and_no_two_of_one_name() -> None:
    names = Counter(plant.name for plants in TOPICS.values() for plant in plants)
    assert [name for name, times in names.items() if times > 1] == []
    assert len(names) >= 40


@pytest.mark.parametrize("plant", PLANTS, ids=lambda plant: plant.name)
def test_a_fault_has_its_place_and_the_tests_that_catch_it(plant: Planted) -> None:
    assert planted_text(plant) != (ROOT / plant.file).read_text(encoding="utf-8")
    assert plant.by
    assert [str(test) for test in plant.by if not test.is_there()] == []
    assert plant.wrong.endswith(".")


def test_faults_in_python_are_sound_python(tmp_path: Path) -> None:
    """No fault of the language: each compiles, and each name in it is known (ruff's F821)."""
    for plant in IN_PYTHON:
        (tmp_path / f"{plant.name}.py").write_text(planted_text(plant), encoding="utf-8")
    command = [sys.executable, "-m", "ruff", "check", "--isolated", "--select", "E9,F821", "--quiet", str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


def test_a_sample_of_the_servers_faults_is_caught() -> None:
    sample = [ALL[name] for name in SAMPLE]
    assert [str(found) for found in running.outcomes(sample, 1) if not found.caught] == []


def test_a_sample_of_the_phones_faults_is_caught(node_modules: Path) -> None:
    sample = [ALL[name] for name in PHONE_SAMPLE]
    assert [str(found) for found in running.outcomes(sample, 1) if not found.caught] == []


def test_what_is_no_fault_survives_and_a_broken_one_is_not_called_caught() -> None:
    """The machinery itself: only a test that fails as tests do counts, and the copy is put back as it was."""
    by = (Named("tests/properties/test_merge_groups.py", "test_s02_b_equal_stamps_are_decided_by_the_op_id"),)
    place = "        return (clock.rank(self.hlc), self.version)\n"
    cases = {
        place + "\n\n": "passed",
        place.replace("self.version", "verzion"): "the fault does not run (NameError)",
        place.replace(")", "("): "did not run",
    }
    with copied() as tree:
        file = tree.root / "lawn/book/merging/merge.py"
        before = file.read_bytes()
        for instead, how in cases.items():
            outcome = running.planted(
                tree, Planted("no_fault", "Nothing.", "lawn/book/merging/merge.py", place, instead, by)
            )
            assert ([run.how for run in outcome.runs], outcome.caught) == ([how], False)
            assert file.read_bytes() == before
    assert (ROOT / "lawn/book/merging/merge.py").read_bytes() == before
