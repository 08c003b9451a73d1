/** The outline of a zone in the book, drawn or mended; kept as a draft until it is saved or thrown away. */

import type { System } from "../../../format";
import { createForm, type Draft, type Errors } from "../../../forms/form";
import { type Recorded, recordGroups } from "../../../forms/recorded";
import { sayRefusal } from "../../../forms/refusal";
import { ask, type Engine } from "../../../platform/engine/ask";
import type { Row, Store } from "../../../platform/store/types";
import {
  edgesAtWater,
  formOfOutline,
  NO_OUTLINE,
  type OutlineForm,
  outlineArgs,
  outlineRecord,
} from "./outline";
import { type AreaResult, waterOn, type ZoneOutline, zoneOutline } from "./zone-outline";
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
  ready?: (() => Promise<void>) | undefined;
  check: (t: string, group: string, value: object, system: System) => Record<string, string>;
}

const draftKey = (id: string): string => `zone-outline:${id}`;
/** Ways whose area came from the outline itself: mending it mends the area. */
const DRAWN = ["gps", "trace", "outline"];
const LEAST_CORNERS = 3;

function freshOf(ground: Record<string, any>): OutlineDraft {
  const outline = zoneOutline(ground);
  const sd_m2 = ground["area_sd_m2"] ?? null;
  const form = outline ? { ...formOfOutline(outline), sd_m2, ...waterOn(ground) } : NO_OUTLINE;
  return { outline: form, takesArea: DRAWN.includes(ground["method"]) };
}

/** The calls whose answers bring an outline of their own. */
const SHAPED = ["area.shapes", "area.offsets", "area.radii"];

export function createOutlines({ store, engine, system, ready, check }: Parts) {
  const groundOf = (row: Row): Record<string, any> => row.groups["ground"]?.value ?? {};

  /** The outline a zone's own measurements give, where they were kept and are of one shape. */
  async function fromMeasures(row: Row): Promise<ZoneOutline | undefined> {
    const measured = callOnRecord(groundOf(row));
    if (!measured || !SHAPED.includes(measured.name)) return undefined;
    const answer = await engine.call(measured.name, measured.args);
    const value = answer.value as AreaResult | undefined;
    if (!value?.outline_m) return undefined;
    return { points_m: value.outline_m, holes_m: [], circles_m: [], north_deg: null };
  }

  /** From the outline on record, else what the measurements give. */
  async function fresh(row: Row): Promise<OutlineDraft> {
    const stands = freshOf(groundOf(row));
    const own = stands.outline.points.length ? undefined : await fromMeasures(row);
    return own ? { ...stands, outline: formOfOutline(own) } : stands;
  }

  async function write(now: OutlineDraft, row: Row, refuse: (errors: Errors) => undefined) {
    const args = outlineArgs(now.outline);
    const found = await engine.call("area.outline", args);
    if (found.error) return refuse({ outline: sayRefusal(found.error, system()) });
    const outline = outlineRecord(now.outline);
    const area = {
      area_m2: found.value.area_m2,
      method: "outline",
      measured: { call: "area.outline", args, typed: { method: "outline", outline: now.outline } },
    };
    const part = now.takesArea ? { ...area, outline } : { outline: { ...outline, drawn: true } };
    const { water_edges: _, ...stands } = groundOf(row);
    const edges = edgesAtWater(now.outline.water, now.outline.points.length);
    const ground = { ...stands, ...part, ...(edges.length ? { water_edges: edges } : {}) };
    const [wrong] = Object.values(check("zone", "ground", ground, system()));
    if (wrong) return refuse({ outline: wrong });
    return recordGroups(store, "zone", { id: row.id, row }, { ground });
  }

  function edit(id: string) {
    const form = createForm<OutlineDraft, OutlineDraft, Recorded, Row>(
      { store, ready },
      {
        key: draftKey(id),
        fresh,
        read: (now) => {
          const drawn = now.outline.points.length >= LEAST_CORNERS;
          const errors: Errors = drawn ? {} : { outline: "Draw a shape first, then drag its corners." };
          return { value: now, errors };
        },
        write: (now, _draft, row, refuse) => write(now, row, refuse),
      },
    );
    const answer = ask(engine, "area.outline", () => {
      const outline = form.form.value?.outline;
      return outline && outline.points.length >= LEAST_CORNERS ? outlineArgs(outline) : null;
    });
    return { ...form, answer };
  }

  return {
    edit,
    unfinished: (id: string) => store.drafts.watch<Draft<OutlineDraft>>(draftKey(id)),
  };
}

export type Outlines = ReturnType<typeof createOutlines>;
