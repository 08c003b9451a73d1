/** The outline of a zone in the book, drawn or mended; kept as a draft until it is saved or thrown away. */

import { computed, signal } from "@preact/signals";
import type { System } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { ask, type Engine } from "../../../platform/engine/ask";
import type { Row, Store } from "../../../platform/store/types";
import { formOfOutline, NO_OUTLINE, type OutlineForm, outlineArgs, outlineRecord } from "./outline";
import { type AreaResult, type ZoneOutline, zoneOutline } from "./zone-outline";
import { callOnRecord } from "./zone-widths";

export interface OutlineDraft {
  outline: OutlineForm;
  /** Whether the outline's area becomes the zone's; else the area stays as it was measured. */
  takesArea: boolean;
}

interface Parts {
  store: Store;
  engine: Engine;
  system: () => System;
  /** Resolves when `system` is the person's own; at once where none is handed in. */
  ready?: () => Promise<void>;
  check: (t: string, group: string, value: object, system: System) => Record<string, string>;
}

const draftKey = (id: string): string => `zone-outline:${id}`;
/** Ways whose area came from the outline itself: mending it mends the area. */
const DRAWN = ["gps", "trace", "outline"];
const LEAST_CORNERS = 3;

function freshOf(ground: Record<string, any>): OutlineDraft {
  const outline = zoneOutline(ground);
  const form = outline ? { ...formOfOutline(outline), sd_m2: ground["area_sd_m2"] ?? null } : NO_OUTLINE;
  return { outline: form, takesArea: DRAWN.includes(ground["method"]) };
}

/** The calls whose answers bring an outline of their own. */
const SHAPED = ["area.shapes", "area.offsets", "area.radii"];

export function createOutlines({ store, engine, system, ready, check }: Parts) {
  const groundOf = (row: Row): Record<string, any> => row.groups["ground"]?.value ?? {};

  async function write(row: Row, part: object): Promise<{ op: string }> {
    return store.save([{ t: "zone", id: row.id, set: { ground: { ...groundOf(row), ...part } } }]);
  }

  /** The outline a zone's own measurements give, where they were kept and are of one shape. */
  async function fromMeasures(row: Row): Promise<ZoneOutline | undefined> {
    const measured = callOnRecord(groundOf(row));
    if (!measured || !SHAPED.includes(measured.name)) return undefined;
    const answer = await engine.call(measured.name, measured.args);
    const value = answer.value as AreaResult | undefined;
    if (!value?.outline_m) return undefined;
    return { points_m: value.outline_m, holes_m: [], circles_m: [], north_deg: null };
  }

  function edit(id: string) {
    const draft = signal<OutlineDraft | undefined>(undefined);
    const answer = ask(engine, "area.outline", () => {
      const outline = draft.value?.outline;
      return outline && outline.points.length >= LEAST_CORNERS ? outlineArgs(outline) : null;
    });
    const resumed = signal(false);
    const refused = signal<string | undefined>(undefined);

    /** From the kept draft, else the outline on record, else what the measurements give. */
    async function open(row: Row): Promise<void> {
      await ready?.();
      if (draft.peek()) return;
      const kept = await store.drafts.get<OutlineDraft>(draftKey(id));
      resumed.value = kept !== undefined;
      const fresh = freshOf(groundOf(row));
      const own = kept || fresh.outline.points.length ? undefined : await fromMeasures(row);
      draft.value = kept ?? (own ? { ...fresh, outline: formOfOutline(own) } : fresh);
    }

    function change(part: Partial<OutlineDraft>): void {
      if (!draft.value) return;
      draft.value = { ...draft.value, ...part };
      refused.value = undefined;
      void store.drafts.put(draftKey(id), draft.value).catch(() => undefined);
    }

    /** Saves; false where the engine or the book refuses (`refused` says why). */
    async function save(row: Row): Promise<boolean> {
      const now = draft.value;
      if (!now || now.outline.points.length < LEAST_CORNERS) {
        refused.value = "Draw a shape first, then drag its corners.";
        return false;
      }
      const args = outlineArgs(now.outline);
      const found = await engine.call("area.outline", args);
      if (found.error) {
        refused.value = sayRefusal(found.error, system());
        return false;
      }
      const outline = outlineRecord(now.outline);
      const area = {
        area_m2: found.value.area_m2,
        method: "outline",
        measured: { call: "area.outline", args, typed: { method: "outline", outline: now.outline } },
      };
      const part = now.takesArea ? { ...area, outline } : { outline: { ...outline, drawn: true } };
      const wrong = check("zone", "ground", { ...groundOf(row), ...part }, system());
      refused.value = Object.values(wrong)[0];
      if (refused.value) return false;
      await write(row, part);
      // It is in the book: a draft that cannot be removed now is no reason to save it twice.
      await store.drafts.remove(draftKey(id)).catch(() => undefined);
      return true;
    }

    /** Throws the drawing away; gives it back for the undo. */
    async function discard(): Promise<OutlineDraft | undefined> {
      const kept = await store.drafts.get<OutlineDraft>(draftKey(id));
      await store.drafts.remove(draftKey(id));
      return kept;
    }

    return { draft: computed(() => draft.value), answer, resumed, refused, open, change, save, discard };
  }

  return {
    edit,
    restore: (id: string, draft: OutlineDraft) => store.drafts.put(draftKey(id), draft),
    unfinished: (id: string) => store.drafts.watch<OutlineDraft>(draftKey(id)),
  };
}

export type Outlines = ReturnType<typeof createOutlines>;
