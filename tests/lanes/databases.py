"""Which tests run once more on PostgreSQL, and why the others need not.

What a database can change: what a query finds and in which order, what it refuses to hold, who waits for whom, what a
statement that met another does, how JSON and times come back. What answers before a row is asked for is the same.
"""

AGAIN = {
    "tests/api/people/test_accounts.py": "one e-mail address, one person: however it is written",
    "tests/api/strangers/test_any_body.py": "what a body holds goes into columns",
    "tests/api/strangers/test_caps.py": "rows are counted while others add some",
    "tests/api/calendar/test_calendar.py": "the key of two columns; stamps and days come back in order",
    "tests/api/people/test_devices.py": "“last heard of” gives up where a row is locked; times come back",
    "tests/api/strangers/test_hostile_asks.py": "what an address holds goes into queries",
    "tests/api/people/test_members.py": "roles and removals under the household's lock",
    "tests/api/people/test_pending_review.py": "ops kept as JSON come back as they came",
    "tests/api/pictures/test_photos.py": "rows of pictures given twice and at once",
    "tests/api/strangers/test_schemathesis.py": "whatever the schema allows goes into queries and columns",
    "tests/api/people/test_sign_ins.py": "old rows go by their time; the same order for the same time",
    "tests/api/people/test_throttles.py": "one statement counts a try",
    "tests/api/strangers/test_under_the_lock.py": "what a request finds that waited for a lock",
    "tests/api/weather/test_weather.py": "days and climates are kept as JSON; of several requests one claims a row",
    "tests/domain/test_author.py": "numbers in the order of writing",
    "tests/domain/test_constraints.py": "what the database itself refuses",
    "tests/domain/test_local_rules.py": "what the database itself refuses",
    "tests/domain/test_membership.py": "queries and keys of households, phones and invitations",
    "tests/domain/test_plan_command.py": "a household is read from its rows",
    "tests/domain/test_throttle_counters.py": "one statement a try, by many processes at once",
    "tests/domain/test_totals.py": "sums and days over rows",
    "tests/operations/test_backup.py::test_s11_a_restore_gives_back_every_row_and_photo_under_a_new_epoch": (
        "what a table says in an archive is the same from both; tests/live restores one from the other"
    ),
    "tests/operations/test_backup.py::test_a_restore_that_breaks_off_half_way_changes_nothing": (
        "the exchange is one transaction"
    ),
    "tests/operations/test_doctor.py": "damages are found by queries",
    "tests/sync/hostile/test_a01_stamps.py": "stamps are kept and ordered as text",
    "tests/sync/hostile/test_a03_weights.py": "records are measured as JSON",
    "tests/sync/hostile/test_a07_hostile.py": "characters, numbers and nesting that a JSON column refuses",
    "tests/sync/faults/test_f13_bootstrap.py": "pages in the order of keys",
    "tests/sync/faults/test_f20_limits.py": "counters of what one phone sends",
    "tests/sync/faults/test_f27_offsets.py": "times with offsets come back",
    "tests/sync/faults/test_f43_handshake.py": "fields that are not known yet are kept as JSON",
    "tests/sync/faults/test_f48_pending_review.py": "rows that wait for a keeper",
    "tests/sync/faults/test_f52_repair.py": "digests of ranges of keys",
    "tests/sync/test_s02_merge.py": "rows are read, merged and written back",
    "tests/sync/test_s08_ops.py": "savepoints: one op is taken back and the others stand",
    "tests/sync/test_s09_refusals.py": "what is refused leaves nothing behind",
    "tests/sync/test_season_records.py": "months are kept as JSON; groups of one row are written apart",
    "tests/sync/test_weather_months.py": "days of a month are kept as JSON and merged whole",
    "tests/sync/test_s10_pull.py": "one counter, pages without holes",
    "tests/units/test_demo.py::test_everything_is_applied_and_nothing_parked_or_in_conflict": "a year of a household",
}

NOT_AGAIN = {
    "tests/api/strangers/test_crowd.py": "passwords tried at once are counted in memory",
    "tests/api/test_dev.py": "starts servers for developing, on a database file",
    "tests/api/strangers/test_discretion.py": "what stands in addresses and in the log's lines",
    "tests/api/strangers/test_headers.py": "headers of answers",
    "tests/api/people/test_isolation.py": "the same queries as in the other files, asked by strangers at every address",
    "tests/api/people/test_no_csrf_cookie.py": "cookies of answers",
    "tests/api/pictures/test_photo_check.py": "pictures are checked before a row is written",
    "tests/api/test_schema.py": "the schema is made from code",
    "tests/api/test_serializers.py": "forms, without rows",
    "tests/api/test_serving.py": "connections, without rows",
    "tests/api/test_settings.py": "settings, without rows",
    "tests/api/test_shell.py": "files",
    "tests/api/test_up.py": "servers of their own, on a database file; tests/live has one on PostgreSQL",
    "tests/domain/test_admin.py": "Django's own pages over rows that the other files read",
    "tests/domain/test_contract_refuses.py": "the contract, without rows",
    "tests/domain/test_hashing.py": "hashes, without rows",
    "tests/domain/test_kinds.py": "texts of the contract",
    "tests/domain/test_written_types.py": "types written from the contract",
    "tests/operations/test_a12_hostile_archives.py": "archives are refused in a database file beside, on both",
    "tests/sync/hostile/test_a05_contract.py": "refused by the contract, before a row is written",
    "tests/sync/test_digest_vectors.py": "sums, without rows",
    "tests/sync/faults/test_f10_events.py": "a server of its own, on a database file; tests/live has one on PostgreSQL",
    "tests/sync/faults/test_f45_photos.py": "a server of its own, on a database file; tests/live has one on PostgreSQL",
    "tests/sync/test_s07_live.py": "servers of their own, on a database file; tests/live has one on PostgreSQL",
}
