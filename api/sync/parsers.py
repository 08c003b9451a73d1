"""The body of a push: JSON, perhaps gzipped, never larger than a push may be."""

import json
import zlib
from collections.abc import Mapping
from typing import IO, Any, NoReturn

from rest_framework.exceptions import ParseError
from rest_framework.parsers import BaseParser

from api.errors import Refusal

# 256 kB of ops, and room for the envelope around them; counted after unpacking.
LIMIT_BYTES = (256 + 16) * 1024
_GZIP = 16 + zlib.MAX_WBITS


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


def _no_constant(name: str) -> NoReturn:
    raise ValueError(f"{name} is not JSON")


def read_json(body: bytes) -> Any:
    """Return what the body says; raise ParseError where it is not JSON."""
    try:
        return json.loads(body, parse_constant=_no_constant)
    except (ValueError, RecursionError):
        raise ParseError("The body is not JSON, or was cut short.") from None


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
