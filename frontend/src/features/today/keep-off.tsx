/** Where nobody goes yet: on Today, on the zone's page, first on the finish card, and before a mow. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { clock, count, isoMoment, weekday } from "../../format";
import { units } from "../../platform/session/session";
import type { KeptOff } from "../../records/keep-off";
import { keepOff, look, store } from "../../records/live";
import { nameOf } from "../../records/log/named";
import { rest } from "../../records/rest";
import { Button, Notice, Sheet } from "../../ui/parts";

/** A little late rather than early; and no longer than a timer can wait. */
const LATE_MS = 1000;
const LONGEST_MS = 86_400_000;

/** The zones to keep off now; looked up again once the first of them is over. */
export function useKeptOff(): Record<string, KeptOff> {
  const over_in_s = keepOff.said.value?.value?.over_in_s ?? null;
  const said = keepOff.said.value;
  // biome-ignore lint/correctness/useExhaustiveDependencies: each answer has a wait of its own
  useEffect(() => {
    if (over_in_s === null) return undefined;
    const timer = setTimeout(keepOff.look, Math.min(over_in_s * 1000 + LATE_MS, LONGEST_MS));
    return () => clearTimeout(timer);
  }, [said]);
  return keepOff.zones.value;
}

/** By the book; until it is read, as it was kept. */
function named(id: string | null): string | undefined {
  return id ? (nameOf(id) ?? look.kept.value?.names[id]) : undefined;
}

/** "Sat 2 May, 18:30" or "6:30 pm", by this phone's clock. */
function sayMoment(until: string): string {
  return `${weekday(until)}, ${clock(isoMoment(new Date(until)), units.value)}`;
}

export function sayUntil({ until }: KeptOff): string {
  return `Keep off until ${sayMoment(until)}`;
}

function sayWhy({ hours, assumed, until_watered, product_id }: KeptOff): string {
  const product = named(product_id) ?? "The product";
  const rule = assumed
    ? "The label gives no hours, so we use one day (common practice)."
    : `The label says ${count(hours, "hour").text}.`;
  const wet = until_watered || assumed ? " Stay off longer if it is not watered in and dry." : "";
  return `${product}. ${rule}${wet}`;
}

/** Zones that were done together, under one warning. */
function together(zoneIds: readonly string[], zones: Record<string, KeptOff>): [KeptOff, string[]][] {
  const groups = new Map<string, [KeptOff, string[]]>();
  for (const id of zoneIds) {
    const kept = zones[id];
    if (!kept) continue;
    const group = groups.get(kept.entry_id) ?? [kept, []];
    groups.set(kept.entry_id, [kept, [...group[1], id]]);
  }
  return [...groups.values()];
}

const zoneNames = (ids: readonly string[]) => ids.map((id) => named(id) ?? "A zone").join(", ");

/** The warnings for these zones; nothing where they are free. */
export function KeepOffNotices({ zoneIds }: { zoneIds: readonly string[] }) {
  const zones = useKeptOff();
  return (
    <>
      {together(zoneIds, zones).map(([kept, ids]) => (
        <Notice key={kept.entry_id} kind="warn" title={sayUntil(kept)}>
          <p>
            {zoneNames(ids)}. {sayWhy(kept)}
          </p>
        </Notice>
      ))}
    </>
  );
}

/** Every zone to keep off, as Today has it. */
export function KeepOffToday() {
  const zones = keepOff.zones.value;
  const known = keepOff.said.value ? store.rows("zone").value.map(({ id }) => id) : Object.keys(zones);
  const ids = known.filter((id) => zones[id]);
  return (
    <section aria-label="Keep off" class="stack" hidden={!ids.length}>
      <KeepOffNotices zoneIds={ids} />
    </section>
  );
}

const asked = signal<{ zoneIds: readonly string[]; answer: (go: boolean) => void } | null>(null);

/** Before a mow of zones to keep off: whether it is noted all the same. True at once where they are free. */
export function mayMow(zoneIds: readonly string[]): Promise<boolean> {
  const kept = zoneIds.filter((id) => keepOff.zones.value[id]);
  if (!kept.length) return Promise.resolve(true);
  // What lies under the thumb now would say yes.
  rest.begin();
  return new Promise((answer) => {
    asked.value = { zoneIds: kept, answer };
  });
}

function answer(go: boolean): void {
  const now = asked.value;
  asked.value = null;
  now?.answer(go);
}

/** The question `mayMow` asks; one place holds it. */
export function MayMow() {
  const now = asked.value;
  return (
    <Sheet
      open={now !== null}
      onClose={() => answer(false)}
      title="Keep off, and do not mow yet"
      actions={
        <>
          <Button tone="signal" onClick={() => answer(false)}>
            Wait
          </Button>
          <Button onClick={() => answer(true)}>Log the mow anyway</Button>
        </>
      }
    >
      <KeepOffNotices zoneIds={now?.zoneIds ?? []} />
      <p>Log it only if you already mowed.</p>
    </Sheet>
  );
}
