"""How far off a measurement of product may be: one table for every call that reads what is left or loaded."""

MEASURED = ("scale", "level", "handfuls")
# Likely error of one reading as a share of what was there to be read (source: computed, the design's simulation).
READ_SHARE = {"scale": 0.01, "level": 0.08, "handfuls": 0.25}
MEASURED_SOURCE = "computed"
MOST_ERRORS = 3.0  # a later reading may lie so many likely errors above an earlier one; source: common practice
SHOWN_SHARE = 0.01  # a scale shows a little more than went in: so much is taken as nothing used
LOAD_SHARE = 0.02  # a kitchen or bathroom scale cannot be set finer than this; source: common practice
RAN_OUT_SHARE = 0.03  # of the ground covered when the hopper ran empty, paced out
WORDS = {
    "scale": "a weighing is off by about 1 %",
    "level": "as said of the level, else 8 % of what is in the hopper",
    "handfuls": "handfuls differ by about a quarter",
}


def reading_error_kg(*, measured: str, seen_kg: float) -> float:
    """Likely error of one reading.

    Args:
        measured: how it was read: scale, level or handfuls [text]
        seen_kg: what was read [kg; 0 to 20000]
    Returns:
        sd_kg: its likely error [kg]
    Source: computed
    """
    return READ_SHARE[measured] * seen_kg
