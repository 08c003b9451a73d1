"""The body of a request that fills in a form: JSON, and small. Pushes and pictures have parsers of their own."""

from collections.abc import Mapping
from typing import IO, Any

from rest_framework.parsers import BaseParser

from api.errors import Refusal
from api.sync.parsers import read_json

# The longest is a list of 500 pictures' names, 34 kB.
LIMIT_BYTES = 64 * 1024


class SmallJSON(BaseParser):
    """Reads application/json of at most 64 kB; nothing here is packed."""

    media_type = "application/json"

    def parse(
        self, stream: IO[Any], media_type: str | None = None, parser_context: Mapping[str, Any] | None = None
    ) -> Any:
        """Return the parsed body; raise ParseError (400) or Refusal (413, 415)."""
        assert parser_context is not None
        if parser_context["request"].headers.get("Content-Encoding", "identity").lower() != "identity":
            raise Refusal(415, "unknown_packing", "A form is sent as it is, not packed.")
        body = stream.read(LIMIT_BYTES + 1)
        if len(body) > LIMIT_BYTES:
            raise Refusal(413, "too_large", "This is too long. Shorten it.")
        return read_json(body)
