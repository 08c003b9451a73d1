"""The working beside every answer: what was worked out, from what, by which formula, from which source."""

COMMON = "common practice"
DEFINITION = "definition"


def step(
    *,
    what: str,
    formula: str,
    numbers: dict[str, object],
    result: object,
    unit: str,
    source: str,
) -> dict[str, object]:
    """Build one step: formula in words, numbers put in, result with its unit, source key.

    A source of `common practice` is a trade fact nobody published; `definition` is what a word means
    (a share, a rate), so there is nothing to cite.
    """
    return {
        "what": what,
        "formula": formula,
        "numbers": numbers,
        "result": result,
        "unit": unit,
        "source": source,
    }
