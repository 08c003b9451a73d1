"""Faults in what a phone keeps: saves, pages, verdicts, refills (S5, S11, S14, S15)."""

from tests.plants.fault import Planted, by

_SRC = "frontend/src"
_STORE = f"{_SRC}/store"
_PAGES = "frontend/src/platform/sync/s15-pages.test.ts"
_REFILL = "frontend/src/platform/sync/s11-refill.test.ts"
_VERDICTS = "frontend/src/platform/sync/s09-verdicts.test.ts"
_VERSIONS = "frontend/src/platform/sync/s09-versions.test.ts"
_LINES = "frontend/src/platform/sync/s08-lines.test.ts"
_BOOK = "frontend/src/platform/store/book.test.ts"
_OWN = "frontend/src/records/own-fields.test.ts"
_WHOLE = "frontend/src/platform/sync/f51-whole-book.test.ts"

_ONE_TRANSACTION = """\
  const tables = [db.base, db.live, db.outbox, db.acked, db.parked, db.meta];
  return db.transaction("rw", tables, async () => {
    const state = await readState(db);
    if (eraOf(state) !== eraOf(asked)) return [];
    const times"""
_SAVE = """\
  return db.transaction("rw", tablesFor(db, pictures), async () => {
    await keepPictures(db, pictures, nowMs);
"""

PLANTS = (
    Planted(
        "cursor_before_the_page",
        "The cursor is stored before the page, in a transaction of its own.",
        "frontend/src/platform/store/incoming/answers.ts",
        _ONE_TRANSACTION,
        "  await db.meta.put({ ...(await readState(db)), cursor: answer.cursor });\n"
        "  asked = { ...asked, cursor: answer.cursor };\n" + _ONE_TRANSACTION,
        by(_PAGES, "F11 nor does the cursor move where the page itself cannot be written"),
    ),
    Planted(
        "gone_at_its_verdict",
        "An op leaves the outbox with its verdict, before its record has come back.",
        "frontend/src/platform/store/incoming/answers.ts",
        "if (aside || (seq !== undefined && seq <= cursor)) done.push(op);",
        "if (aside || seq !== undefined) done.push(op);",
        by(_PAGES, "an op leaves the outbox only when the cursor has passed it (P1)"),
    ),
    Planted(
        "parked_dropped",
        "An op the server set aside is listed nowhere on the phone.",
        "frontend/src/platform/store/incoming/answers.ts",
        "  await db.parked.bulkPut(parked.filter((row) => row.m.length > 0));\n",
        "",
        by(_VERDICTS, "F14 is parked by the server with its reason, shown, and can be sent again (P6, F14)"),
    ),
    Planted(
        "answer_of_a_lost_server_taken",
        "An answer from before the server was restored, arriving late, settles ops the restored server has not.",
        "frontend/src/platform/store/incoming/answers.ts",
        "    if (eraOf(state) !== eraOf(asked)) return [];\n    const times",
        "    const times",
        by(_REFILL, "F22 an answer of the server before, arriving late, settles nothing"),
    ),
    Planted(
        "epoch_ignored",
        "A server that says it was restored is taken for the one before.",
        "frontend/src/platform/store/incoming/answers.ts",
        "if (answer.reset || (state.epoch !== undefined && answer.epoch !== state.epoch)) return true;",
        "if (answer.reset) return true;",
        by(_REFILL, "F22 is known by its epoch alone: what was sent under an earlier line goes out again"),
    ),
    Planted(
        "older_copy_wins",
        "A page of a first fetch puts an older copy of a record over a newer one.",
        "frontend/src/platform/store/incoming/pages.ts",
        "if (old && old.seq > Math.max(record.seq, trusted)) {",
        "if (old && old.seq < 0) {",
        by(_WHOLE, "pulled by another tab before the page is stored: the older copy in the page does not come over it"),
    ),
    Planted(
        "unknown_fields_dropped",
        "Only the fields this build knows of a record are stored.",
        "frontend/src/platform/store/incoming/pages.ts",
        "puts.push({ key, record, era: eraOf(state) });",
        "const { seq, t, id, body, by, received_at: at, groups } = record;\n"
        "    puts.push({ key, record: { seq, t, id, body, by, received_at: at, groups } as any, era: eraOf(state) });",
        by(_PAGES, "store kinds and fields this build does not know as they came (F12, P5)"),
    ),
    Planted(
        "stamps_not_moved_on",
        "What is read does not move the phone's stamps on, so with a slow clock its answer sorts before the question.",
        "frontend/src/platform/store/incoming/pages.ts",
        "digest, hlc: heard(state, came) }",
        "digest }",
        by(_PAGES, "move the phone's stamps on: what is written after reading sorts after what was read (S6, F25)"),
    ),
    Planted(
        "waiting_ops_not_on_top",
        "A page of changes shows without the phone's own waiting ops.",
        "frontend/src/platform/store/writing.ts",
        "rebuild(t, id, records.get(key), ops.get(key) ?? [])",
        "rebuild(t, id, records.get(key), (ops.get(key) ?? []).slice(0, 0))",
        by(_PAGES, "keep a waiting write on top of what comes in (P3)"),
    ),
    Planted(
        "save_without_a_transaction",
        "A save takes its number outside the transaction that stores the op.",
        "frontend/src/platform/store/writing.ts",
        _SAVE,
        '  return ((_mode: string, _tables: unknown, work: () => Promise<Saved>) => work())("rw", [], async () => {\n'
        "    await keepPictures(db, pictures, nowMs);\n",
        by(_BOOK, "from two tabs at once never gives one number twice (S5, F39)"),
    ),
    Planted(
        "picture_in_another_transaction",
        "A photo's picture and its record are saved one after the other.",
        "frontend/src/platform/store/writing.ts",
        _SAVE,
        "  await keepPictures(db, pictures, nowMs);\n"
        '  return db.transaction("rw", tablesFor(db, pictures), async () => {\n',
        by("frontend/src/platform/photos/f46-keeping.test.ts", "are saved together or not at all"),
    ),
    Planted(
        "durability_relaxed",
        "“Saved” is said before the save is on the disk.",
        "frontend/src/platform/store/db.ts",
        'chromeTransactionDurability: "strict"',
        'chromeTransactionDurability: "relaxed"',
        by(_BOOK, "is one strict transaction over record, op and number"),
    ),
    Planted(
        "not_marked_as_sent",
        "An op is not marked before it leaves, so it can be taken back though the server has it.",
        "frontend/src/platform/store/lines.ts",
        "    if (sent !== known.sent) await db.meta.put(state);\n",
        "",
        by(_BOOK, "refuses once the op was taken up for sending (F2)"),
    ),
    Planted(
        "incarnation_kept_after_a_fork",
        "A phone whose numbers were used twice goes on under its old incarnation.",
        "frontend/src/platform/store/lines.ts",
        "incarnation: newId(), node: randomHex(8), dseq, sent: 0, confirmed: 0 };",
        "node: randomHex(8), dseq, sent: 0, confirmed: 0 };",
        by(_LINES, "F23 restored from a week-old backup: makes a new incarnation and sends again, each op once"),
    ),
    Planted(
        "node_kept_after_a_fork",
        "A cloned phone stamps its writes with the same node as the other.",
        "frontend/src/platform/store/lines.ts",
        "incarnation: newId(), node: randomHex(8), dseq, sent: 0, confirmed: 0 };",
        "incarnation: newId(), dseq, sent: 0, confirmed: 0 };",
        by(_LINES, "F24 cloned: both go on, nothing lost or doubled, and they differ in incarnation and in stamps"),
    ),
    Planted(
        "quarantine_without_a_hole",
        "The number of an op set aside stays empty, and nothing after it is ever taken.",
        "frontend/src/platform/store/lines.ts",
        "    await db.outbox.add(hole(op, newId()));\n",
        "",
        by(_VERSIONS, "is answered as an applied hole: later ops flow, nothing of it waits or is kept"),
    ),
    Planted(
        "hash_made_anew",
        "A renumbered op gets another hash, so that it is not known as the same one.",
        "frontend/src/platform/store/core/outbox.ts",
        "hash: op.hash ?? hashOf(op)",
        "hash: hashOf(op)",
        by(
            "frontend/src/platform/store/core/outbox.test.ts",
            "carries the same hash for ever, whatever number the op gets later (S8)",
        ),
    ),
    Planted(
        "hash_lost_with_the_number",
        "An op that has left and gets another number keeps no hash, so that it is not known as the same one.",
        "frontend/src/platform/store/core/outbox.ts",
        "ops.map((op) => (hasLeft(op, sent) ? marked(op) : op));",
        "ops.map((op) => (hasLeft(op, sent) ? { ...op, sent: true } : op));",
        by(
            "frontend/src/platform/store/core/outbox.test.ts",
            "start again at 1 in a new incarnation, in the same order, under the same ids and hashes (S8)",
        ),
    ),
    Planted(
        "acked_not_kept",
        "Acknowledged ops are thrown away at once.",
        "frontend/src/platform/store/incoming/refill.ts",
        "  await db.acked.put({ op: newId(), at: times.server ?? times.phone, mine: times.phone, ops });\n",
        "",
        by(_REFILL, "whole, with its hash, from the answer on; holes are not"),
    ),
    Planted(
        "kept_by_the_phones_clock",
        "Acknowledged ops go when 30 days are past by the phone's clock alone.",
        "frontend/src/platform/store/incoming/refill.ts",
        '    .where("at")\n    .below(times.server - KEPT_MS)\n',
        "",
        by(_REFILL, "F25 F27 not by the phone's clock alone: 3 years back, a year ahead, then mended"),
    ),
    Planted(
        "refill_forgets_waiting_ops",
        "A refill numbers what was acknowledged and leaves out what waits.",
        "frontend/src/platform/store/incoming/refill.ts",
        "    ...fixed.filter((op) => !isHole(op)).map(withoutVerdict),\n",
        "",
        by(_REFILL, "F22 counts what waits behind what was acknowledged (S5)"),
    ),
    Planted(
        "refill_out_of_order",
        "A refill orders ops by their old numbers, though those are of several lines.",
        "frontend/src/platform/store/incoming/refill.ts",
        "a.hlc < b.hlc ? -1 : a.hlc > b.hlc ? 1 : a.dseq - b.dseq",
        "a.dseq - b.dseq",
        by(_REFILL, "F22 in the order they were entered, line after line (P3)"),
    ),
    Planted(
        "bootstrap_cursor_early",
        "The cursor moves with the first page of a whole book, so that a cut leaves a hole for good.",
        "frontend/src/platform/store/incoming/whole.ts",
        ": { state: stored.state, swept: [] };",
        ": { state: done, swept: [] };",
        by(_WHOLE, "page by page, the cursor moving only with the last; then the rest is pulled"),
    ),
    Planted(
        "bootstrap_head_of_the_last_page",
        "The cursor is the head of the last page, so that edits between pages are missed.",
        "frontend/src/platform/store/incoming/whole.ts",
        "const head = boot.after === null ? page.head : boot.head;",
        "const head = page.head;",
        by(_WHOLE, "of a record whose page has come is pulled afterwards, and no older copy comes over a newer one"),
    ),
    Planted(
        "fetching_anew_empties_the_outbox",
        "Beginning to fetch the whole book throws away what waits.",
        "frontend/src/platform/store/incoming/whole.ts",
        '  await db.transaction("rw", db.meta, async () => {\n    const { epoch }',
        '  await db.outbox.clear();\n  await db.transaction("rw", db.meta, async () => {\n    const { epoch }',
        by(_WHOLE, "P9 and what is saved in the very moment the fetching begins still goes out"),
    ),
    Planted(
        "field_of_another_group",
        "A product is read with whatever its groups hold, so that a field nobody checked stands among the label's.",
        "frontend/src/records/products.ts",
        "filter(([field]) => field in known);",
        "filter(([field]) => field in known || field);",
        by(_OWN, "is not taken from a group where only a later build would read it"),
    ),
    Planted(
        "field_of_another_kind",
        "An entry carries the fields of other kinds too, such as a mow with the zones of a spreading job.",
        "frontend/src/records/kinds.ts",
        "if (!field) return !known || (!named.has(name) && !misshapen(t, group, name, is));",
        "if (!field) return true;",
        by(_OWN, "carries no field of another kind: a mow with zones has none"),
    ),
)
