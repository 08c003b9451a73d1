"""Faults in merging two phones' writes (S1, S2)."""

from tests.plants.fault import Planted, by

_MERGE = "lawn/book/merging/merge.py"
_LAWS = "tests/properties/test_merge_groups.py"
_SYNC = "tests/sync/test_s02_merge.py"
_CONTRACT = "tests/domain/test_contract_refuses.py"
_STAMPS = "tests/sync/hostile/test_a01_stamps.py"

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
        "lawn/book/sync/edit.py",
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
        "lawn/book/merging/clock.py",
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
        "frontend/src/platform/store/core/hlc.ts",
        "return match && ms <= LAST_MS ?",
        "return match ?",
        by("frontend/src/platform/store/core/hlc.test.ts", "A2: %j in the book moves no clock"),
    ),
    Planted(
        "kind_carries_anything",
        "An entry is taken with fields its kind does not have, and every phone's sums stop at it.",
        "lawn/contract/kinds.py",
        "return frozenset(others - set(",
        "return frozenset() and frozenset(others - set(",
        by(_CONTRACT, "test_a06_an_entry_carries_the_fields_of_its_kind_and_no_others"),
    ),
    Planted(
        "group_shadows_group",
        "A group is taken with a field that another one checks, which phones then read unchecked: a wrong dose.",
        "lawn/contract/kinds.py",
        'strange = _strange(foreign_to(kind, group), value, "this group")',
        "strange: dict[str, str] = {}",
        by(_CONTRACT, "test_a05_a_group_carries_no_field_that_another_one_checks"),
    ),
    Planted(
        "shadow_handed_on",
        "A shadowing field that stands in the table is handed on to every phone.",
        "lawn/book/sync/record.py",
        "if not foreign.isdisjoint(unknown):",
        "if foreign.isdisjoint(unknown):",
        by(
            "tests/sync/hostile/test_a05_contract.py",
            "test_a05_what_shadows_a_checked_field_and_stands_in_the_table_is_not_handed_on",
        ),
    ),
    Planted(
        "corners_by_ring",
        "An outline may have 400 corners in each of 40 holes, and a plan of its walk takes minutes.",
        "lawn/contract/forms.py",
        "if not rings or sum(",
        "if not rings or max(",
        by(_CONTRACT, "test_a08_an_outline_has_400_corners_in_all"),
    ),
    Planted(
        "any_number_of_zones",
        "A book takes more zones than the engine does, and every page that asks about them is empty.",
        "lawn/book/sync/edit.py",
        "if most is not None and feed.count_of(t) >= most:",
        "if most is not None and feed.count_of(t) < 0:",
        by(
            "tests/sync/hostile/test_a05_contract.py", "test_a08_a_book_holds_no_more_than_the_engine_takes_and_says_so"
        ),
    ),
    Planted(
        "conflict_not_stored",
        "The value that lost is named in the answer and kept nowhere.",
        "lawn/book/sync/edit.py",
        "    for lost in merged.lost:\n        _keep(",
        "    for lost in merged.lost[:0]:\n        _keep(",
        by(_SYNC, "test_p07_what_lost_can_be_restored"),
    ),
    Planted(
        "members_write_each_other",
        "A member may change another member's name and units.",
        "lawn/book/sync/edit.py",
        'if t == "member" and item["id"] != str(member.id):',
        'if t == "member" and item["id"] == "":',
        by("tests/sync/test_s09_refusals.py", "test_a_member_may_not_write_what_is_not_theirs"),
    ),
)
