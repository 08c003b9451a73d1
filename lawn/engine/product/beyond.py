"""What no label could allow at once: a slip of the finger, not an aim. Refused in the terms it was typed in."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import at_least

# Most that a label could allow in one application [kg/m2], for what was entered without the label's own rate.
N_MOST_KG_M2 = (0.01952971, "illinois_n")  # 4 lb per 1,000 ft2: the most published for a whole year
LIME_MOST_KG_M2 = (0.4882428, "PSU-HLM")  # 100 lb per 1,000 ft2
SEED_MOST_KG_M2 = (0.1171783, "TAMU-OVERSEED")  # twice the highest published, 12 lb: coated seed is half coat
GRANULES_MOST_KG_M2 = (0.4882428, "common practice")  # 4 lb of nitrogen from the poorest granules, 4 %

MOST = {
    "lime": LIME_MOST_KG_M2[0],
    "seed": SEED_MOST_KG_M2[0],
    "fertilizer": GRANULES_MOST_KG_M2[0],
    "pre_emergent": GRANULES_MOST_KG_M2[0],
    "post_emergent": GRANULES_MOST_KG_M2[0],
}


def refuse_beyond_any_label(
    *,
    kind: str,
    sort: str | None,
    target_kg_m2: float,
    area_m2: float,
    net_kg: float,
    n_percent: float | None,
    given: dict[str, object],
) -> None:
    """Refuse an aim beyond what any label could allow of its sort, naming the field and its own limit.

    Args:
        kind: label, nitrogen or bag [text]
        sort: sort of the product, nothing where it is not known [text]
        target_kg_m2: the aim [kg/m2; 0.000001 to 50]
        area_m2: ground to cover [m2; 0.5 to 100000]
        net_kg: net weight of one bag [kg; 0.01 to 2000]
        n_percent: nitrogen on the label, nothing where it is not known [%; 0 to 100]
        given: what was typed: bags, n_kg_m2 and coverage_m2 [group of values]
    Raises:
        beyond_any_label: the aim is more than the limit
    Source: illinois_n
    """
    most_kg_m2 = most_of(sort=sort, n_percent=n_percent)
    if most_kg_m2 is None or at_least(most_kg_m2, target_kg_m2):
        return
    field, low, high = "aim.bags", 0.0, most_kg_m2 * area_m2 / net_kg
    if kind == "nitrogen" and n_percent:
        field, high = "aim.n_kg_m2", most_kg_m2 * n_percent / 100.0
    if kind == "label":
        field, low, high = "coverage_m2", net_kg / most_kg_m2, 100000.0
    raise EngineError(
        code="beyond_any_label",
        name=field,
        value=given.get(field.split(".")[-1]),
        low=low,
        high=high,
        message="No label could allow so much at once. Check what was entered.",
    )


def most_of(*, sort: str | None, n_percent: float | None) -> float | None:
    """The most product any label could allow at once [kg/m2]; nothing where the sort says nothing and there is no N.

    Args:
        sort: sort of the product, nothing where it is not known [text]
        n_percent: nitrogen on the label, nothing where it is not known [%; 0 to 100]
    Returns:
        most_kg_m2: product per area [kg/m2]
    Source: illinois_n
    """
    limits = [MOST[sort]] if sort in MOST else []
    if n_percent:
        limits.append(N_MOST_KG_M2[0] / (n_percent / 100.0))
    return min(limits) if limits else None
