"""Draws texts as people type them into a box, some of them unreadable."""

from random import Random

from lawn.engine.units.table import UNITS
from tests.parity.drawing_base import Json, some

NUMBERS = ("12", "5,000", "5 000", "1 1/2", "3/4", ".5", "22.75", "2¾", "007", "1,234,567.5")


def typed(s: Random) -> Json:
    row = s.choice([row for row in UNITS if row[5]])
    text = s.choice(NUMBERS) + s.choice(("", " ", "-")) + s.choice(row[5])
    framed = s.choice(("{}", "{}", "NET WT {}", "covers {} per bag", "{} (1 kg)", "{} 1.000 kg")).format(text)
    return some(s, {"text": framed}, unit=row[0], quantity=row[1])
