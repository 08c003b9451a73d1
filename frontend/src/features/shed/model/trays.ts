/** A catch-tray test being entered, and those in the book: what the trays across the swath caught. */

import { computed } from "@preact/signals";
import { amountIn, readNumber, type System, type Typed, unit } from "../../../format";
import { allowedIs, scaleOf } from "../../../format/limit";
import { parse } from "../../../forms/amount";
import { createForm, type Draft, type Errors } from "../../../forms/form";
import type { Check } from "../../../forms/record-form";
import { type Recorded, recordGroups } from "../../../forms/recorded";
import type { Value } from "../../../platform/engine/types";
import type { Row, Store } from "../../../platform/store/types";
import { type Entry, given } from "../../../records/entries";
import { checkGroup } from "../../../records/kinds";
import { entriesIn } from "../../../records/log/read";
import { createWriting } from "../../../records/log/writing";

export type TrayPattern = "back_and_forth" | "circuit";

export interface TrayForm {
  trays: string;
  spacing: Typed;
  /** One unit for all catches. */
  unit: string;
  /** Left to right as walked; those beyond the number of trays are kept, should it grow again. */
  catches: string[];
  pattern: TrayPattern;
  limit_share: number;
  product_id: string;
  dial: string;
  /** Asked only where the spreader has none, since swath and speed stand together. */
  speed: Typed;
}

export type TrayErrors = Partial<Record<"trays" | "spacing" | "dial" | "speed", string>> & {
  catches?: Record<number, string>;
};

/** `swath.tray_test` as answered. */
export type TrayAnswer = Value<"swath.tray_test">;

export const FEWEST_TRAYS = 3;
export const MOST_TRAYS = 41;
const USUAL_TRAYS = 11;

export function blankTrays(system: System): TrayForm {
  return {
    trays: String(USUAL_TRAYS),
    spacing: { amount: "", unit: system === "us" ? "in" : "cm" },
    unit: system === "us" ? "oz" : "g",
    catches: [],
    pattern: "back_and_forth",
    limit_share: 0.15,
    product_id: "",
    dial: "",
    speed: { amount: "", unit: system === "us" ? "mph" : "km_h" },
  };
}

function countOf(text: string): number | undefined {
  const read = readNumber(text);
  if (!read.ok || !Number.isInteger(read.value)) return undefined;
  return read.value >= FEWEST_TRAYS && read.value <= MOST_TRAYS ? read.value : undefined;
}

/** Trays to draw fields for: as many as are asked for, else as many as hold something. */
export function traysShown(form: TrayForm): number {
  return countOf(form.trays) ?? Math.max(FEWEST_TRAYS, form.catches.length);
}

/** As the server takes a catch. */
const MOST_CAUGHT_KG = 10;
const CAUGHT = { low: 0, high: MOST_CAUGHT_KG };
const GRAM = unit("g")?.factor ?? Number.NaN;

/** A catch in grams, with what is wrong with it. */
function gramsOf(text: string, unitKey: string, system: System): { grams?: number; error?: string } {
  if (text.trim() === "") return { error: "Enter what this tray caught, 0 if nothing." };
  const read = parse(text, unitKey);
  if (!read.ok) return { error: read.message };
  if (read.si < 0) return { error: "Enter 0 or more." };
  if (read.si > MOST_CAUGHT_KG)
    return {
      error: `That is too much for a tray. ${allowedIs(CAUGHT, scaleOf("kg", system, unitKey), system)}`,
    };
  return { grams: Number((read.si / GRAM).toPrecision(12)) };
}

export interface TrayRead {
  /** Tray by tray what was caught, in grams; null where nothing can be read yet. */
  caught: (number | null)[];
  /** What the engine is asked; null until all of it can be read. */
  args: {
    catches_g: number[];
    tray_spacing_m: number;
    pattern: TrayPattern;
    cv_limit_share: number;
  } | null;
  dial: number | undefined;
  errors: TrayErrors;
  /** Errors of fields that hold something, for before the first try to save. */
  unreadable: TrayErrors;
}

const TRAY_SPACING = "tray_spacing_m";

function readSpacing({ spacing }: TrayForm, system: System): { metres?: number; error?: string } {
  if (spacing.amount.trim() === "") return { error: "Enter how far apart the trays are, middle to middle." };
  const read = parse(spacing.amount, spacing.unit);
  if (!read.ok) return { error: read.message };
  const error = checkGroup("entry", "tray_test", { [TRAY_SPACING]: read.si }, system, {
    [TRAY_SPACING]: spacing.unit,
  })[TRAY_SPACING];
  return error ? { error } : { metres: read.si };
}

function readDial(text: string, system: System): { value?: number; error?: string } {
  if (text.trim() === "") return {};
  const read = readNumber(text);
  if (!read.ok) return { error: read.message };
  const error = checkGroup("entry", "tray_test", { dial: read.value }, system)["dial"];
  return error ? { error } : { value: read.value };
}

/** The form brought to SI; every error beside its field. */
export function readTrays(form: TrayForm, system: System): TrayRead {
  const count = countOf(form.trays);
  const spacing = readSpacing(form, system);
  const caught = Array.from({ length: traysShown(form) }, (_, k) =>
    gramsOf(form.catches[k] ?? "", form.unit, system),
  );
  const wrong = caught.flatMap(({ error }, k) => (error ? [[k, error] as const] : []));
  const written = wrong.filter(([k]) => (form.catches[k] ?? "").trim() !== "");
  const dial = readDial(form.dial, system);
  const always: TrayErrors = {
    ...(count === undefined ? { trays: `A row has ${FEWEST_TRAYS} to ${MOST_TRAYS} trays.` } : {}),
    ...(dial.error ? { dial: dial.error } : {}),
  };
  const say = (list: (readonly [number, string])[]): TrayErrors =>
    list.length ? { catches: Object.fromEntries(list) } : {};
  const spaced = spacing.error ? { spacing: spacing.error } : {};
  const ready = count !== undefined && spacing.metres !== undefined && wrong.length === 0;
  return {
    caught: caught.map(({ grams }) => grams ?? null),
    args: ready
      ? {
          catches_g: caught.map(({ grams }) => grams ?? 0),
          tray_spacing_m: spacing.metres ?? 0,
          pattern: form.pattern,
          cv_limit_share: form.limit_share,
        }
      : null,
    dial: dial.value,
    errors: { ...always, ...spaced, ...say(wrong) },
    unreadable: { ...always, ...(form.spacing.amount.trim() ? spaced : {}), ...say(written) },
  };
}

export interface TraysParts {
  store: Store;
  system: () => System;
  /** Resolves when `system` is the person's own; at once where none is handed in. */
  ready?: (() => Promise<void>) | undefined;
  now: () => string;
  memberId: () => string | undefined;
  check: Check;
}

/** What an entry of a test holds. */
function factsOf(
  spreaderId: string,
  form: TrayForm,
  read: TrayRead,
  widest_m: number | null,
): Record<string, unknown> {
  return {
    spreader_id: spreaderId,
    ...read.args,
    ...given({ product_id: form.product_id, dial: read.dial, widest_m }),
    typed: {
      catches: form.catches.slice(0, read.args?.catches_g.length),
      unit: form.unit,
      tray_spacing: form.spacing,
    },
  };
}

/** By field, a tray by its place in the row: "catches.3". */
function flat({ catches = {}, ...errors }: TrayErrors): Errors {
  const trays = Object.entries(catches).map(([at, says]) => [`catches.${at}`, says]);
  return { ...given(errors), ...Object.fromEntries(trays) } as Errors;
}

export function createTrayTest(parts: TraysParts, spreaderId: string) {
  const { store, system, ready, check } = parts;

  /** Writes the test into the log, with the widest swath the engine found in it. */
  async function write(read: TrayRead, { form }: Draft<TrayForm>, widest_m: number | null) {
    if (!read.args) return undefined;
    const facts = factsOf(spreaderId, form, read, widest_m);
    const body = { kind: "tray_test", occurred_at: parts.now(), ...facts };
    if (Object.keys(check("entry", "tray_test", body, system())).length) return undefined;
    return createWriting(parts).add({ kind: "tray_test", facts });
  }

  const form = createForm<TrayForm, TrayRead, Recorded, number | null>(
    { store, ready },
    {
      key: `tray-test:${spreaderId}`,
      fresh: () => blankTrays(system()),
      read: (now) => {
        const value = readTrays(now, system());
        return { value, errors: flat(value.errors), unreadable: flat(value.unreadable) };
      },
      write,
    },
  );

  function setCatch(at: number, text: string): void {
    const was = form.form.value?.catches;
    if (!was) return;
    const catches = Array.from({ length: Math.max(was.length, at + 1) }, (_, k) =>
      k === at ? text : (was[k] ?? ""),
    );
    form.change({ catches });
  }

  return { ...form, open: () => form.open(null), read: computed(() => form.read.value?.value), setCatch };
}

export type TrayTest = ReturnType<typeof createTrayTest>;

/** The walking group with a swath from a test, as typed in the unit of the trays; undefined while no speed is known. */
export function swathGroup(row: Row, form: TrayForm, swath_m: number): object | undefined {
  const standing = row.groups["walking"]?.value ?? {};
  const key = form.spacing.unit;
  const swath = { swath_m, swath_typed: { amount: amountIn(swath_m, key), unit: key } };
  if (typeof standing.speed_m_s === "number") return { ...standing, ...swath };
  const speed = form.speed.amount.trim() ? parse(form.speed.amount, form.speed.unit) : undefined;
  if (!speed?.ok) return undefined;
  return { ...standing, ...swath, speed_m_s: speed.si, speed_typed: speed.typed };
}

export function createTrays(parts: TraysParts) {
  const { store, system, check } = parts;
  const entries = entriesIn(store);
  /** Uses a swath for the spreader: what is wrong, or the op that wrote it. */
  async function setSwath(
    row: Row,
    form: TrayForm,
    swath_m: number,
  ): Promise<Partial<Recorded> & { wrong?: string }> {
    const walking = swathGroup(row, form, swath_m);
    if (!walking) return { wrong: "Enter the walking speed. Swath and speed are saved together." };
    const [wrong] = Object.values(check("spreader", "walking", walking, system()));
    if (wrong) return { wrong };
    return recordGroups(store, "spreader", { id: row.id, row }, { walking });
  }
  return {
    test: (spreaderId: string) => createTrayTest(parts, spreaderId),
    /** Tests of a spreader in the book, newest first. */
    past: (spreaderId: string): Entry[] =>
      entries.value
        .filter(
          ({ kind, body, struck }) => kind === "tray_test" && body["spreader_id"] === spreaderId && !struck,
        )
        .sort((a, b) => Date.parse(b.at) - Date.parse(a.at) || (a.id < b.id ? 1 : -1)),
    setSwath,
  };
}

export type TraysModel = ReturnType<typeof createTrays>;
