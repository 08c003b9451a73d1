"""Engine calls on the server's Python beside the phone's MicroPython in Node: same files, same arguments."""

import json
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from lawn.engine import door
from lawn.tooling import build, phone_engine
from tests.bench.figures import Figure, timed

RUNS = 15
ENTRIES = 1_000
_PARITY = build.ROOT / "fixtures" / "parity"
# The first case of each that is answered with a value; a day's use asks for these.
_FROM_PARITY = {
    "label": ("label.rate", "label.aim"),
    "area": ("area.shapes",),
    "lawn_care": ("mowing.cut",),
    "spreading": ("spreading.start", "spreading.next"),
}


def measure(say: Callable[[str], None], runs: int = RUNS) -> list[Figure]:
    """Time each call on both runtimes."""
    build.ensure_modules(say)
    cases = [*_parity_cases(), ("spreading.next, 50 passes known", "spreading.next", long_history())]
    cases.append((f"record.totals, {ENTRIES:,} entries", "record.totals", year_of_entries(ENTRIES)))
    asked = [{"call": call, "args": args} for _, call, args in cases]
    phone = phone_engine.times(asked, runs)
    server = [server_times(call, args, runs) for _, call, args in cases]
    return [
        timed("engine", f"{what} on MicroPython", "ms", mine, "on CPython", other)
        for (what, _, _), mine, other in zip(cases, phone, server, strict=True)
    ]


def server_times(call: str, args: dict[str, Any], runs: int) -> list[float]:
    """Milliseconds of each call on this Python; the first is not counted."""
    text = json.dumps(args)
    answer = json.loads(door.call_json(call, text))
    if "error" in answer:
        raise ValueError(f"the bench asks {call} amiss: {answer['error']}")
    found = []
    for _ in range(runs):
        began = time.perf_counter()
        door.call_json(call, text)
        found.append((time.perf_counter() - began) * 1000)
    return found


def _parity_cases() -> list[tuple[str, str, dict[str, Any]]]:
    return [(call, call, _first(topic, call)) for topic, calls in _FROM_PARITY.items() for call in calls]


def _first(topic: str, call: str) -> dict[str, Any]:
    cases = json.loads((_PARITY / f"{topic}.json").read_text())["cases"]
    args: dict[str, Any] = next(
        case["args"]
        for case in cases
        if case["call"] == call and not any(key.startswith("error") for key in case["expect"])
    )
    return args


def long_history() -> dict[str, Any]:
    """A spreader that has been out fifty times (invented)."""
    history = [
        {"product": f"p{i % 5}", "dial": 6 + i % 9, "area_m2": 100, "used_kg": 0.6 + 0.1 * (i % 9), "measured": "scale"}
        for i in range(50)
    ]
    return {**_first("spreading", "spreading.next"), "product": {"id": "p0"}, "history": history}


def year_of_entries(count: int) -> dict[str, Any]:
    """A log of mows, spreading jobs and counts over four zones and three products, back from one day (invented)."""
    return {"entries": [_entry(number) for number in range(count)], "today": "2026-06-30"}


def _entry(number: int) -> dict[str, Any]:
    day = datetime(2026, 6, 30, 18) - timedelta(hours=7 * number)
    zone, product = f"zone{number % 4}", f"product{number % 3}"
    entry = {
        "id": f"entry{number}",
        "occurred_at": f"{day.isoformat()}+02:00",
        "zone_ids": [zone],
        "void": number % 50 == 7,
    }
    if number % 5 == 1:
        spread = {"zone_id": zone, "area_m2": 200.0, "used_kg": 4.0, "n_kg_m2": 0.0048}
        return {**entry, "kind": "spread", "product_id": product, "used_kg": 4.0, "zones": [spread]}
    if number % 40 == 2:
        return {**entry, "kind": "stock_count", "zone_ids": [], "product_id": product, "left_kg": 12.5}
    return {**entry, "kind": "mow", "cut_height_mm": 65}
