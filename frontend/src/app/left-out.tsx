/** Records that cannot be used as they are, named on every page that reads them, with the way to put each right. */
import { useLocation } from "wouter-preact";
import { spreading } from "../features/spreading/model";
import { leftOut } from "../records/live";
import { REMOVABLE, type Sick } from "../records/sick";
import { Button, Notice, orSay, showToast } from "../ui/parts";

const WHAT: Record<string, string> = {
  household: "The household",
  member: "Member",
  zone: "Zone",
  product: "Product",
  spreader: "Spreader",
  entry: "Entry",
  claim: "A job somebody took",
  settlement: "An answer to a warning",
  photo: "A photo",
};

/** Where it is put right: in its form, or on the entry's own page, where it can be taken out of all sums. */
const WHERE: Record<string, (id: string) => string> = {
  household: () => "/household",
  member: (id) => `/household/members/${id}`,
  zone: (id) => `/ground/${id}/edit`,
  product: (id) => `/shed/product/${id}`,
  spreader: (id) => `/shed/spreader/${id}`,
  entry: (id) => `/log/${id}`,
};

/** What the pages of a place read. */
const READS: Record<string, readonly string[]> = {
  "": ["zone", "product", "spreader", "entry", "claim", "settlement"],
  ground: ["zone", "entry", "photo"],
  shed: ["product", "spreader", "entry"],
  season: ["zone", "product", "entry"],
  spread: ["zone", "product", "spreader", "entry"],
  log: ["entry", "photo"],
  household: ["household", "member", "entry", "claim", "settlement", "photo"],
};

/** From the yard on, the dial and the strip have the screen to themselves. */
const INDOORS: readonly unknown[] = [null, "choose", "aim", "cautions", "load"];
const UUID = /[0-9a-f]{8}-[0-9a-f-]{27}/;

/** Those of this page; on a record's own page that record, if it is one of them. */
function onPage(path: string, records: readonly Sick[]): Sick[] {
  const place = path.split("/")[1] ?? "";
  if (place === "spread" && !INDOORS.includes(spreading.step.value)) return [];
  const own = UUID.exec(path)?.[0];
  return records.filter(({ t, id }) => (own ? id === own : READS[place]?.includes(t)));
}

export function LeftOutHere() {
  const [path] = useLocation();
  if (!leftOut.loaded.value) return null;
  return <LeftOut records={onPage(path, leftOut.records.value)} path={path} />;
}

/** As many as are listed at once: a page must not sink under them. */
const LISTED = 3;

function LeftOut({ records, path }: { records: readonly Sick[]; path: string }) {
  if (!records.length) return null;
  const line = (sick: Sick) => <Line key={`${sick.t}:${sick.id}`} sick={sick} path={path} />;
  const more = records.slice(LISTED);
  return (
    <Notice kind="warn" title="Not counted yet">
      <ul class="stack stack--tight">{records.slice(0, LISTED).map(line)}</ul>
      {more.length ? (
        <details>
          <summary>{more.length} more</summary>
          <ul class="stack stack--tight">{more.map(line)}</ul>
        </details>
      ) : null}
    </Notice>
  );
}

function Line({ sick, path }: { sick: Sick; path: string }) {
  const { t, id, name, fields } = sick;
  return (
    <li>
      {[WHAT[t] ?? t, name.replaceAll("_", " ")].filter(Boolean).join(" ")}: {fields.join(", ")} can’t be
      used. <Way sick={sick} href={WHERE[t]?.(id)} here={path} />
    </li>
  );
}

function Way({ sick, href, here }: { sick: Sick; href: string | undefined; here: string }) {
  const label = `${WHAT[sick.t] ?? sick.t} ${sick.name}`;
  if (REMOVABLE.includes(sick.t))
    return (
      <Button label={`Remove: ${label}`} onClick={() => remove(sick)}>
        Remove it
      </Button>
    );
  if (sick.t === "entry" && href === here) return <>If it is wrong, cross it out below.</>;
  if (!href || href === here) return <>Correct it below.</>;
  return (
    <Button href={href} label={`Open: ${label}`}>
      Open it
    </Button>
  );
}

async function remove(sick: Sick): Promise<void> {
  const made = await orSay(() => leftOut.remove(sick));
  if (made) showToast({ text: "Removed.", undo: { act: made.value } });
}
