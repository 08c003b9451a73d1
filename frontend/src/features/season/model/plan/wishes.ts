/** The form of what a household wishes of its year. Nothing of it is written before the plan is kept. */

import type { System } from "../../../../format";
import { fieldIn, writeField } from "../../../../forms/fields";
import { createForm, type Errors, type Form, type Read, type Saved } from "../../../../forms/form";
import type { Store } from "../../../../platform/store/types";
import { checkGroup, fieldsOf } from "../../../../records/kinds";
import type { PlanWishes } from "./book";

export interface WishesDraft {
  level: NonNullable<PlanWishes["level"]>;
  clippings: NonNullable<PlanWishes["clippings"]>;
  budget: string;
  evenings_week: string;
  minutes_evening: string;
  only_gentle: boolean;
  /** Numbers of months, January being 1. */
  skip: readonly number[];
}

export type WishesForm = Form<WishesDraft, Saved, undefined, PlanWishes>;

const NUMBERS = { budget: "budget", evenings_week: "time", minutes_evening: "time" } as const;
type NumberName = keyof typeof NUMBERS;

const written = (value: number | undefined): string => (value === undefined ? "" : String(value));

export function draftOf(wishes: PlanWishes): WishesDraft {
  const { level, clippings, budget, evenings_week, minutes_evening, only_gentle, skip_months } = wishes;
  return {
    level: level ?? "middle",
    clippings: clippings ?? "left",
    budget: written(budget),
    evenings_week: written(evenings_week),
    minutes_evening: written(minutes_evening),
    only_gentle: only_gentle === true,
    skip: Array.isArray(skip_months) ? (skip_months as number[]) : [],
  };
}

export function readWishes(draft: WishesDraft, system: System): Read<PlanWishes> {
  const unreadable: Errors = {};
  const errors: Errors = {};
  const numbers: Partial<Record<NumberName, number>> = {};
  for (const name of Object.keys(NUMBERS) as NumberName[]) {
    const group = NUMBERS[name];
    const fields = fieldsOf("plan", group);
    const limits = fields[name];
    if (!limits) continue;
    const value: Record<string, unknown> = {};
    const wrong = writeField(value, fieldIn(fields, name, limits), draft[name], system === "metric");
    if (wrong) unreadable[name] = wrong;
    else if (typeof value[name] === "number") numbers[name] = value[name];
    const told = checkGroup("plan", group, value, system)[name];
    if (told) errors[name] = told;
  }
  const { level, clippings, only_gentle, skip } = draft;
  const skip_months = [...skip].sort((one, other) => one - other);
  return {
    value: { level, clippings, only_gentle, skip_months, ...numbers },
    errors: { ...errors, ...unreadable },
    unreadable,
  };
}

interface WishesParts {
  store: Pick<Store, "drafts">;
  system: () => System;
  ready?: () => Promise<void>;
  /** What was wished last. */
  last: () => Promise<PlanWishes>;
  /** Begins the plan with them. */
  begin: (wishes: PlanWishes) => Promise<void>;
}

export function createWishesForm({ store, system, ready, last, begin }: WishesParts): WishesForm {
  return createForm<WishesDraft, PlanWishes, Saved, undefined>(
    { store, ready },
    {
      key: "season-form:wishes",
      fresh: async () => draftOf(await last()),
      read: (draft) => readWishes(draft, system()),
      write: async (wishes) => {
        await begin(wishes);
        return {};
      },
    },
  );
}
