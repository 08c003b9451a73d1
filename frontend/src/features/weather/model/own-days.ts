/** The household's own days of weather: read from a table, looked at before they are taken, a month a record. */
import { computed, signal } from "@preact/signals";
import { type Recorded, record } from "../../../forms/recorded";
import type { AnswerTo } from "../../../platform/engine/types";
import type { Mutation, Row, Store } from "../../../platform/store/types";

export interface Day {
  date: string;
  [figure: string]: string | number;
}

/** What a table leaves open; the names are the engine's. */
export interface Told {
  temperature_unit?: "c" | "f";
  rain_unit?: "mm" | "cm" | "in";
  wind_unit?: "m_s" | "km_h" | "mph" | "kn";
  date_order?: "day_first" | "month_first";
}

export type Read = AnswerTo<"weather.read_table">;

interface Engine {
  call(name: "weather.read_table", args: { table: string; today: string } & Told): Promise<Read>;
}

interface Change {
  made: Mutation;
  over: Mutation;
}

interface Taken {
  count: number;
  back: () => Promise<void>;
}

export interface OwnParts {
  store: Store;
  engine: Engine;
  day: () => string;
}

/** A table that is being looked at before it is taken. */
export interface Looked {
  file: string;
  table: string;
  told: Told;
  answer: Read | undefined;
}

/** As much as the engine reads; a larger file is none of daily weather. */
export const MOST_BYTES = 1_500_000;
const MONTHS_IN_ONE_SAVE = 12;

const daysOf = (row: Row): Day[] => (row.groups["days"]?.value?.days ?? []) as Day[];
const monthOf = (row: Row): string => String(row.groups["days"]?.value?.month ?? "");
const stampOf = (row: Row): string => `${row.groups["days"]?.hlc ?? "9"} ${row.id}`;

/** The days of all months by their date; of a day that stands in two records the later written one counts. */
export function laidTogether(rows: readonly Row[]): ReadonlyMap<string, Day> {
  const sorted = [...rows].sort((a, b) => (stampOf(a) < stampOf(b) ? -1 : 1));
  return new Map(sorted.flatMap((row) => daysOf(row).map((day) => [day.date, day] as const)));
}

export function createOwnDays({ store, engine, day }: OwnParts) {
  const rows = store.rows("weather_month");
  const days = computed(() => laidTogether(rows.value));
  const looked = signal<Looked | undefined>(undefined);

  async function look(file: string, table: string, told: Told = {}): Promise<void> {
    looked.value = { file, table, told, answer: undefined };
    const answer = await engine.call("weather.read_table", { table, today: day(), ...told });
    const now = looked.peek();
    if (now?.table === table && now.told === told) looked.value = { ...now, answer };
  }

  /** One record a month: its days laid over those that are there already; with what takes it back. */
  function months(fresh: readonly Day[], file: string): Change[] {
    const found = new Map<string, Day[]>();
    for (const one of fresh) {
      const month = `${one.date.slice(0, 7)}-01`;
      found.set(month, [...(found.get(month) ?? []), one]);
    }
    return [...found].map(([month, these]) => {
      const known = rows.value
        .filter((row) => monthOf(row) === month)
        .sort((a, b) => (stampOf(a) < stampOf(b) ? 1 : -1))[0];
      const all = new Map([...(known ? daysOf(known) : []), ...these].map((one) => [one.date, one]));
      const sorted = [...all.values()].sort((a, b) => (a.date < b.date ? -1 : 1));
      const value = { month, days: sorted, from_file: file.slice(0, 120) };
      const of = { t: "weather_month", id: known?.id ?? store.newId() };
      const before: Record<string, object> = known
        ? { days: known.groups["days"]?.value ?? {} }
        : { deleted: { deleted: true } };
      return { made: { ...of, set: { days: value } }, over: { ...of, set: before } };
    });
  }

  /** Undefined where nothing was read. */
  async function take(): Promise<Taken | undefined> {
    const now = looked.value;
    if (!now?.answer || now.answer.error) return undefined;
    const fresh = now.answer.value.days as Day[];
    const changes = months(fresh, now.file);
    const made: Recorded[] = [];
    for (let at = 0; at < changes.length; at += MONTHS_IN_ONE_SAVE) {
      const some = changes.slice(at, at + MONTHS_IN_ONE_SAVE);
      const [written, over] = [some.map((one) => one.made), some.map((one) => one.over)];
      made.push(await record(store, written, over));
    }
    looked.value = undefined;
    const back = async () => {
      for (const one of [...made].reverse()) await one.back();
    };
    return { count: fresh.length, back };
  }

  return {
    loaded: store.loaded("weather_month"),
    days,
    looked,
    look,
    take,
    drop: () => {
      looked.value = undefined;
    },
    /** Days of a table that are here already: they would be replaced. */
    replaced: (fresh: readonly { date: string }[]) => fresh.filter(({ date }) => days.value.has(date)).length,
  };
}

export type OwnDaysModel = ReturnType<typeof createOwnDays>;
