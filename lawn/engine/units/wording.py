"""Texts made plain before they are read: one kind of space and minus, fractions spelled out, words of labels gone.

Letters are told by ASCII alone, since the two runtimes differ in everything beyond it.
"""

SPACES = (
    "\t\n\x0b\x0c\r\x1c\x1d\x1e\x1f \x85\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
    "\u2028\u2029\u202f\u205f\u3000"
)
VULGAR = {
    "½": " 1/2",
    "¼": " 1/4",
    "¾": " 3/4",
    "⅓": " 1/3",
    "⅔": " 2/3",
    "⅛": " 1/8",
    "⅜": " 3/8",
    "⅝": " 5/8",
    "⅞": " 7/8",
    "\u2212": "-",
    "\u2044": "/",
}
DIGITS = "0123456789"
LETTERS = "abcdefghijklmnopqrstuvwxyz"
CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
POWERS = {"2": "²", "3": "³"}
POWERED = ("ft", "yd", "m")
# What stands on a label before a figure.
LABELS = ("net", "gross", "wt", "weight", "contents", "covers", "coverage", "treats", "up to", "about", "apply")
LEADING = LABELS + ("rate", "area", "at", "of")
BAGS = (" bags", " bag", "-bags", "-bag")


def tidy(*, written: str) -> str:
    """One kind of space, one kind of minus, printed fractions spelled out.

    Args:
        written: a text as written [text]
    Returns:
        tidied: the same, without spaces at its ends [text]
    Source: definition
    """
    letters = [" " if letter in SPACES else VULGAR.get(letter, letter) for letter in written]
    return _single_spaced("".join(letters))


def plain_words(*, written: str) -> str:
    """Lower case, ft2 and ft^2 as ft², no full stops after abbreviations, without "net weight", "covers" and "bag".

    Args:
        written: a text as written [text]
    Returns:
        words: what is left to be read [text]
    Source: definition
    """
    words = _single_spaced(_without_stops(_powers(_lower(tidy(written=written)))))
    for ending in BAGS:
        if words.endswith(ending):
            words = words[: -len(ending)].strip()
            break
    return _without_leading(words)


def _single_spaced(words: str) -> str:
    return " ".join([part for part in words.split(" ") if part])


def _lower(words: str) -> str:
    return "".join([LETTERS[CAPITALS.index(one)] if one in CAPITALS else one for one in words])


def _powers(words: str) -> str:
    """Write ft2, yd^3 or m2 with a raised figure, where no other figure follows."""
    found = ""
    at = 0
    while at < len(words):
        unit = _powered(words, at)
        if unit:
            end = at + len(unit) + (1 if words[at + len(unit)] == "^" else 0)
            found += unit + POWERS[words[end]]
            at = end + 1
        else:
            found += words[at]
            at += 1
    return found


def _powered(words: str, at: int) -> str:
    for unit in POWERED:
        end = at + len(unit)
        if words[at:end] == unit:
            end += 1 if words[end : end + 1] == "^" else 0
            if words[end : end + 1] in ("2", "3") and words[end + 1 : end + 2] not in tuple(DIGITS):
                return unit
    return ""


def _without_stops(words: str) -> str:
    """A full stop after a letter ends an abbreviation and says nothing."""
    before = " " + words
    return "".join([" " if one == "." and before[at] in LETTERS else one for at, one in enumerate(words)])


def _without_leading(words: str) -> str:
    found = True
    while found:
        found = False
        for word in LEADING:
            rest = words[len(word) :]
            if words.startswith(word) and rest[:1] not in tuple(LETTERS + DIGITS + "_"):
                words = rest[1:] if rest[:1] == ":" else rest
                words = words[1:] if words[:1] == " " else words
                found = True
    return words
