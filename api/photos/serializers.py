"""What the photo routes take in and give out."""

from typing import Any

from rest_framework import serializers

MOST_NAMES = 500
_NAME = "^[0-9a-f]{64}$"
_WRONG = "A picture's name is its SHA-256: write 64 hexadecimal digits in lower case."


class MissingIn(serializers.Serializer[Any]):
    """Names of pictures that a phone has."""

    sha256 = serializers.ListField(
        child=serializers.RegexField(_NAME, max_length=64, error_messages={"invalid": _WRONG, "max_length": _WRONG}),
        max_length=MOST_NAMES,
    )


class MissingOut(serializers.Serializer[Any]):
    """Those of them that the server lacks."""

    missing = serializers.ListField(child=serializers.CharField())


class UploadAsk(serializers.Serializer[Any]):
    """Of a picture of how many bytes."""

    total = serializers.IntegerField(
        min_value=1, max_value=10_000_000, required=False, help_text="Of the whole picture; pieces are kept by it"
    )


class UploadOut(serializers.Serializer[Any]):
    """How much of a picture has come; complete once it was checked and is on the server's disk."""

    have_bytes = serializers.IntegerField()
    complete = serializers.BooleanField()
