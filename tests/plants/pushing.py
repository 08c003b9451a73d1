"""Faults in taking a phone's ops: the counter, the line of numbers, verdicts, what is set aside (S7, S8, S9)."""

from tests.plants.fault import Planted, by

_APPLY = "lawn/book/sync/apply.py"
_FEED = "lawn/book/sync/feed.py"
_OPS = "tests/sync/test_s08_ops.py"
_PULL = "tests/sync/test_s10_pull.py"
_REFUSALS = "tests/sync/test_s09_refusals.py"
_PENDING = "tests/sync/faults/test_f48_pending_review.py"

PLANTS = (
    Planted(
        "lock_dropped",
        "The counter is read and written back later instead of being taken by the first write, so two pushes get "
        "the same numbers.",
        _FEED,
        "cursor.execute(_TAKE, [most, key])",
        'cursor.execute(_TAKE.replace("UPDATE", "SELECT seq + %s, digest_a, digest_b, taken_bytes FROM")'
        '.replace("SET seq = seq + %s WHERE", "WHERE").replace(_TAKE[_TAKE.index(" RETURNING"):], ""), [most, key])',
        by(_PULL, "test_s07_the_counter_is_the_first_write_of_a_push"),
    ),
    Planted(
        "numbers_not_given_back",
        "Numbers taken and not used are never given back, so the head lies beyond the last change.",
        _FEED,
        "            seq=self.seq, digest_a",
        "            seq=self._top, digest_a",
        by(_PULL, "test_s07_numbers_taken_and_not_used_are_given_back"),
    ),
    Planted(
        "digest_keeps_the_old_place",
        "A record that moves to a newer number stays in the digest under its old one too.",
        _FEED,
        "        if old is not None:\n            self._sums",
        "        if old is not None and old < 0:\n            self._sums",
        by(_PULL, "test_p04_the_digest_kept_row_by_row_equals_one_worked_out_whole"),
    ),
    Planted(
        "attempt_not_taken_back",
        "What an op began before it could not be applied stays and is written with the next one.",
        _APPLY,
        "with feed.attempt(), _trouble_parks(op), transaction",
        "with _trouble_parks(op), transaction",
        by(_OPS, "test_s08_what_a_parked_op_began_is_not_remembered_by_the_next"),
    ),
    Planted(
        "savepoint_dropped",
        "Ops tried one by one have no savepoint: what the database refuses of one takes the whole push with it.",
        _APPLY,
        "transaction.atomic() if write else nullcontext():",
        "nullcontext():",
        by(_OPS, "test_s08_p08_what_the_database_refuses_half_way_leaves_no_half"),
    ),
    Planted(
        "ledger_not_consulted",
        "Nobody asks whether an op has been applied already, so its second arrival is not known as one.",
        _APPLY,
        'known = self._known.get(op["op"])',
        "known = None",
        by(_OPS, "test_s08_p02_f04_same_op_twice_is_duplicate"),
    ),
    Planted(
        "applied_twice",
        "An op that comes again is applied again.",
        _APPLY,
        '            return {**known["result"], ',
        '            self._answer(op, content.text_of(op))\n            return {**known["result"], ',
        by(_OPS, "test_s08_p02_f04_same_op_twice_is_duplicate"),
    ),
    Planted(
        "hash_not_compared",
        "Another op under a used id passes for the first one and is lost.",
        _APPLY,
        'if op["hash"] == known["hash"] or content.hash_of(content.text_of(op)) == known["content_hash"]:',
        "if True:",
        by(_OPS, "test_s08_same_id_with_other_content_is_parked_as_op_reused"),
    ),
    Planted(
        "fork_not_told",
        "A number used by another op stops the line, but the phone is not told to count anew.",
        _APPLY,
        "self.pushed.fork_detected = True",
        "self.pushed.fork_detected = False",
        by(_OPS, "test_s08_f23_f24_a_number_used_before_is_a_fork_and_nothing_of_it_is_lost"),
    ),
    Planted(
        "gap_ignored",
        "Ops after a missing number are taken, so the missing one never comes.",
        _APPLY,
        'if op["dseq"] > self.pushed.acked_dseq + 1:',
        'if op["dseq"] > self.pushed.acked_dseq + 1_000_000:',
        by(_OPS, "test_s08_a_gap_stops_and_asks_for_the_missing_number"),
    ),
    Planted(
        "taken_as_they_lie",
        "Ops are taken in the order they lie in the request, not in that of their numbers.",
        _APPLY,
        'for op in sorted(ops, key=lambda op: op["dseq"]):',
        "for op in ops:",
        by(_OPS, "test_s08_p03_ops_apply_in_device_order_however_they_lie_in_the_request"),
    ),
    Planted(
        "parked_not_stored",
        "An op answered as parked is kept nowhere.",
        _APPLY,
        "        access.add(list(self._parked.values()))\n",
        "",
        by(_OPS, "test_p01_a_parked_op_is_kept_whole_as_it_came"),
    ),
    Planted(
        "parked_told_once",
        "A parked op that comes again is answered as a duplicate: the phone that lost the first answer drops it.",
        _APPLY,
        '"s": was if was == "parked" else "duplicate"',
        '"s": "duplicate"',
        by(_OPS, "test_f04_a_parked_op_sent_again_is_still_parked_and_kept_once"),
    ),
    Planted(
        "trouble_is_a_verdict",
        "A busy database is written down as the op's fault.",
        _APPLY,
        "_LATER = (OperationalError, InterfaceError)",
        "_LATER: tuple[type[Exception], ...] = ()",
        by(_REFUSALS, "test_s09_s12_f54_a_busy_database_is_503_with_retry_after_and_never_a_verdict"),
    ),
    Planted(
        "hole_not_listed",
        "A number that will never carry its entry is passed over in silence.",
        _APPLY,
        "        access.add(self._holes)\n",
        "",
        by(
            "tests/sync/faults/test_f43_handshake.py",
            "test_f56_a_number_that_carries_nothing_is_listed_and_the_line_goes_on",
        ),
    ),
    Planted(
        "held_applied_at_once",
        "What a removed member still sends is applied without the keeper.",
        _APPLY,
        "line.pending = True",
        "line.pending = False",
        by(_PENDING, "test_f48_s22_the_five_entries_are_held_and_none_is_in_the_book"),
    ),
    Planted(
        "held_settled_twice",
        "What the keeper has declined can still be accepted.",
        _APPLY,
        "filter(id=pending_id, pending=True, settled_at=None).first()",
        "filter(id=pending_id, pending=True).first()",
        by(_PENDING, "test_f48_what_is_settled_is_settled_once"),
    ),
    Planted(
        "inflation_cap_off",
        "A small packed body is unpacked to any size before it is refused.",
        "api/sync/parsers.py",
        "unpacker.decompress(packed, LIMIT_BYTES + 1)",
        "unpacker.decompress(packed)",
        by(_REFUSALS, "test_a_packed_body_is_unpacked_only_up_to_the_limit"),
    ),
    Planted(
        "throttle_shared_by_strangers",
        "Requests are counted by household alone, so a stranger uses up its turns.",
        "api/sync/throttles.py",
        "ident = f\"{view.kwargs.get('household')}:{request.user.pk}\"",
        "ident = f\"{view.kwargs.get('household')}\"",
        by("tests/sync/faults/test_f20_limits.py", "test_f20_a_stranger_cannot_use_up_a_households_turns"),
    ),
)
