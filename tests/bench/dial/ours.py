"""Our own dial, asked as the phone asks it: the engine's calls setting.start, setting.next and setting.check.

Only the JSON between is left out. The ground is 100 m2, so that amounts in kg are those per 100 m2.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from lawn.engine.dial import check, setting
from tests.bench.dial.households import Household
from tests.bench.dial.methods import Choice, Mind, Part, Record
from tests.bench.dial.truths import Product

ASKED = "the engine's calls setting.start, setting.next and setting.check, as the phone asks them"
GROUND_M2 = 100.0


@dataclass(frozen=True)
class Ours:
    """What the engine is told of this spreader and product before a pass."""

    told: dict[str, Any]

    def choose(self, load_kg_m2: float, passes_to_go: int, *, first: bool) -> Choice:
        """Start dial or next dial; its 90 % range is that shown for the pass."""
        asked = {**self.told, "area_m2": GROUND_M2}
        if first:  # everything is still there: the load is the aim
            value, _ = setting.start(**asked, passes=passes_to_go)
        else:
            value, _ = setting.next_pass(**asked, left_kg=load_kg_m2 * GROUND_M2, passes_to_go=passes_to_go)
        rate: Any = value["rate_kg_m2"]
        return Choice(_click(value["dial"]), rate["low"], rate["high"])

    def rest(self, part: Part, missing_kg_m2: float, passes_to_go: int) -> int:
        """The dial after a check; as a household that cannot know what it lacks more than it has."""
        value, _ = check.check(
            **self.told,
            area_m2=GROUND_M2,
            now_kg=part.now_kg_m2 * GROUND_M2,
            now_sd_kg=part.now_sd_kg_m2 * GROUND_M2,
            area_done_m2=part.ground * GROUND_M2,
            area_to_go_m2=(1.0 - part.ground) * GROUND_M2,
            dial_now=part.click,
            left_kg=(part.now_kg_m2 + part.used_kg_m2) * GROUND_M2,
            passes_to_go=passes_to_go,
            missing_kg_m2=missing_kg_m2,
        )
        return _click(value["dial"])


def _click(dial: object) -> int:
    assert isinstance(dial, (int, float))
    return round(dial)


def ours(household: Household, product: Product, history: Sequence[Record], target_kg_m2: float) -> Mind:
    """The engine, told what the household knows: each click is one on its dial, 0 closed."""
    return Ours(
        {
            "dial": {"lowest": 0, "highest": household.clicks, "step": 1},
            "product": {"id": product.name, **_on_the_bag(product)},
            "target_kg_m2": target_kg_m2,
            "history": [_past(one) for one in history],
        }
    )


def _on_the_bag(product: Product) -> dict[str, Any]:
    return {"bulk_density_kg_m3": product.density_kg_m3, "granules": product.granules}


def _past(one: Record) -> dict[str, Any]:
    return {
        "product": one.product.name,
        "dial": one.click,
        "area_m2": one.ground * GROUND_M2,
        "used_kg": one.used_kg_m2 * GROUND_M2,
        "left_kg": one.left_kg_m2 * GROUND_M2,
        "measured": "scale",
        "ran_out": one.ran_out,
        "nothing_came": one.used_kg_m2 <= 0.0,
        **_on_the_bag(one.product),
    }
