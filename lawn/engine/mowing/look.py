"""A height of the grass as somebody read it, and how far off that likely is."""

from lawn.engine.core.errors import missing
from lawn.engine.core.glossary import GLOSSARY
from lawn.engine.core.numeric import choice, number, optional_number
from lawn.engine.core.working import COMMON, step
from lawn.engine.mowing.learn import CUT_ERROR_MM, RULER_ERROR_MM
from lawn.engine.mowing.notch import notches_of

RULER, OVER_NOTCH = "ruler", "over_notch"
NOTCH_ERROR_MM = 8.0  # of an eye that lays the grass beside the lever (common practice)
USUAL_STEP_MM = 12.7  # half an inch from notch to notch, where no notch above is on record (common practice)


def look(
    *, by: str, height_mm: float | None = None, cut_mm: float | None = None, notches: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The height a look at the grass tells, and its likely error: both ways of looking can be learnt from.

    Args:
        by: a ruler in the grass, or "about one notch over the last cut" [one of ruler, over_notch]
        height_mm?: what the ruler says; wanted with ruler [mm; 2 to 2000]
        cut_mm?: height of the last cut; wanted with over_notch [mm; 2 to 500]
        notches?: the mower's notches; half an inch is taken where no notch is above the cut [list]
        notches.name: what stands beside the notch [text]
        notches.notch_mm: height it cuts at, measured with a ruler on level ground [mm; 5 to 200]
    Returns:
        height_mm: height of the grass [mm]
        error_mm: likely error of it [mm]
    Raises:
        out_of_range: an argument is outside its range
        missing_argument: a ruler's height, or the last cut
        impossible: two notches cut at the same height
    Source: common practice
    """
    if choice("by", by, (RULER, OVER_NOTCH)) == RULER:
        height = _wanted("height_mm", height_mm)
        return _said(height, RULER_ERROR_MM, "what the ruler says", {"height_mm": height})
    cut = _wanted("cut_mm", cut_mm)
    above = _above(cut, notches)
    words = "the next notch above the last cut; half an inch above it where none is on record"
    numbers: dict[str, object] = {"cut_mm": cut, "notch_mm": above, "usual_step_mm": USUAL_STEP_MM}
    return _said(cut + USUAL_STEP_MM if above is None else above, NOTCH_ERROR_MM, words, numbers)


def _wanted(name: str, value: "float | None") -> float:
    given = optional_number(name, value)
    if given is None:
        _, _, low, high = GLOSSARY[name]
        raise missing(name=name, low=low, high=high)
    return given


def _above(cut: float, notches: object) -> "float | None":
    """The notch above the one that was cut at: a cut within its error of a notch was made at that notch."""
    for height, _ in [] if notches is None else notches_of(notches):
        if height > cut + CUT_ERROR_MM:
            return height
    return None


def _said(
    height: float, error: float, words: str, numbers: "dict[str, object]"
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    high = number("height_mm", height)
    value: dict[str, object] = {"height_mm": high, "error_mm": error}
    off = "3 mm by ruler, 8 mm by eye"
    return value, [
        step(what="Height of the grass", formula=words, numbers=numbers, result=high, unit="mm", source=COMMON),
        step(what="Likely error", formula=off, numbers={"height_mm": high}, result=error, unit="mm", source=COMMON),
    ]
