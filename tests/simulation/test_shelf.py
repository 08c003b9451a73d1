"""The shelf behaves as the database does: the same seeds on SQLite live the same lives, word by word."""

import pytest
from django.db import transaction

from tests.simulation.batch import live
from tests.simulation.desk import Database
from tests.simulation.memory.shelf import Shelf
from tests.simulation.phones import Phones

SAMPLE = range(1000, 1008)


class _Undone(Exception):
    pass


@pytest.mark.django_db
def test_s12_seeds_live_the_same_on_the_shelf_and_on_the_database(node_modules: object) -> None:
    different = []
    with Phones() as phones:
        for seed in SAMPLE:
            on_shelf = live(seed, phones, Shelf())
            try:
                with transaction.atomic():
                    in_database = live(seed, phones, Database())
                    raise _Undone
            except _Undone:
                pass
            if on_shelf.trace != in_database.trace or in_database.failed:
                different.append((seed, in_database.faults))
    assert different == []
