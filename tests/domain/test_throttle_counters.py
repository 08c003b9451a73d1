"""How often one may try: the counter's law, and that it holds between processes."""

import threading

import pytest
from django.db import connection
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase

from lawn.models import ThrottleCount
from lawn.web import throttle_counters

START = 1_700_000_000.0


@pytest.mark.django_db
def test_as_many_as_the_rate_says_pass_at_once_and_then_one_each_step() -> None:
    """5 a minute: five at once, and from then on one each 12 s."""
    waits = [throttle_counters.count_try("a", 5, 60, START) for _ in range(7)]
    assert waits == [0, 0, 0, 0, 0, pytest.approx(12), pytest.approx(12)]
    assert throttle_counters.count_try("a", 5, 60, START + 11.9) == pytest.approx(0.1)
    assert throttle_counters.count_try("a", 5, 60, START + 12.1) == 0
    assert throttle_counters.count_try("a", 5, 60, START + 12.2) > 0


@pytest.mark.django_db
def test_counters_of_different_names_do_not_meet() -> None:
    assert [throttle_counters.count_try(name, 1, 60, START) for name in ("a", "b", "a")] == [0, 0, pytest.approx(60)]


@pytest.mark.django_db
def test_a_refused_try_moves_nothing() -> None:
    throttle_counters.count_try("a", 1, 60, START)
    before = ThrottleCount.objects.get().due
    for _ in range(5):
        throttle_counters.count_try("a", 1, 60, START + 30)
    assert ThrottleCount.objects.get().due == before


@pytest.mark.django_db
def test_after_a_quiet_period_the_counter_is_as_new_and_can_be_forgotten() -> None:
    for _ in range(3):
        throttle_counters.count_try("a", 3, 60, START)
    throttle_counters.forget(START + 59)
    assert ThrottleCount.objects.count() == 1
    throttle_counters.forget(START + 61)
    assert ThrottleCount.objects.count() == 0
    assert [throttle_counters.count_try("b", 3, 60, START + later) for later in (0, 0, 0, 60, 60, 60)] == [0] * 6


class Law(TestCase):
    """In any stretch of one period at most twice the count pass, however one trys."""

    @settings(deadline=None, max_examples=60)
    @given(
        st.integers(1, 6),
        st.lists(st.floats(0, 30, allow_nan=False), min_size=1, max_size=40),
    )
    def test_no_period_lets_more_than_twice_its_count_through(self, count: int, gaps: list[float]) -> None:
        now, passed = START, []
        for gap in gaps:
            now += gap
            if throttle_counters.count_try(f"{count}{gaps}", count, 60, now) == 0.0:
                passed.append(now)
        for begun in passed:
            assert sum(begun <= at < begun + 60 for at in passed) <= 2 * count
        assert passed[0] == START + gaps[0]
        ThrottleCount.objects.all().delete()


@pytest.mark.django_db(transaction=True)
def test_workers_that_try_at_once_count_together() -> None:
    """Each thread has a connection of its own, as each process of a server has."""
    gate, waits = threading.Barrier(8), []

    def many() -> None:
        try:
            gate.wait()
            waits.extend([throttle_counters.count_try("a", 10, 3600, START) for _ in range(5)])
        finally:
            connection.close()

    threads = [threading.Thread(target=many) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(waits) == 40
    assert sum(wait == 0.0 for wait in waits) == 10
