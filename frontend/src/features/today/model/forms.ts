/** The form of Today: a job somebody takes. */
import {
  createSchemaForm,
  type FormWords,
  type SchemaForm,
  type SchemaParts,
} from "../../../forms/schema-form";
import type { Job } from "../../../records/log/registry";
import type { ClaimsModel } from "./claims";

const TAKE: FormWords = {
  title: "Take a job",
  says: "Your household sees this. You can drop it any time.",
  save: "Take it",
  saved: "You’re down for it.",
  fields: {
    job: {
      choices: { mow: "Mow", feed: "Feed", spray: "Spray", water: "Water", other: "Something else" },
    },
    day: {},
    zone_ids: { label: "Zones (leave blank for the whole yard)" },
    note: {},
  },
};

/** Shown for the week to come: what is farther off belongs in the season's plan. */
const AHEAD_MS = 7 * 86_400_000;

function near(wanted: unknown, today: string): Record<string, string> {
  const away = Date.parse(String(wanted)) - Date.parse(today);
  return away < 0 || away > AHEAD_MS ? { day: "Choose a day from today to 7 days ahead." } : {};
}

interface Taking {
  job: Job;
  day: string;
  zone_ids: readonly string[];
  note?: string;
}

export function claimForm(parts: SchemaParts, claims: ClaimsModel, day: () => string): SchemaForm {
  return createSchemaForm(parts, {
    key: "claim-form:new",
    t: "claim",
    group: "claim",
    words: TAKE,
    from: () => ({ day: day() }),
    more: (value) => near(value["day"], day()),
    write: async (value) => {
      const { job, day: when, zone_ids: zoneIds, note = "" } = value as unknown as Taking;
      return claims.claim({ job, day: when, zoneIds, note });
    },
  });
}
