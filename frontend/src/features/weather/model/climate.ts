/** The form of the climate: two numbers or twelve, each as typed. */
import { amountIn, type System, type Typed, unitOf } from "../../../format";
import {
  createForm,
  type Errors,
  type Form,
  type FormParts,
  type Read,
  type Saved,
} from "../../../forms/form";
import type { Climate, PlaceModel } from "./place";
import { readAmounts } from "./typed";

export const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

export interface ClimateDraft {
  way: "two" | "months";
  warmest: Typed;
  coldest: Typed;
  months: Typed[];
}

export type ClimateForm = Form<ClimateDraft, Saved, undefined, Climate>;

interface Parts extends FormParts {
  system: () => System;
}

function draftOf(climate: Climate, system: System): ClimateDraft {
  const unit = unitOf("temperature", system).key;
  const typed = (climate.climate_typed ?? {}) as { warmest?: Typed; coldest?: Typed; months?: Typed[] };
  const as = (c: number | undefined, was: Typed | undefined): Typed =>
    was ?? { amount: c === undefined ? "" : amountIn(c, unit), unit };
  return {
    way: climate.monthly_mean_c ? "months" : "two",
    warmest: as(climate.warmest_c, typed.warmest),
    coldest: as(climate.coldest_c, typed.coldest),
    months: MONTHS.map((_, at) => as(climate.monthly_mean_c?.[at], typed.months?.[at])),
  };
}

const NEEDED = {
  warmest_c: "Enter the mean of the warmest month.",
  coldest_c: "Enter the mean of the coldest month.",
};

/** What is wrong, and of it what was typed and cannot be read. */
const told = (errors: Errors, blank: (name: string) => boolean) => ({
  errors,
  unreadable: Object.fromEntries(Object.entries(errors).filter(([name]) => !blank(name))),
});

function readTwo({ warmest, coldest }: ClimateDraft, system: System): Read<Climate> {
  const wanted = [
    { name: "warmest_c", typed: warmest },
    { name: "coldest_c", typed: coldest },
  ];
  const { values, errors } = readAmounts("household", "climate", wanted, system, NEEDED);
  const { warmest_c, coldest_c } = values;
  const upside = warmest_c !== undefined && coldest_c !== undefined && coldest_c > warmest_c;
  if (upside) errors["coldest_c"] = "The coldest month is warmer than the warmest. Check both.";
  const value: Climate = { ...values, climate_typed: { warmest, coldest }, climate_from: "two" };
  return { value, ...told(errors, (name) => !(name === "warmest_c" ? warmest : coldest).amount.trim()) };
}

function readMonths({ months }: ClimateDraft, system: System): Read<Climate> {
  const errors: Errors = {};
  const means = months.map((typed, at) => {
    const name = MONTHS[at] ?? "";
    const needed = { warmest_c: `Enter the mean of ${name}.` };
    const one = readAmounts("household", "climate", [{ name: "warmest_c", typed }], system, needed);
    const wrong = one.errors["warmest_c"];
    if (wrong) errors[`month${at}`] = wrong.replace("Mean of the warmest month", name);
    return one.values["warmest_c"] ?? 0;
  });
  const value: Climate = { monthly_mean_c: means, climate_typed: { months }, climate_from: "months" };
  return { value, ...told(errors, (name) => !months[Number(name.slice("month".length))]?.amount.trim()) };
}

export function createClimateForm({ store, ready, system }: Parts, place: PlaceModel): ClimateForm {
  return createForm<ClimateDraft, Climate, Saved, undefined>(
    { store, ready },
    {
      key: "household-form:climate",
      fresh: () => draftOf(place.climate.peek(), system()),
      read: (draft) => (draft.way === "two" ? readTwo : readMonths)(draft, system()),
      write: (value) => place.saveClimate(value),
    },
  );
}
