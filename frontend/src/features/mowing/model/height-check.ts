/** One notch measured once more: wheels wear and decks sag. */
import type { Typed } from "../../../format";
import { createForm, type Errors } from "../../../forms/form";
import type { RecordParts } from "../../../forms/record-form";
import { recordGroups } from "../../../forms/recorded";
import { groupOf } from "../../../records/groups";
import { blankNotch, isSameHeight, measured } from "./mower-form";
import type { Mower, Notch } from "./mowers";

export interface CheckForm {
  label: string;
  height: Typed;
}

export function createHeightCheck({ store, system, ready }: RecordParts, mower: Mower) {
  function read(form: CheckForm): { value: Notch | undefined; errors: Errors; unreadable: Errors } {
    const { mm, typed, wrong } = measured(form.height);
    const others = mower.notches.filter(({ label }) => label !== form.label);
    const same = others.find(({ measured_mm }) => mm !== undefined && isSameHeight(measured_mm, mm));
    const says =
      wrong ??
      (mm === undefined ? "Enter the height you measured." : undefined) ??
      (same && `Notch ${same.label} has this height. Measure both again.`);
    const value =
      mm === undefined
        ? undefined
        : { label: form.label, measured_mm: mm, ...(typed && { measured_typed: typed }) };
    return { value, errors: says ? { height: says } : {}, unreadable: wrong ? { height: wrong } : {} };
  }
  return createForm<CheckForm, Notch | undefined, { back?: () => Promise<void> }, undefined>(
    { store, ready },
    {
      key: `height-check:${mower.id}`,
      fresh: () => ({ label: mower.notches[0]?.label ?? "", height: blankNotch("", system()).height }),
      read,
      write: async (now) => {
        if (!now) return undefined;
        const notches = mower.notches.map((one) => (one.label === now.label ? now : one));
        const deck = { ...groupOf("mower", mower.row, "deck"), notches };
        return recordGroups(store, "mower", { id: mower.id, row: mower.row }, { deck });
      },
    },
  );
}
