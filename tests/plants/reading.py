"""Faults in what a phone is given: pages, whole books, repair, events, epochs (S10, S11, F10, F13, F52)."""

from tests.plants.fault import Planted, by

_PULL = "lawn/book/sync/pull.py"
_BOOT = "lawn/book/sync/bootstrap.py"
_PAGES = "tests/sync/test_s10_pull.py"
_BOOK = "tests/sync/faults/test_f13_bootstrap.py"
_EVENTS = "tests/sync/faults/test_f10_events.py"

PLANTS = (
    Planted(
        "head_read_after_the_rows",
        "The cursor given out is the head as it is after the rows were read: what came between is never seen.",
        _PULL,
        'reached = changes[-1]["seq"] if has_more else head',
        'reached = changes[-1]["seq"] if has_more else access.rows(Household, household_id).get().seq',
        by(_PAGES, "test_s10_p05_what_is_committed_while_a_page_is_read_comes_with_the_next"),
    ),
    Planted(
        "no_snapshot",
        "A page's head and rows are read at different moments.",
        _PULL,
        "    with snapshot():\n",
        "    if True:\n",
        by(_PAGES, "test_s10_f08_a_page_shows_one_moment_though_another_phone_writes_meanwhile"),
    ),
    Planted(
        "cursor_one_too_far",
        "The cursor of a full page lies one beyond its last change.",
        _PULL,
        'reached = changes[-1]["seq"] if',
        'reached = changes[-1]["seq"] + 1 if',
        by(_PAGES, "test_s10_p05_pages_follow_one_another_without_holes"),
    ),
    Planted(
        "more_not_told",
        "A full page says that nothing follows.",
        _PULL,
        "has_more = len(found) > fits",
        "has_more = len(found) > limit + 1",
        by(_PAGES, "test_s10_p05_pages_follow_one_another_without_holes"),
    ),
    Planted(
        "reset_dropped",
        "A phone ahead of a restored book is told that it is up to date.",
        _PULL,
        "household.seq, cursor > household.seq",
        "household.seq, False",
        by(_PAGES, "test_s11_a_cursor_ahead_of_the_book_is_told_to_begin_again"),
    ),
    Planted(
        "bootstrap_ordered_by_change",
        "A whole book is paged by a number that edits move while the page's mark is the id.",
        _BOOT,
        'rows.order_by("id")',
        'rows.order_by("seq")',
        by(_BOOK, "test_f51_many_settings_of_one_kind_are_all_given_over_pages"),
    ),
    Planted(
        "one_moment_one_entry",
        "Of entries of one moment only those on the first page are given.",
        _BOOT,
        "Q(occurred_at__lt=last[1]) | Q(occurred_at=last[1], id__lt=last[0])",
        "Q(occurred_at__lt=last[1])",
        by(_BOOK, "test_f13_entries_of_one_moment_are_given_once_each"),
    ),
    Planted(
        "bucket_wrong",
        "The server looks for a record in another bucket than the phones do.",
        "lawn/book/merging/digest.py",
        "fnv1a(f'{t}|{record_id}', _BASIS_A)",
        "fnv1a(f'{record_id}|{t}', _BASIS_A)",
        by("tests/sync/test_digest_vectors.py", "test_f52_a_records_bucket_equals_the_shared_vectors"),
    ),
    Planted(
        "events_to_former_members",
        "A stream once opened tells a removed member on.",
        "lawn/book/people/access.py",
        "if place[:2] in found and place[2] in living}",
        "if place[2] in living}",
        by(_EVENTS, "test_f10_p10_a_look_finds_members_by_living_sessions_only"),
    ),
    Planted(
        "events_never_end",
        "A stream whose listener is not found any more stays open.",
        "lawn/book/sync/events.py",
        "elif listener.place in asked:\n                listener.end()",
        "elif listener.place in asked:\n                continue",
        by(_EVENTS, "test_f10_p10_who_is_no_longer_found_hears_no_more"),
    ),
    Planted(
        "epoch_kept_on_restore",
        "A restored store keeps its epoch, so no phone sends again what the backup lacks.",
        "lawn/operations/epoch.py",
        "household.epoch = uuid.uuid4()",
        "household.epoch = household.epoch",
        by(
            "tests/operations/test_backup.py",
            "test_s11_a_restore_gives_back_every_row_and_photo_under_a_new_epoch",
        ),
    ),
)
