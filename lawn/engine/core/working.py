"""The working beside every answer: what was worked out, from what, by which formula, from which source."""

COMMON = "common practice"
DEFINITION = "definition"
N_UNIT = "kg N/m2"  # nitrogen per area, so that nobody reads it as product per area


def step(
    *,
    what: str,
    formula: str,
    numbers: dict[str, object],
    result: object,
    unit: str,
    source: str,
    of: str | None = None,
) -> dict[str, object]:
    """Build one step: formula in words, numbers put in, result with its unit, source key.

    `of` is the id of the zone or product the step is about, where an answer speaks of several.

    A source of `common practice` is a trade fact nobody published; `definition` is what a word means
    (a share, a rate), so there is nothing to cite.
    """
    built: dict[str, object] = {
        "what": what,
        "formula": formula,
        "numbers": numbers,
        "result": result,
        "unit": unit,
        "source": source,
    }
    if of is not None:
        built["of"] = of
    return built


def nitrogen_step(rate_kg_m2: float, n_percent: float, n_kg_m2: float, of: str | None = None) -> dict[str, object]:
    """Build the step for the nitrogen that comes with a product rate."""
    return step(
        what="Nitrogen per area",
        formula="product rate times its share on the label",
        numbers={"rate_kg_m2": rate_kg_m2, "n_percent": n_percent},
        result=n_kg_m2,
        unit=N_UNIT,
        source="UMN-SULIS-F1",
        of=of,
    )


def phosphate_step(
    rate_kg_m2: float, p2o5_percent: float, p2o5_kg_m2: float, of: str | None = None
) -> dict[str, object]:
    """Build the step for the phosphate that comes with a product rate."""
    return step(
        what="Phosphate (P2O5) per area",
        formula="product rate times its share on the label",
        numbers={"rate_kg_m2": rate_kg_m2, "p2o5_percent": p2o5_percent},
        result=p2o5_kg_m2,
        unit="kg/m2",
        source="UMN-SULIS-F1",
        of=of,
    )
