import { area, mass, type System } from "../../../format";
import { units } from "../../../platform/session/session";
import type { Entry } from "../../../records/entries";
import { writeDial } from "../../../records/products";

type Said = Record<string, unknown>;

const listOf = (value: unknown): Said[] =>
  Array.isArray(value) ? value.filter((one) => typeof one === "object" && one !== null) : [];

/** What was looked at and changed while a pass was walked: each check, and what each setting put down. */
export function OnTheWay({ body }: { body: Entry["body"] }) {
  const [checks, parts] = [listOf(body["checks"]), listOf(body["parts"])];
  if (!checks.length && !parts.length) return null;
  const step = Number(body["dial_scale"]?.step ?? 0.1);
  const at = (setting: unknown) => (typeof setting === "number" ? writeDial(setting, step) : "not known");
  const system = units.value;
  return (
    <section class="section" aria-labelledby="on-the-way">
      <h2 id="on-the-way">On the way</h2>
      <ul class="lines">
        {checks.map((check, k) => (
          // Checks have no name of their own and never change order.
          <li key={k} class="line">
            <span class="line__main">
              <span class="line__title">{sayCheck(check, at)}</span>
              <span class="line__facts">{sayFound(check, system)}</span>
            </span>
          </li>
        ))}
        {parts.map((part, k) => (
          <li key={`part-${k}`} class="line">
            <span class="line__main">
              <span class="line__title">At dial {at(part["dial"])}</span>
              <span class="line__facts">{sayPart(part, system)}</span>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function sayCheck({ dial_before, dial_after, row }: Said, at: (setting: unknown) => string): string {
  const where = typeof row === "number" ? `Checked after strip ${row}` : "Checked on the way";
  return dial_before === dial_after
    ? `${where}: dial ${at(dial_before)} kept`
    : `${where}: dial ${at(dial_before)} to ${at(dial_after)}`;
}

function sayFound({ now_kg, area_done_m2 }: Said, system: System): string {
  const found = typeof now_kg === "number" ? `${mass(now_kg, system).text} left then` : "";
  const done = typeof area_done_m2 === "number" ? `${area(area_done_m2, system).text} done` : "";
  return [found, done].filter(Boolean).join(" · ");
}

function sayPart({ used_kg, area_m2 }: Said, system: System): string {
  const used = typeof used_kg === "number" ? mass(used_kg, system).text : "";
  const over = typeof area_m2 === "number" ? area(area_m2, system).text : "";
  return [used, over].filter(Boolean).join(" over ");
}
