/** What a keeper asks of the server by a tap: the forecast on or off, and the climate of the place. */
import { signal } from "@preact/signals";
import type { Ask } from "../../../platform/sync/remote";
import { sayFailure } from "../../../platform/sync/remote";

export interface ClimateAnswer {
  state: "off" | "no_place" | "trouble" | "known";
  trouble?: string;
  monthly_mean_c?: number[];
  years?: string;
}

export function createAsking({ request, household }: { request: Ask; household: () => string | undefined }) {
  const busy = signal(false);
  const problem = signal<string | undefined>(undefined);

  /** The server's answer; undefined where there was none, and `problem` says why. */
  async function ask<V>(path: string, body: object): Promise<V | undefined> {
    const id = household();
    if (!id || busy.peek()) return undefined;
    busy.value = true;
    problem.value = undefined;
    try {
      const outcome = await request<V>("POST", `households/${id}/weather/${path}`, body);
      if (outcome.ok) return outcome.value;
      problem.value = sayFailure(outcome);
      return undefined;
    } finally {
      busy.value = false;
    }
  }

  return {
    busy,
    problem,
    forecast: (on: boolean) => ask<{ on: boolean }>("forecast", { on }),
    climate: () => ask<ClimateAnswer>("climate", {}),
  };
}
