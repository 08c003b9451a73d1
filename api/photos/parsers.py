"""The body of a chunk: bytes as they are, never more than a chunk may hold."""

from collections.abc import Mapping
from typing import IO, Any

from rest_framework.parsers import BaseParser

from api.errors import Refusal

MOST_CHUNK_BYTES = 256 * 1024


class ChunkParser(BaseParser):
    """Reads application/octet-stream, unpacked."""

    media_type = "application/octet-stream"

    def parse(
        self, stream: IO[Any], media_type: str | None = None, parser_context: Mapping[str, Any] | None = None
    ) -> Any:
        """Return the bytes; raise 413 for too many and 415 for packed ones: a JPEG does not get smaller."""
        assert parser_context is not None
        if parser_context["request"].headers.get("Content-Encoding", "identity").lower() != "identity":
            raise Refusal(415, "unknown_packing", "A chunk of a photo is sent as it is, without Content-Encoding.")
        body: bytes = stream.read(MOST_CHUNK_BYTES + 1)
        if len(body) > MOST_CHUNK_BYTES:
            raise Refusal(413, "too_large", f"One chunk may hold {MOST_CHUNK_BYTES:,} bytes. Send it in smaller ones.")
        return body
