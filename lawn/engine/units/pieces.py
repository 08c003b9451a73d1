"""A text cut into numbers and the words behind them: "15 lb 8 oz" is 15 lb and 8 oz."""

from lawn.engine.units.wording import DIGITS

IN_NUMBERS = DIGITS + "., "


def pieces_of(*, words: str) -> "list[tuple[str, str]]":
    """Every number with the word behind it, in their order; none where anything stands beside them.

    Args:
        words: plain words, one space between them [text]
    Returns:
        pieces: number as written and word [list]
    Source: definition
    """
    found: list[tuple[str, str]] = []
    at = 0
    while at < len(words):
        end = _number_end(words, at)
        start = end + 1 if words[end : end + 1] in (" ", "-") else end
        stop = start
        while stop < len(words) and words[stop] not in DIGITS:
            stop += 1
        if end == at or stop == start or words[start] == " ":
            return []
        # A sign or a point before the next figures is no part of them: what cannot be a unit's word is refused.
        found.append((words[at:end], words[start:stop].strip()))
        at = stop
    return found


def _number_end(words: str, at: int) -> int:
    """Where the number that begins here ends; where it begins, if none does."""
    start = at + 1 if words[at] in "+-" else at
    end = _fraction_end(words, start)
    if end > start:
        return end
    if words[start : start + 1] not in tuple(DIGITS + ".,"):
        return at
    end = start
    while end < len(words) and words[end] in IN_NUMBERS:
        end += 1
    while words[end - 1] == " ":
        end -= 1
    return end


def _fraction_end(words: str, start: int) -> int:
    """Where 3/4 or 1 3/4 ends; `start` where none begins there."""
    end = _figures_end(words, start)
    if end == start:
        return start
    if words[end : end + 1] in (" ", "-"):
        top = _figures_end(words, end + 1)
        end = top if top > end + 1 else end
    bottom = _figures_end(words, end + 1) if words[end : end + 1] == "/" else 0
    return bottom if bottom > end + 1 else start


def _figures_end(words: str, at: int) -> int:
    while at < len(words) and words[at] in DIGITS:
        at += 1
    return at
