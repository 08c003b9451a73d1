/** Records that cannot be used as they are, named on every page that reads them, with the way to put each right. */
import { useLocation } from "wouter-preact";
import { leftOut } from "../records/live";
import { labelOf, registered } from "../records/log/registry";
import { REMOVABLE, type Sick } from "../records/sick";
import { Button, Notice, orUndo } from "../ui/parts";

const WHAT: Record<string, string> = {
  household: "The household",
  member: "Member",
  zone: "Zone",
  product: "Product",
  spreader: "Spreader",
  mower: "Mower",
  plan: "A season plan",
  step: "A step of the season plan",
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
  mower: (id) => `/shed/mower/${id}/edit`,
  entry: (id) => `/log/${id}`,
};

const UUID = /[0-9a-f]{8}-[0-9a-f-]{27}/;

/** Those of this page; on a record's own page that record, if it is one of them. */
function onPage(path: string, records: readonly Sick[]): Sick[] {
  const place = path.split("/")[1] ?? "";
  const feature = registered().find(({ reads }) => reads?.place === place);
  if (feature?.alone?.()) return [];
  const own = UUID.exec(path)?.[0];
  return records.filter(({ t, id }) => (own ? id === own : feature?.reads?.records.includes(t)));
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

/** "Zone Street verge"; of an entry, its kind. */
function sayWhich({ t, name }: Sick): string {
  if (t === "entry") return labelOf(name);
  return [WHAT[t] ?? t, name].filter(Boolean).join(" ");
}

/** "Net weight can’t be used. Product name is missing." */
function sayWhat({ fields, missing }: Sick): string {
  const wrong = fields.filter((field) => !missing.includes(field)).join(", ");
  const lacks = missing.join(", ");
  return [
    wrong && `${wrong} can’t be used.`,
    lacks && `${lacks} ${missing.length === 1 ? "is" : "are"} missing.`,
  ]
    .filter(Boolean)
    .join(" ");
}

function Line({ sick, path }: { sick: Sick; path: string }) {
  const { t, id } = sick;
  return (
    <li>
      {sayWhich(sick)}: {sayWhat(sick)} <Way sick={sick} href={WHERE[t]?.(id)} here={path} />
    </li>
  );
}

function Way({ sick, href, here }: { sick: Sick; href: string | undefined; here: string }) {
  const label = sayWhich(sick);
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

const remove = (sick: Sick) => orUndo(() => leftOut.remove(sick), "Removed.");
