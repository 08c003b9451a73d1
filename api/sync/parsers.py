"""The body of a push: JSON, perhaps gzipped, never larger than a push may be."""

import json
import math
import re
import zlib
from collections.abc import Mapping
from typing import IO, Any, NoReturn

from rest_framework.exceptions import ParseError
from rest_framework.parsers import BaseParser

from api.errors import Refusal
from lawn.contract import content

# 256 kB of ops, and room for the envelope around them; counted after unpacking.
LIMIT_BYTES = (256 + 16) * 1024
_GZIP = 16 + zlib.MAX_WBITS
# What is nested deeper is not even looked into; an op may be nested half as deep (lawn.contract.content).
MOST_DEPTH = 2 * content.MOST_DEPTH
# Numbers that may not be finite have an exponent of three digits, or as many digits as such an exponent makes. Whole
# ones are looked at op by op.
_LARGE = re.compile(rb"[eE]\+?[0-9]{3}|[0-9]{300}")


def _too_large() -> Refusal:
    return Refusal(413, "too_large", "This is more than one push may hold. Send it in smaller parts.")


def _inflate(packed: bytes) -> bytes:
    """Unpack gzip up to the limit: a small body that unpacks to gigabytes is refused, not unpacked."""
    unpacker = zlib.decompressobj(_GZIP)
    try:
        body = unpacker.decompress(packed, LIMIT_BYTES + 1)
    except zlib.error:
        raise ParseError("The packed body is damaged or was cut short.") from None
    if len(body) > LIMIT_BYTES:
        raise _too_large()
    if not unpacker.eof:
        raise ParseError("The packed body is damaged or was cut short.")
    return body


class _NotFinite(ValueError):
    """A number no phone can hold, and no sum can use."""


def _no_constant(name: str) -> NoReturn:
    raise _NotFinite(name)


def _finite(written: str) -> float:
    number = float(written)
    if not math.isfinite(number):
        raise _NotFinite(written)
    return number


def read_json(body: bytes) -> Any:
    """Return what the body says; raise ParseError where it is not JSON, not finite or nested without end."""
    number = _finite if _LARGE.search(body) else None
    try:
        found = json.loads(body, parse_constant=_no_constant, parse_float=number)
    except _NotFinite:
        raise ParseError("The body holds a number that is not finite, or larger than any that can be kept.") from None
    except (ValueError, RecursionError):
        raise ParseError("The body is not JSON, or was cut short.") from None
    if content.is_deeper(found, MOST_DEPTH):
        raise ParseError(f"The body is nested deeper than {MOST_DEPTH} levels.")
    return found


class PushParser(BaseParser):
    """Reads application/json with or without `Content-Encoding: gzip`."""

    media_type = "application/json"

    def parse(
        self, stream: IO[Any], media_type: str | None = None, parser_context: Mapping[str, Any] | None = None
    ) -> Any:
        """Return the parsed body; raise ParseError (400) or Refusal (413, 415)."""
        assert parser_context is not None
        encoding = parser_context["request"].headers.get("Content-Encoding", "identity").lower()
        body = stream.read(LIMIT_BYTES + 1)
        if len(body) > LIMIT_BYTES:
            raise _too_large()
        if encoding == "gzip":
            body = _inflate(body)
        elif encoding != "identity":
            raise Refusal(415, "unknown_packing", "Only gzip is understood.")
        return read_json(body)
