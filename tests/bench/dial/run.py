"""Households in parallel: every method walks the same applications under the same chance."""

import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from multiprocessing import Pool

from lawn.engine.core.errors import EngineError
from tests.bench.dial.applying import Done, Way, apply
from tests.bench.dial.households import APPLICATIONS, household
from tests.bench.dial.methods import Maker, Record, fixed_curve, rule_of_thumb
from tests.bench.dial.oracle import oracle
from tests.bench.dial.ours import ours

METHODS = ("rule of thumb", "fixed curve", "oracle", "ours")
ADVISED = 0  # passes: as the tool advises, three at a first meeting and two when known
FIRST_MEETING, KNOWN = 3, 2
PROTOCOLS = {KNOWN: "two passes", FIRST_MEETING: "three passes", ADVISED: "as advised: three when first met, then two"}
CHUNK = 20


@dataclass(frozen=True)
class Setting:
    """What a group of households is put through; the number of passes in `way` is filled in by the protocol."""

    kind: str  # of truth
    protocol: int
    way: Way
    methods: tuple[str, ...] = METHODS


@dataclass(frozen=True)
class Row:
    """One application of one household by one method."""

    setting: Setting
    method: str
    application: int  # 1 to 5; 6 is the first of another product
    shape: str
    done: Done


def maker_of(method: str, way: Way) -> Maker:
    """The method by its name."""
    makers: dict[str, Maker] = {
        "rule of thumb": rule_of_thumb,
        "fixed curve": fixed_curve,
        "oracle": partial(oracle, shared=way.shared),
        "ours": ours,
    }
    return makers[method]


def walk_household(seed: int, setting: Setting, method: str) -> Iterator[Row]:
    """Five applications of one product, then one of another."""
    home = household(seed, setting.kind)
    maker = maker_of(method, setting.way)
    history: list[Record] = []
    for number in range(APPLICATIONS + 1):
        other = number == APPLICATIONS
        passes = setting.protocol or (FIRST_MEETING if number == 0 or other else KNOWN)
        way = replace(setting.way, passes=passes)
        done = apply(home, home.products[1 if other else 0], maker, history, number, way)
        yield Row(setting, method, number + 1, home.shape, done)


def _chunk(job: tuple[Setting, int, int]) -> list[Row]:
    setting, first, count = job
    rows: list[Row] = []
    for seed in range(first, first + count):
        for method in setting.methods:
            try:
                rows.extend(walk_household(seed, setting, method))
            except EngineError as error:  # it cannot travel between processes, so the pool would wait for ever
                raise RuntimeError(f"{method}, household {seed} of {setting}: {error.message}") from None
    return rows


def walk_all(
    settings: Sequence[tuple[Setting, int]], seed: int, say: Callable[[str], None], workers: int | None = None
) -> list[Row]:
    """Walk each setting's number of households, from `seed` on, on every core but politely."""
    jobs = [
        (setting, seed + at, min(CHUNK, count - at)) for setting, count in settings for at in range(0, count, CHUNK)
    ]
    rows: list[Row] = []
    with Pool(workers or os.cpu_count(), initializer=os.nice, initargs=(10,)) as pool:
        for done, found in enumerate(pool.imap(_chunk, jobs), 1):
            rows.extend(found)
            if done % 20 == 0 or done == len(jobs):
                say(f"dial: {done} of {len(jobs)} lots of up to {CHUNK} households walked")
    return rows
