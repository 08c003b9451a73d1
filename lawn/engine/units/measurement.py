"""One measurement as people write it: "50 lb", "5,000 sq ft", "1 1/2 lb", "15 lb 8 oz", "3 lb per 1,000 sq ft"."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import choice, text, total
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.units import table
from lawn.engine.units.number import number_of, refuse
from lawn.engine.units.pieces import pieces_of
from lawn.engine.units.wording import DIGITS, LETTERS, plain_words

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

QUANTITIES: "dict[str, tuple[str, str]]" = table.QUANTITIES
UNITS: "tuple[tuple[Any, ...], ...]" = table.UNITS
MOST_LETTERS = 200
APART_SHARE = 0.02  # two figures of one label may differ by so much, since both are rounded
SAME_SHARE = 1e-9
BY_KEY = {row[0]: row for row in UNITS}
KEYS = tuple([row[0] for row in UNITS])
SORTS = tuple(sorted(QUANTITIES))
KEY, QUANTITY, METRIC, LABEL, FACTOR, WORDS, ZERO = range(7)
ANY = "Enter a number and a unit, such as 48 lb, 4,800 sq ft or 3 lb per 1,000 sq ft."
NITROGEN = (" of nitrogen", " of n", " nitrogen", " n")
# Words that mean different weights to different people.
TWO_MEANINGS = {
    "ton": "A ton is 2,000 lb in the US and 2,240 lb in the UK; a tonne is 1,000 kg.",
    "tons": "A ton is 2,000 lb in the US and 2,240 lb in the UK; a tonne is 1,000 kg.",
}


def read(
    *, text: str, unit: str | None = None, quantity: str | None = None
) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """Read one measurement as written; a unit written behind the number wins over the one the box is set to.

    Several pieces add up where each unit is smaller than the one before ("15 lb 8 oz"). A second figure in brackets, as
    on labels ("48 lb (21.8 kg)"), must agree within 2 %. So much per area is a rate, or with "N" an amount of nitrogen.
    What can be read two ways is refused, with both.

    Args:
        text: what was written [text]
        unit?: unit the box is set to, a key of fixtures/units.json: a bare number is read in it [text]
        quantity?: sort of measurement wanted, a key of fixtures/units.json; that of `unit` where it is not given [text]
    Returns:
        value: the measurement in the unit its sort is stored in [as stored]
        stored_in: that unit [text]
        quantity: its sort [text]
        amount: the number as typed; all of the text where it is more than one number and unit [text]
        unit: key of its first unit; empty for so much per area in a unit that is none of ours [text]
        parts: what was read, piece by piece [list]
        parts.number: the number of the piece [in its unit]
        parts.unit: key of its unit [text]
    Raises:
        empty: nothing is written
        unit: the unit is none of this sort, or can mean two things
        not_a_measurement: it is no number with a unit
        two_figures: the figures of a label disagree
        zero_division: a fraction over 0, or so much per no area
        comma: a comma can be read two ways
        point: a point can be read two ways
        grouping: thousands are grouped in a way that cannot be read
        not_a_number: no number stands there
    Source: definition
    Checked: 2 lb 4 oz is 1.0205828325 kg, by the exact pound of 0.45359237 kg (definition)
    """
    written = _written(text)
    box = BY_KEY[choice("unit", unit, KEYS)] if unit is not None else None
    wanted = choice("quantity", quantity, SORTS) if quantity is not None else None
    if box is not None and wanted is not None and box[QUANTITY] != wanted:
        raise refuse("unit", written, "The unit of the box is none of this sort. " + _allowed(wanted))
    if box is not None and not _has_words(written):
        found = _bare(written, box)
    else:
        found = _labeled(written, wanted if box is None else box[QUANTITY])
    return found, [_step(found)]


def _written(given: object) -> str:
    if given == "":
        raise refuse("empty", "", "Nothing is written here. " + ANY)
    written = text("text", given)
    if len(written) > MOST_LETTERS:
        raise refuse("not_a_measurement", written[:MOST_LETTERS], "This is too long for one measurement. " + ANY)
    return written


def _has_words(written: str) -> bool:
    return any(one in LETTERS + "²³'\"′″" for one in plain_words(written=written))


def _bare(written: str, box: "tuple[Any, ...]") -> "dict[str, Any]":
    number = number_of(written=written, comma=box[METRIC])
    return _found((number - box[ZERO]) * box[FACTOR], box[QUANTITY], written.strip(), box[KEY], [(number, box)])


def _labeled(written: str, quantity: str | None) -> "dict[str, Any]":
    """A text as a label has it, perhaps with the same once more in brackets."""
    words = plain_words(written=written)
    before, opened, inside = words.partition("(")
    if not (opened and before and inside.endswith(")") and "(" not in inside and ")" not in before + inside[:-1]):
        return _measurement(words, quantity, written)
    first = _measurement(before.strip(), quantity, written)
    second = _measurement(inside[:-1].strip(), first["quantity"], written)
    if abs(second["value"] - first["value"]) > APART_SHARE * abs(first["value"]):
        message = "The two figures in “" + written + "” differ by more than 2 %. Enter one of them alone."
        raise refuse("two_figures", written, message)
    return first


def _measurement(words: str, quantity: str | None, written: str) -> "dict[str, Any]":
    if not words:
        raise refuse("empty", written, "Nothing is written here. " + _allowed(quantity))
    pieces = pieces_of(words=words)
    if len(pieces) == 1 and _by_word(pieces[0][1], quantity) is not None:
        return _several(pieces, quantity, pieces[0][0])
    per = _per(words)
    if per is not None:
        return _per_area(per[0], per[1], quantity, written)
    if not pieces:
        raise refuse("not_a_measurement", written, "The text “" + written + "” cannot be read. " + _allowed(quantity))
    return _several(pieces, quantity, written.strip())


def _several(pieces: "list[tuple[str, str]]", quantity: str | None, amount: str) -> "dict[str, Any]":
    """Pieces of one sort, each unit smaller than the one before."""
    parts: list[Any] = []
    for number, word in pieces:
        wanted = parts[0][1][QUANTITY] if parts else quantity
        unit = _by_word(word, wanted)
        if unit is None or (parts and unit[FACTOR] >= parts[-1][1][FACTOR]):
            raise _wrong_unit(word, wanted, unit is not None)
        parts.append((number_of(written=number, comma=unit[METRIC]), unit))
    first = parts[0][1]
    value = total([(number - unit[ZERO]) * unit[FACTOR] for number, unit in parts])
    return _found(value, first[QUANTITY], amount, first[KEY], parts)


def _per(words: str) -> "tuple[str, str] | None":
    """What stands before and behind the last "/" or "per" that follows a word."""
    for at in range(len(words) - 1, 0, -1):
        length = 1 if words[at] == "/" else 4 if words[at : at + 4] == "per " and words[at - 1] == " " else 0
        before = words[: at - 1] if words[at - 1] == " " else words[:at]
        if length and before and before[-1] in LETTERS and words[at + length :].strip():
            return before, words[at + length :].strip()
    return None


def _per_area(top: str, bottom: str, quantity: str | None, written: str) -> "dict[str, Any]":
    """3 lb per 1,000 sq ft; with "N" or "of nitrogen" behind the weight it is an amount of nitrogen."""
    bare = _without_nitrogen(top)
    sort = quantity or ("rate" if bare == top else "nitrogen")
    if sort not in ("rate", "nitrogen") or (sort == "rate" and bare != top):
        raise refuse(
            "unit", written, "The text “" + written + "” is not " + QUANTITIES[sort][1] + ". " + _allowed(sort)
        )
    mass = _measurement(bare, "mass", written)
    area = _measurement(bottom if bottom[0] in DIGITS + "." else "1 " + bottom, "area", written)
    if area["value"] <= 0.0:
        raise refuse("zero_division", written, "The area in “" + written + "” must be more than 0.")
    unit = _rate_unit(sort, BY_KEY[mass["unit"]][FACTOR] / area["value"])
    value = mass["value"] / area["value"]
    if unit is None:
        return _found(value, sort, written.strip(), "", mass["parts"])
    return _found(value, sort, mass["amount"], unit[KEY], [(value / unit[FACTOR], unit)])


def _without_nitrogen(top: str) -> str:
    for ending in NITROGEN:
        bare = top[: -len(ending)]
        if top.endswith(ending) and bare and bare[-1] in LETTERS:
            return bare
    return top


def _rate_unit(sort: str, factor: float) -> "tuple[Any, ...] | None":
    for row in UNITS:
        if row[QUANTITY] == sort and abs(row[FACTOR] / factor - 1.0) < SAME_SHARE:
            return row
    return None


def _by_word(word: str, quantity: str | None) -> "tuple[Any, ...] | None":
    for row in UNITS:
        if quantity in (None, row[QUANTITY]) and word in row[WORDS]:
            return row
    return None


def _wrong_unit(word: str, wanted: str | None, too_large: bool) -> EngineError:
    """Why a word is not taken: each unit is smaller than the one before, of the sort wanted, and means one thing."""
    other = _by_word(word, None)
    if too_large:
        why = "The unit “" + word + "” does not follow a larger unit."
    elif word in TWO_MEANINGS:
        why = TWO_MEANINGS[word]
    elif other is not None and wanted is not None:
        why = "The unit “" + word + "” is " + QUANTITIES[other[QUANTITY]][1] + ", not " + QUANTITIES[wanted][1] + "."
    else:
        why = "The word “" + word + "” is not a unit for this."
    return refuse("unit", word, why + " " + _allowed(wanted))


def _allowed(quantity: str | None) -> str:
    if quantity is None:
        return ANY
    return "Enter a number and one of: " + ", ".join([row[LABEL] for row in UNITS if row[QUANTITY] == quantity]) + "."


def _found(value: float, quantity: str, amount: str, key: str, parts: "list[Any]") -> "dict[str, Any]":
    return {
        "value": value,
        "stored_in": QUANTITIES[quantity][0],
        "quantity": quantity,
        "amount": amount,
        "unit": key,
        "parts": [one if isinstance(one, dict) else {"number": one[0], "unit": one[1][KEY]} for one in parts],
    }


def _step(found: "dict[str, Any]") -> dict[str, object]:
    return step(
        what="As stored",
        formula="each number times its unit, added up; so much per area divided by the area",
        numbers={"factor_" + one["unit"]: BY_KEY[one["unit"]][FACTOR] for one in found["parts"]},
        result=found["value"],
        unit=found["stored_in"],
        source=DEFINITION,
    )
