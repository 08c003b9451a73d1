/** The form of a rule of one's own: what it is about, its figures as typed, where it stands. */
import type { System, Typed } from "../../../../format";
import { type Filled, type FormField, startOf, wayOf, writeField } from "../../../../forms/fields";
import { createForm, type Errors, type Form, type Read, type Saved } from "../../../../forms/form";
import type { Store } from "../../../../platform/store/types";
import { checkValue } from "../../../../records/kinds";
import type { OwnRule, RuleKind } from "../../../../records/limits/rules";
import { kindOf, limitsOf, type RuleField } from "./fields";
import type { RulesModel } from "./rules";
import { type DayTyped, dayOf, readDay } from "./year-day";

/** What the form is opened on: a rule to start from, and its place among the household's own where it is one. */
export interface RuleStart {
  kind: RuleKind | "";
  from?: OwnRule | undefined;
  at?: number | undefined;
}

export interface RuleDraft {
  kind: string;
  /** By kind and field: what was typed for one kind is there again once it is chosen again. */
  figures: Record<string, Filled>;
  first: DayTyped;
  last: DayTyped;
  sort: string;
  grass: string;
  printed: string;
}

export type RuleForm = Form<RuleDraft, Saved, undefined, OwnRule>;

export interface RuleFormParts {
  store: Store;
  system: () => System;
  ready?: (() => Promise<void>) | undefined;
  day: () => string;
}

export const MOST_LETTERS = 200;

export function fieldOf(kind: string, field: RuleField): FormField {
  const limits = limitsOf(kind, field);
  return { name: field.name, limits, way: wayOf(limits), typed: undefined };
}

const keyOf = (kind: string, { name }: RuleField): string => `${kind}.${name}`;

/** What stands in a field of the form. */
export function filled(draft: RuleDraft, field: RuleField, system: System): Filled {
  return draft.figures[keyOf(draft.kind, field)] ?? startOf({}, fieldOf(draft.kind, field), system);
}

export const filledIn = (draft: RuleDraft, field: RuleField, to: Filled): Partial<RuleDraft> => ({
  figures: { ...draft.figures, [keyOf(draft.kind, field)]: to },
});

function draftOf({ kind, from }: RuleStart, system: System): RuleDraft {
  const figures = kindOf(kind).fields.map((field) => [
    keyOf(kind, field),
    startOf((from ?? {}) as Record<string, unknown>, fieldOf(kind, field), system),
  ]);
  return {
    kind,
    figures: Object.fromEntries(figures),
    first: dayOf(from?.from),
    last: dayOf(from?.to),
    sort: from?.sort ?? "",
    grass: from?.grass ?? "",
    printed: from?.date ? (from.printed ?? "") : "",
  };
}

interface Reading {
  value: Record<string, unknown>;
  errors: Errors;
  unreadable: Errors;
}

function readFigure(into: Reading, draft: RuleDraft, field: RuleField, system: System): void {
  const asked = fieldOf(draft.kind, field);
  const now = filled(draft, field, system);
  const wrong = writeField(into.value, asked, now, system === "metric");
  if (wrong) {
    into.errors[field.name] = wrong;
    into.unreadable[field.name] = wrong;
    return;
  }
  const unit = asked.way === "amount" ? (now as Typed).unit : undefined;
  const refused = checkValue(asked.limits, into.value[field.name], system, unit);
  if (refused) into.errors[field.name] = refused;
}

function readDays(into: Reading, { first, last }: RuleDraft): void {
  for (const [name, label, typed] of [
    ["from", "First day", first],
    ["to", "Last day", last],
  ] as const) {
    const read = readDay(typed, label);
    if (read.ok) into.value[name] = read.day;
    else into.errors[name] = read.message;
  }
}

export function readRule(draft: RuleDraft, system: System, today: string): Read<OwnRule> {
  const into: Reading = { value: {}, errors: {}, unreadable: {} };
  const kind = kindOf(draft.kind);
  if (!draft.kind) into.errors["kind"] = "Choose what the rule is about.";
  for (const field of kind.fields) readFigure(into, draft, field, system);
  if (kind.dated) readDays(into, draft);
  const printed = draft.printed.trim();
  const letters = [...printed].length;
  if (letters > MOST_LETTERS)
    into.errors["printed"] =
      `Where it is printed is too long: ${letters} characters. At most ${MOST_LETTERS} are allowed.`;
  const value = {
    ...into.value,
    kind: draft.kind,
    date: today,
    ...(draft.kind === "pesticide_ban" && draft.sort ? { sort: draft.sort } : {}),
    ...(draft.kind === "year" && draft.grass ? { grass: draft.grass } : {}),
    ...(printed ? { printed } : {}),
  } as OwnRule;
  return { value, errors: into.errors, unreadable: into.unreadable };
}

export function createRuleForm(
  { store, system, ready, day }: RuleFormParts,
  rules: Pick<RulesModel, "saveOwn">,
  start: RuleStart,
): RuleForm {
  const of = start.at === undefined ? "new" : `at-${start.at}`;
  return createForm<RuleDraft, OwnRule, Saved, undefined>(
    { store, ready },
    {
      key: `own-rule-form:${of}:${start.kind}:${start.from?.grass ?? ""}`,
      fresh: () => draftOf(start, system()),
      read: (draft) => readRule(draft, system(), day()),
      write: (value) => rules.saveOwn(value, start.at),
    },
  );
}
