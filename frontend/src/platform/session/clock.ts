/** The local day as a signal: it turns at midnight and when the phone wakes on another day. */
import { signal } from "@preact/signals";
import { isoDay, isoMoment } from "../../format";

const current = signal(isoDay());

/** Today here, "2026-05-14"; followed where it is read inside a computed. */
export function today(): string {
  return current.value;
}

/** This moment as the book writes it. Read inside a computed, it is read again when the day turns. */
export function nowHere(): string {
  today();
  return isoMoment();
}

/** For what is drawn in advance: as on that day, until the calendar is looked at again. */
export function showDay(day: string): void {
  current.value = day;
}

function turn(): void {
  current.value = isoDay();
}

function untilMidnight(now: Date): number {
  const next = new Date(now.getFullYear(), now.getMonth(), now.getDate() + 1, 0, 0, 1);
  return next.getTime() - now.getTime();
}

/** Follows the calendar for as long as the app is open. */
export function followDays(): void {
  const again = () => {
    turn();
    setTimeout(again, untilMidnight(new Date()));
  };
  again();
  document.addEventListener("visibilitychange", turn);
}
