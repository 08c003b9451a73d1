"""What people write on labels and into boxes: a number and its unit."""

from lawn.engine.core.glossary import WORDS

WORDS["text"] = "text"
WORDS["unit"] = "unit"
WORDS["quantity"] = "sort of measurement"
