import { useMemo, useState } from "preact/hooks";
import { clock, dateTime } from "../../../format";
import { today } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { type Entry, isAhead } from "../../../records/entries";
import { nameOf } from "../../../records/log/named";
import { kindOf, labelOf, wordsOf } from "../../../records/log/registry";
import { factsOf } from "../../../records/log/words";
import { Button, Empty, Notice, orUndo, Page, Standing } from "../../../ui/parts";
import { Photos } from "../../photos";
import { log } from "../model";
import { historyOf, type Said } from "../model/log";
import { MoveSheet, NoteSheet, StrikeSheet } from "./amend";
import { EntryLine } from "./line";

export function EntryPage({ id }: { id: string }) {
  const found = useMemo(() => log.entry(id), [id]);
  const entry = found.value;
  if (entry) return <EntryDetail entry={entry} />;
  return (
    <Page title="Entry" back="/log" backLabel="Back to the log">
      {log.loaded.value ? (
        <Empty title="Not on this phone" action={<Button href="/log">Back to the log</Button>}>
          <p>This entry has not reached this phone yet.</p>
        </Empty>
      ) : null}
    </Page>
  );
}

function EntryDetail({ entry }: { entry: Entry }) {
  const Detail = wordsOf(entry.kind)?.Detail;
  return (
    <Page title={labelOf(entry.kind)} back="/log" backLabel="Back to the log" actions={<Standing />}>
      {entry.struck ? (
        <Notice kind="warn" title="Crossed out">
          <p>Not counted. You can restore it.</p>
        </Notice>
      ) : null}
      {isAhead(entry, today()) ? (
        <Notice kind="warn" title="Dated in the future">
          <p>This entry does not count yet. Change its date.</p>
        </Notice>
      ) : null}
      <Facts entry={entry} />
      <Parts entry={entry} />
      <Whole entry={entry} />
      {Detail ? <Detail entry={entry} /> : null}
      <Photos of="entry" id={entry.id} />
      <Amending entry={entry} />
      <History entry={entry} />
    </Page>
  );
}

/** What it is made of: the passes of a job. */
function Parts({ entry: { id, kind } }: { entry: Entry }) {
  const found = useMemo(() => log.partsOf(id), [id]);
  const title = kindOf(kind)?.parts?.title;
  if (!title || !found.value.length) return null;
  return (
    <section class="section" aria-labelledby="parts">
      <h2 id="parts">{title}</h2>
      <ul class="lines">
        {found.value.map((part) => (
          <EntryLine key={part.id} entry={part} when={clock(part.at, units.value)} />
        ))}
      </ul>
    </section>
  );
}

/** The way from a part to the entry it belongs to. */
function Whole({ entry: { kind, body } }: { entry: Entry }) {
  const whole = log.entryNow(kindOf(kind)?.partOf?.(body));
  const way = whole && kindOf(whole.kind)?.parts?.way;
  if (!way) return null;
  return (
    <div>
      <Button href={`/log/${whole.id}`}>{way}</Button>
    </div>
  );
}

function Facts({ entry }: { entry: Entry }) {
  const facts = factsOf(entry, units.value);
  return (
    <dl class="facts">
      <dt>When</dt>
      <dd>{dateTime(entry.at, units.value)}</dd>
      <dt>By</dt>
      <dd>{nameOf(entry.by) ?? "not known on this phone"}</dd>
      {facts.map(([name, value]) => [<dt key={`${name}-t`}>{name}</dt>, <dd key={`${name}-d`}>{value}</dd>])}
      {entry.note ? [<dt key="note-t">Note</dt>, <dd key="note-d">{entry.note}</dd>] : null}
      <dt>Status</dt>
      <dd>{entry.pending ? "Saved on this phone, waiting to be sent" : "Saved on this phone and sent"}</dd>
    </dl>
  );
}

function Amending({ entry }: { entry: Entry }) {
  const [open, setOpen] = useState<"" | "note" | "when" | "strike">("");
  const close = () => setOpen("");
  const putBack = () => orUndo(() => log.putBack(entry), "Restored. It counts again.");
  return (
    <section class="section" aria-labelledby="amend">
      <h2 id="amend">Correct this entry</h2>
      <p class="quiet">The original stays. Changes are added below it.</p>
      <div class="row">
        <Button onClick={() => setOpen("note")}>{entry.note ? "Edit the note" : "Add a note"}</Button>
        <Button onClick={() => setOpen("when")}>Change date</Button>
        {entry.struck ? (
          <Button onClick={putBack}>Restore</Button>
        ) : (
          <Button tone="danger" onClick={() => setOpen("strike")}>
            Cross out
          </Button>
        )}
      </div>
      <NoteSheet entry={entry} open={open === "note"} onClose={close} />
      <MoveSheet entry={entry} open={open === "when"} onClose={close} />
      <StrikeSheet entry={entry} open={open === "strike"} onClose={close} />
    </section>
  );
}

function History({ entry }: { entry: Entry }) {
  return (
    <section class="section" aria-labelledby="history">
      <h2 id="history">History</h2>
      <ol class="lines">
        {historyOf(entry).map((line, at) => (
          <HistoryLine key={`${at}-${line.what}`} line={line} />
        ))}
      </ol>
    </section>
  );
}

function HistoryLine({ line }: { line: Said }) {
  const value = /^\d{4}-\d{2}-\d{2}T/.test(line.value) ? dateTime(line.value, units.value) : line.value;
  const who = [nameOf(line.by), line.at && dateTime(line.at, units.value)].filter(Boolean).join(", ");
  return (
    <li class="line">
      <span class="line__main">
        <span class="line__title">{line.what}</span>
        {value ? <span>{value}</span> : null}
        <span class="line__facts">{who || "on this phone, not sent yet"}</span>
      </span>
    </li>
  );
}
