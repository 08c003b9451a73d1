"""Faults in merging two phones' writes (S1, S2)."""

from tests.plants.fault import Planted, by

_MERGE = "lawn/book/merge.py"
_LAWS = "tests/properties/test_merge_groups.py"
_SYNC = "tests/sync/test_s02_merge.py"

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
        "return (self.hlc, self.version)",
        'return (self.hlc, "")',
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
