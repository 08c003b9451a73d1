/** The words for the choices of a zone's site; keys are those of fixtures/kinds/. */
import type { ZoneSite } from "../../../records/kinds.gen";

export const SITE: {
  sun: Record<NonNullable<ZoneSite["sun"]>, string>;
  slope: Record<NonNullable<ZoneSite["slope"]>, string>;
} = {
  sun: { sun: "Sun", part_shade: "Part shade", shade: "Shade" },
  slope: { level: "Level", gentle: "Gentle", steep: "Steep" },
};

/** Choices for a field that may stay blank. */
export function orBlank(says: Record<string, string>): { value: string; label: string }[] {
  return [
    { value: "", label: "Not recorded" },
    ...Object.entries(says).map(([value, label]) => ({ value, label })),
  ];
}
