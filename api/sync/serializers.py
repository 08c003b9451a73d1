"""The two sides of one round trip (sync.md). What is inside an op is checked by lawn.book, op by op."""

import re
from typing import Any

from rest_framework import serializers
from rest_framework.fields import empty

from lawn.book.merging.clock import STAMP
from lawn.book.sync import bootstrap, repair
from lawn.book.sync.pull import PAGE
from lawn.contract.forms import is_id

MOST_OPS = 200
_BIGGEST = 2**53 - 1  # the largest whole number a phone's JavaScript can count to


_HASH = re.compile(r"\A[0-9a-f]{64}\Z")


class Exactly(serializers.RegexField):
    """A text that is the pattern and nothing more: what is checked is what is handed on, so nothing is trimmed."""

    def __init__(self, pattern: re.Pattern[str], **more: Any) -> None:
        """Take a pattern that is anchored at both ends; the schema shows it with the anchors of other languages."""
        self._whole = pattern
        super().__init__("^" + pattern.pattern[2:-2] + "$", trim_whitespace=False, **more)

    def to_internal_value(self, data: Any) -> str:
        """Return the text as it came; refuse another sort, and anything round it."""
        if not isinstance(data, str) or self._whole.match(data) is None:
            self.fail("invalid")
        return str(data)


class Counted(serializers.IntegerField):
    """A whole number, as JSON writes one: never a text or a yes that could be read as a number."""

    def to_internal_value(self, data: Any) -> int:
        """Return the number as it came; refuse another sort."""
        if type(data) is not int:
            self.fail("invalid")
        return int(super().to_internal_value(data))


def _plainly_sound(op: Any) -> bool:
    """Whether an op's envelope is as phones write it: the usual case, hundreds of times in a push."""
    if not isinstance(op, dict) or "m" not in op or op["m"] is None or not is_id(op.get("op")):
        return False
    dseq, schema, hlc, hashed = op.get("dseq"), op.get("schema"), op.get("hlc"), op.get("hash")
    if type(dseq) is not int or type(schema) is not int or type(hlc) is not str or type(hashed) is not str:
        return False
    numbers = 1 <= dseq <= _BIGGEST and 1 <= schema < 2**31
    return numbers and STAMP.match(hlc) is not None and _HASH.match(hashed) is not None


class OpSerializer(serializers.Serializer[Any]):
    """The envelope of one op. `m` may be anything: an op that says nonsense is parked, not refused."""

    op = serializers.UUIDField()
    dseq = Counted(min_value=1, max_value=_BIGGEST)
    hlc = Exactly(STAMP)
    schema = Counted(min_value=1, max_value=2**31 - 1)
    m = serializers.JSONField()
    hash = Exactly(_HASH)

    def run_validation(self, data: Any = empty) -> Any:
        """Pass an op whose envelope is plainly sound at once; of the others the fields above say what is wrong."""
        return data if _plainly_sound(data) else super().run_validation(data)

    def to_internal_value(self, data: Any) -> dict[str, Any]:
        """Return the op whole, its envelope as it was checked and not as it was written."""
        sound = super().to_internal_value(data)
        return {**data, **sound, "op": str(sound["op"])}


class SyncRequestSerializer(serializers.Serializer[Any]):
    """What a phone sends."""

    proto = serializers.IntegerField(min_value=1)
    schema = serializers.IntegerField(min_value=1)
    build = serializers.CharField(max_length=100, allow_blank=True, required=False, default="")
    device = serializers.UUIDField()
    incarnation = serializers.UUIDField()
    cursor = serializers.IntegerField(min_value=0, max_value=_BIGGEST)
    confirmed_dseq = serializers.IntegerField(min_value=0, max_value=_BIGGEST, required=False, default=0)
    ops = serializers.ListField(child=OpSerializer(), required=False, default=list)
    limit = serializers.IntegerField(min_value=1, max_value=PAGE, required=False, default=PAGE)


class WhySerializer(serializers.Serializer[Any]):
    """A reason a person can read."""

    code = serializers.CharField()
    message = serializers.CharField()

    def get_fields(self) -> dict[str, Any]:
        """Add `fields`, which as a class attribute would hide the serializer's own."""
        return {**super().get_fields(), "fields": serializers.DictField(child=serializers.CharField(), required=False)}


class ResultSerializer(serializers.Serializer[Any]):
    """What became of one op; `was` is the first verdict on an op that came again."""

    op = serializers.UUIDField()
    s = serializers.ChoiceField(choices=["applied", "merged", "parked", "duplicate"])
    was = serializers.ChoiceField(choices=["applied", "merged", "parked"], required=False)
    seq = serializers.IntegerField(allow_null=True)
    lost = serializers.ListField(child=serializers.CharField())
    why = WhySerializer(allow_null=True)


class GroupSerializer(serializers.Serializer[Any]):
    """One field group as it stands."""

    value = serializers.DictField()
    version = serializers.CharField()
    hlc = serializers.CharField()


class ChangeSerializer(serializers.Serializer[Any]):
    """One whole record at its newest place in the order of changes."""

    seq = serializers.IntegerField()
    t = serializers.CharField()
    id = serializers.UUIDField()
    body = serializers.DictField(required=False)
    by = serializers.UUIDField(allow_null=True)
    received_at = serializers.DateTimeField()
    groups = serializers.DictField(child=GroupSerializer())


class SyncAnswerSerializer(serializers.Serializer[Any]):
    """What the server answers."""

    server_time = serializers.DateTimeField()
    epoch = serializers.UUIDField(allow_null=True, help_text="Null for someone no longer in the household.")
    schema = serializers.IntegerField()
    min_push_schema = serializers.IntegerField()
    results = ResultSerializer(many=True)
    acked_dseq = serializers.IntegerField()
    need_from = serializers.IntegerField(allow_null=True, help_text="Send again from this number: one is missing.")
    fork_detected = serializers.BooleanField(help_text="This number was used before: make a new incarnation.")
    changes = ChangeSerializer(many=True)
    cursor = serializers.IntegerField()
    head = serializers.IntegerField()
    has_more = serializers.BooleanField()
    digest = serializers.CharField(
        allow_null=True,
        help_text="Of the whole book at `head` (book/merging/digest.py); null for someone no longer in the household.",
    )
    reset = serializers.BooleanField(help_text="The cursor is beyond this book: pull again from 0; keep the outbox.")


class Token(serializers.CharField):
    """The place at which a page of the bootstrap begins."""

    def to_internal_value(self, data: Any) -> str:
        """Return the token; refuse one that is none of ours."""
        text: str = super().to_internal_value(data)
        try:
            bootstrap.read(text)
        except bootstrap.BadToken:
            raise serializers.ValidationError("There is no such place in the book. Begin again without it.") from None
        return text


class BootstrapAskSerializer(serializers.Serializer[Any]):
    """Which page of the whole book is wanted."""

    after = Token(required=False, default=None, help_text="As the page before said; none asks for the first.")
    limit = serializers.IntegerField(min_value=1, max_value=bootstrap.MOST, required=False, default=PAGE)


class BootstrapLineSerializer(serializers.Serializer[Any]):
    """A line of the bootstrap: the first has the first four fields, the last has `after`, the others are records."""

    epoch = serializers.UUIDField(required=False)
    schema = serializers.IntegerField(required=False)
    head = serializers.IntegerField(required=False, help_text="Of the first page: the cursor to pull from at the end.")
    limit = serializers.IntegerField(required=False)
    after = serializers.CharField(required=False, allow_null=True, help_text="Null on the last page.")
    seq = serializers.IntegerField(required=False)
    t = serializers.CharField(required=False)
    id = serializers.UUIDField(required=False)
    body = serializers.DictField(required=False)
    by = serializers.UUIDField(required=False, allow_null=True)
    received_at = serializers.DateTimeField(required=False)
    groups = serializers.DictField(child=GroupSerializer(), required=False)


class DigestAskSerializer(serializers.Serializer[Any]):
    """Which bucket is wanted."""

    prefix = Exactly(
        re.compile(rf"\A[0-9a-f]{{0,{repair.LONGEST_PREFIX}}}\Z"), required=False, default="", allow_blank=True
    )


class SumsSerializer(serializers.Serializer[Any]):
    """How many records a bucket holds, and their digest."""

    count = serializers.IntegerField()
    digest = serializers.CharField()


class BucketSerializer(SumsSerializer):
    """One bucket at `head`: of a full one its 16 children, of another its records whole."""

    head = serializers.IntegerField()
    prefix = serializers.CharField(allow_blank=True)
    children = serializers.DictField(child=SumsSerializer(), required=False)
    records = ChangeSerializer(many=True, required=False)
