/** Dates and moments as text. A moment shows the wall clock of the place where it was written. */
import type { System } from "./units";

export const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const DAY_MS = 86_400_000;

interface Wall {
  year: number;
  month: number;
  day: number;
  clock: string;
}

/** "2026-05-14" or "2026-05-14T18:05:00-04:00" as written; a Z moment in this phone's own time. */
function wall(iso: string): Wall | undefined {
  const found = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}:\d{2}))?/.exec(iso);
  if (!found) return undefined;
  if (iso.endsWith("Z")) return here(new Date(iso));
  return { year: Number(found[1]), month: Number(found[2]), day: Number(found[3]), clock: found[4] ?? "" };
}

function here(moment: Date): Wall {
  const clock = `${two(moment.getHours())}:${two(moment.getMinutes())}`;
  return { year: moment.getFullYear(), month: moment.getMonth() + 1, day: moment.getDate(), clock };
}

function two(n: number): string {
  return String(n).padStart(2, "0");
}

/** "14 May 2026". Text that is no date comes back as it is. */
export function date(iso: string): string {
  const at = wall(iso);
  return at ? `${at.day} ${MONTHS[at.month - 1]} ${at.year}` : iso;
}

/** "Thu 14 May": for this season's lists. */
export function weekday(iso: string): string {
  const at = wall(iso);
  if (!at) return iso;
  const day = new Date(Date.UTC(at.year, at.month - 1, at.day)).getUTCDay();
  return `${DAYS[day]} ${at.day} ${MONTHS[at.month - 1]}`;
}

/** "14 May": where the year goes without saying. */
export function dayMonth(iso: string): string {
  const at = wall(iso);
  return at ? `${at.day} ${MONTHS[at.month - 1]}` : iso;
}

/** "18:05", or "6:05 pm" for people with US units; blank where the text has no time of day. */
export function clock(iso: string, system: System): string {
  const at = wall(iso);
  if (!at?.clock || system !== "us") return at?.clock ?? "";
  const hour = Number(at.clock.slice(0, 2));
  return `${hour % 12 || 12}${at.clock.slice(2)} ${hour < 12 ? "am" : "pm"}`;
}

/** "14 May 2026, 18:05" or "14 May 2026, 6:05 pm". */
export function dateTime(iso: string, system: System): string {
  const time = clock(iso, system);
  return time ? `${date(iso)}, ${time}` : date(iso);
}

/** Today's date here, as YYYY-MM-DD. */
export function isoDay(moment: Date = new Date()): string {
  const at = here(moment);
  return `${at.year}-${two(at.month)}-${two(at.day)}`;
}

/** This moment with this phone's zone offset, as an entry's occurred_at keeps it. */
export function isoMoment(moment: Date = new Date()): string {
  const ahead = -moment.getTimezoneOffset();
  const sign = ahead < 0 ? "-" : "+";
  const away = Math.abs(ahead);
  const clock = `${here(moment).clock}:${two(moment.getSeconds())}`;
  return `${isoDay(moment)}T${clock}${sign}${two(Math.floor(away / 60))}:${two(away % 60)}`;
}

/** The day so many days after this one: "2026-06-01" is the day after "2026-05-31". */
export function dayAfter(day: string, days: number): string {
  const at = wall(day);
  return at ? new Date(Date.UTC(at.year, at.month - 1, at.day + days)).toISOString().slice(0, 10) : day;
}

/** Whole days from one date to another, by the calendar. */
export function daysBetween(from: string, to: string): number {
  const [a, b] = [wall(from), wall(to)];
  if (!a || !b) return Number.NaN;
  return Math.round((Date.UTC(b.year, b.month - 1, b.day) - Date.UTC(a.year, a.month - 1, a.day)) / DAY_MS);
}

/** "today", "yesterday", "3 days ago", "tomorrow", "in 4 days". */
export function daysAgo(iso: string, today: string = isoDay()): string {
  const days = daysBetween(iso, today);
  if (Number.isNaN(days)) return iso;
  if (days === 0) return "today";
  if (days === 1) return "yesterday";
  if (days === -1) return "tomorrow";
  return days > 0 ? `${days} days ago` : `in ${-days} days`;
}
