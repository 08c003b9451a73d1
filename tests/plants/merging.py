"""Faults in merging two phones' writes (S1, S2)."""

from tests.plants.fault import Planted, by

_MERGE = "lawn/book/merge.py"
_LAWS = "tests/properties/test_merge_groups.py"
_SYNC = "tests/sync/test_s02_merge.py"
_STAMPS = "tests/sync/test_a01_stamps.py"

PLANTS = (
    Planted(
        "base_ignored",
        "A write by someone who saw the present value is weighed by clocks, so a slow clock loses it.",
        _MERGE,
        "if base == current.version:",
        'if base == "":',
        by(_LAWS, "test_s02_a_a_write_that_saw_the_current_one_applies_and_is_stamped_after_it"),
    ),
    Planted(
        "larger_stamp_loses",
        "Of two writes at the same time the earlier one stands.",
        _MERGE,
        "if write.rank > current.rank:",
        "if write.rank < current.rank:",
        by(_SYNC, "test_s02_b_f29_of_two_concurrent_writes_the_later_stands_and_the_other_is_kept"),
    ),
    Planted(
        "tie_by_op_dropped",
        "Two writes with one stamp are told apart by the order of their arrival.",
        _MERGE,
        "return (clock.rank(self.hlc), self.version)",
        'return (clock.rank(self.hlc), "")',
        by(_LAWS, "test_s02_b_equal_stamps_are_decided_by_the_op_id"),
    ),
    Planted(
        "loser_not_kept",
        "A value that a later one takes the place of is gone.",
        _MERGE,
        "return Placed(write, current)",
        "return Placed(write, None)",
        by(_LAWS, "test_p07_every_loser_is_kept_by_the_server"),
    ),
    Planted(
        "late_loser_not_kept",
        "A value that arrives after a later one is gone.",
        _MERGE,
        "return Placed(current, write)",
        "return Placed(current, None)",
        by(_LAWS, "test_p07_every_loser_is_kept_by_the_server"),
    ),
    Planted(
        "delete_beats_edit",
        "A record edited by someone who did not know of its deletion stays deleted.",
        _MERGE,
        "after[DELETED] = Write(sets.op, clock.later(sets.hlc, standing.hlc), {DELETED: False}, sets.by)",
        "after[DELETED] = standing",
        by(_SYNC, "test_s02_c_f31_an_edit_made_without_knowing_of_a_deletion_keeps_the_record"),
    ),
    Planted(
        "clamp_dropped",
        "A clock two days ahead wins every merge for two days.",
        "lawn/book/edit.py",
        "return clock.clamp(self.hlc, int(self.now.timestamp() * 1000))",
        "return self.hlc",
        by(_SYNC, "test_s02_b_f26_a_clock_two_days_ahead_is_held_to_a_minute"),
    ),
    Planted(
        "stamp_trimmed",
        "A stamp with blanks round it is checked without them and stored with them, before every clock's reach.",
        "api/sync/serializers.py",
        "if not isinstance(data, str) or self._whole.match(data) is None:",
        "if not isinstance(data, str) or self._whole.match(data.strip()) is None:",
        by(_STAMPS, "test_a01_a_stamp_with_anything_round_it_is_refused_and_named"),
    ),
    Planted(
        "envelope_as_written",
        "What is handed on of an op is what was written, not what was checked.",
        "api/sync/serializers.py",
        'return {**data, **sound, "op": str(sound["op"])}',
        "return {**sound, **data}",
        by(_STAMPS, "test_a01_an_id_in_another_spelling_is_handed_on_as_checked"),
    ),
    Planted(
        "bad_stamp_wins",
        "A stamp that no phone can have been given, once in the table, beats every right one for ever.",
        "lawn/book/clock.py",
        'return stamp if is_stamp(stamp) else ""',
        "return stamp",
        by(_STAMPS, "test_a02_a_bad_stamp_in_the_table_freezes_nothing_whether_the_writer_saw_it_or_not"),
    ),
    Planted(
        "bad_stamps_not_mended",
        "The doctor names bad stamps and leaves them as they are.",
        "lawn/operations/doctor/__init__.py",
        "done = book.mend_stamps() + book.mend_sums()",
        "done = book.mend_sums()",
        by(_STAMPS, "test_a02_the_doctor_finds_a_bad_stamp_and_mends_it_for_every_phone"),
    ),
    Planted(
        "phone_follows_bad_stamp",
        "A phone moves its clock to a stamp past all time, and none of its ops is taken any more.",
        "frontend/src/store/core/hlc.ts",
        "return match && ms <= LAST_MS ?",
        "return match ?",
        by("frontend/src/store/core/hlc.test.ts", "A2: %j in the book moves no clock"),
    ),
    Planted(
        "conflict_not_stored",
        "The value that lost is named in the answer and kept nowhere.",
        "lawn/book/edit.py",
        "    for lost in merged.lost:\n        _keep(",
        "    for lost in merged.lost[:0]:\n        _keep(",
        by(_SYNC, "test_p07_what_lost_can_be_restored"),
    ),
    Planted(
        "members_write_each_other",
        "A member may change another member's name and units.",
        "lawn/book/edit.py",
        'if t == "member" and item["id"] != str(member.id):',
        'if t == "member" and item["id"] == "":',
        by("tests/sync/test_s09_refusals.py", "test_a_member_may_not_write_what_is_not_theirs"),
    ),
)
