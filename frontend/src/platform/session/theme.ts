/** Light, dusk or as the phone says: a choice of this phone, kept here, set before the first paint. */
import { effect, signal } from "@preact/signals";
import { keepForGood, recall, recallKept, remember } from "./memory";

export type Theme = "light" | "dusk" | "system";

const KEY = "evenfall.theme";

function isTheme(value: unknown): value is Theme {
  return value === "light" || value === "dusk" || value === "system";
}

const kept = recall(KEY);
export const theme = signal<Theme>(isTheme(kept) ? kept : "system");

export function setTheme(choice: Theme): void {
  theme.value = choice;
  remember(KEY, choice);
  void keepForGood(KEY, choice);
}

/** After the first paint: a choice that local storage had not yet written when the browser was killed. */
export async function recoverTheme(): Promise<void> {
  if (recall(KEY) !== undefined) return;
  const known = await recallKept(KEY);
  if (!isTheme(known) || recall(KEY) !== undefined) return;
  theme.value = known;
  remember(KEY, known);
}

effect(() => {
  if (theme.value === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme.value;
});
