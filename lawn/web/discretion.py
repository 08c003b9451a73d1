"""What a log may not hold: an invitation's token opens a household's door to whoever reads it.

Tokens travel in bodies and after a link's `#`, neither of which is logged. This is for what still comes by an address:
an old link, one pasted into the wrong place, a full stop after it.
"""

import logging
import re

HIDDEN = "[hidden]"
# 256 bits in URL-safe base64 are 43 characters (RFC 4648, section 5); a little less for one that was cut short.
_LONG = re.compile(r"[A-Za-z0-9_-]{40,}")
_formatter = logging.Formatter()


def hide(text: str) -> str:
    """Return a text without what looks like a token; ids, hashes and names in code stay."""
    return _LONG.sub(lambda found: HIDDEN if _looks_like_chance(found[0]) else found[0], text)


def _looks_like_chance(word: str) -> bool:
    """Whether a long word has letters of both sizes, as a token has and a hash, an id or a function has not."""
    return any(letter.isupper() for letter in word) and any(letter.islower() for letter in word)


class Discreet(logging.Filter):
    """Takes tokens out of whatever a handler is about to write, tracebacks included."""

    def filter(self, record: logging.LogRecord) -> bool:
        """Let every record through, without tokens."""
        record.msg, record.args = hide(record.getMessage()), ()
        if record.exc_info and not record.exc_text:
            record.exc_text = _formatter.formatException(record.exc_info)
        if record.exc_text:
            record.exc_text = hide(record.exc_text)
        return True
