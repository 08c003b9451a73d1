"""What an operator does with the whole store: back it up, put it back, look it over.

The commands backup, restore and doctor are thin; what they do stands here.
"""


class Refused(Exception):
    """An operation that was not begun, or was taken back whole; the text says why and what to do."""
