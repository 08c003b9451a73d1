"""Faults in a phone's talking to the server: refusals, tries, tabs, repair, photos (S9, S16, S17, S19)."""

from tests.plants.fault import Planted, by

_ROUND = "frontend/src/platform/sync/round.ts"
_VERDICTS = "frontend/src/platform/sync/s09-verdicts.test.ts"
_TRIES = "frontend/src/platform/sync/s17-tries.test.ts"
_LEADER = "frontend/src/platform/sync/s16-leader.test.ts"
_QUEUE = "frontend/src/platform/photos/f45-queue.test.ts"
_KEEPING = "frontend/src/platform/photos/f46-keeping.test.ts"

_REFUSED = "if (!outcome.ok) return refused(outcome, ops);"

PLANTS = (
    Planted(
        "outbox_cleared_on_401",
        "Being signed out empties the outbox.",
        _ROUND,
        _REFUSED,
        "if (!outcome.ok && outcome.status === 401) await book.db.outbox.clear();\n    " + _REFUSED,
        by(
            "frontend/src/platform/sync/s17-clocks.test.ts",
            "the outbox grows, nothing is lost, tries go on, and after the sign-in",
        ),
    ),
    Planted(
        "outbox_cleared_by_a_portal",
        "A page of a captive portal with status 200 passes for the server's answer.",
        _ROUND,
        _REFUSED,
        'if (!outcome.ok && outcome.code === "odd_answer") await book.db.outbox.bulkDelete(ops.map((op) => op.op));\n'
        "    " + _REFUSED,
        by(_VERDICTS, "F5 F15 F17 F19 F20 F44 %s means later"),
    ),
    Planted(
        "dropped_on_413",
        "What is refused for its size is thrown away.",
        _ROUND,
        _REFUSED,
        "if (!outcome.ok && outcome.status === 413) await book.db.outbox.bulkDelete(ops.map((op) => op.op));\n"
        "    " + _REFUSED,
        by(_VERDICTS, "F14 F16 F56 is halved until the one op is found; it is set aside, the others flow"),
    ),
    Planted(
        "set_aside_unproved",
        "An op refused alone is set aside though the server may be refusing everything.",
        _ROUND,
        "if (only) suspect = { op: only.op, failure };",
        "if (only) void quarantine(book.db, only.op, failure, new Date(now()).toISOString());",
        by(_VERDICTS, "sets nothing aside when the server refuses everything"),
    ),
    Planted(
        "sent_under_anothers_cookie",
        "A phone sends its entries under whoever is signed in.",
        "frontend/src/platform/sync/exchange.ts",
        '      if (who === "other") return SIGNED_OUT;\n',
        "",
        by(_TRIES, "sends nothing under another person's sign-in (F18)"),
    ),
    Planted(
        "gives_up",
        "After ten failures in a row nothing is tried any more until somebody types.",
        "frontend/src/platform/sync/index.ts",
        "return Math.max(asked, pauseMs(failures, world.chance()));",
        "return failures < 10 ? Math.max(asked, pauseMs(failures, world.chance())) : Number.POSITIVE_INFINITY;",
        by(_TRIES, "goes on for ever, at most 5 minutes apart, though nobody types (F21)"),
    ),
    Planted(
        "retry_after_ignored",
        "A server that asks to be left alone is asked again at once.",
        "frontend/src/platform/sync/index.ts",
        "const asked = Math.min((failure.retryAfterS ?? 0) * 1000, MOST_RETRY_AFTER_MS);",
        "const asked = Math.min((failure.retryAfterS ?? 0) * 0, MOST_RETRY_AFTER_MS);",
        by(_TRIES, "waits as long as the server asks, waking or not (F20)"),
    ),
    Planted(
        "waits_for_a_wrong_clock",
        "A clock set back stretches a wait by as much as it was set back.",
        "frontend/src/platform/sync/index.ts",
        "if (wait > 0 && wait <= MOST_RETRY_AFTER_MS) return wait;",
        "if (wait > 0) return wait;",
        by(_TRIES, "is not held back by a clock that was set a year back (F26)"),
    ),
    Planted(
        "every_tab_leads",
        "Two tabs sync at once though the browser has locks.",
        "frontend/src/platform/sync/leader.ts",
        "if (!locks) return Promise.resolve(() => undefined);",
        "if (!locks || locks) return Promise.resolve(() => undefined);",
        by(_LEADER, "the first, for as long as it lives and says so"),
    ),
    Planted(
        "robbed_leader_leads_on",
        "A tab whose lock was taken goes on leading.",
        "frontend/src/platform/sync/leader.ts",
        'if (state === "leading") handOver();\n    else if (state === "over") fails(why);',
        'if (state === "over") fails(why);',
        by(_LEADER, "when it goes on it leads no more, and follows"),
    ),
    Planted(
        "frozen_leader_waited_for",
        "The lock of a frozen tab is never taken.",
        "frontend/src/platform/sync/leader.ts",
        "if (silent * BEAT_MS < STALE_MS) return;",
        "if (silent * BEAT_MS < STALE_MS * 1000) return;",
        by(_LEADER, "its lock is taken after 30 s, not before"),
    ),
    Planted(
        "digest_mismatch_ignored",
        "A book that differs from the server's passes for whole.",
        "frontend/src/platform/sync/agreement.ts",
        "return kept || (await summedUp()) === digest;",
        "return kept || (await summedUp()) !== undefined;",
        by(
            "frontend/src/platform/sync/f52-repair.test.ts",
            "one row silently missing: found, fetched by its bucket alone",
        ),
    ),
    Planted(
        "half_a_page_taken",
        "A page of a whole book that was cut short passes for the last one.",
        "frontend/src/platform/sync/bootstrap.ts",
        'if (last?.after !== null && typeof last?.after !== "string") return undefined;',
        "if (last && last.after === undefined) last.after = null;",
        by("frontend/src/platform/sync/f51-whole-book.test.ts", "F5 F19 a page %s is thrown away"),
    ),
    Planted(
        "picture_sent_from_its_start",
        "After every cut a picture is sent from its beginning.",
        "frontend/src/platform/photos/upload.ts",
        "let stands = await wire.standing(name, row.size);",
        "let stands: Outcome<UploadStanding> = { ok: true, status: 200, value: { have_bytes: 0, complete: false } };",
        by(_QUEUE, "goes on each time from what the server has, and sends no chunk again that was taken"),
    ),
    Planted(
        "picture_gone_before_the_server_has_it",
        "A picture's bytes go as soon as its first chunk was taken.",
        "frontend/src/platform/photos/upload.ts",
        "idle = further(answer, first) ? 0 : idle + 1;",
        "idle = further(answer, first) ? 0 : idle + 1;\n    if (answer.ok) await db.photos.delete(name);",
        by(_QUEUE, "goes on after the app was killed between two chunks and started anew"),
    ),
    Planted(
        "refused_picture_thrown_away",
        "A picture the server does not keep is deleted from the phone too.",
        "frontend/src/platform/photos/upload.ts",
        '  await db.photos.update(name, { state: "refused", why });\n',
        "  await db.photos.delete(name);\n",
        by(_QUEUE, "sets aside one that the server does not keep, with its reason and its bytes (P6, P9)"),
    ),
    Planted(
        "picture_let_go_unasked",
        "Old pictures go without asking the server once more whether it still has them.",
        "frontend/src/platform/photos/keeping.ts",
        "const failure = await restoredNames(db, wire, going);",
        "const failure = await restoredNames(db, wire, going.slice(0, 0));",
        by(_KEEPING, "when the server has lost it meanwhile, and is sent again (F22)"),
    ),
    Planted(
        "pictures_under_anothers_cookie",
        "Photos are sent under whoever is signed in.",
        "frontend/src/platform/photos/queue.ts",
        '      if (who === "other") return NOBODY;\n',
        "",
        by(_QUEUE, "sends nothing under another person's sign-in (F18)"),
    ),
    Planted(
        "one_picture_stops_all",
        "A picture that is refused holds up all behind it.",
        "frontend/src/platform/photos/queue.ts",
        "if (failure && !OF_ONE.has(failure.status)) return failure;",
        "if (failure) return failure;",
        by(_QUEUE, "sends the rest while one is refused as a request"),
    ),
)
