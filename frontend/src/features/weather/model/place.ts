/** Where the household is and what its year is like: kept with the household, so every phone knows it. */
import { computed, type ReadonlySignal } from "@preact/signals";
import { type Recorded, record } from "../../../forms/recorded";
import { createSchemaForm, type FormWords, type SchemaParts } from "../../../forms/schema-form";
import type { Store } from "../../../platform/store/types";

export interface Place {
  latitude_deg?: number;
  longitude_deg?: number;
  elevation_m?: number;
  elevation_typed?: { amount: string; unit: string };
}

export interface Climate {
  warmest_c?: number;
  coldest_c?: number;
  monthly_mean_c?: number[];
  climate_typed?: Record<string, unknown>;
  climate_from?: "two" | "months" | "archive" | "own";
  climate_years?: string;
}

export interface PlaceParts {
  store: Store;
  session: ReadonlySignal<{ household: { id: string } } | null>;
}

/** To 0.1°, about 11 km: all that weather needs, and no more than may leave the phone. */
export const rounded = (deg: number): number => Math.round(deg * 10) / 10;

export function createPlace({ store, session }: PlaceParts) {
  const id = computed(() => session.value?.household.id);
  const row = computed(() => (id.value ? store.row("household", id.value).value : undefined));
  const group = (name: string) => (row.value?.groups[name]?.value ?? {}) as Record<string, unknown>;
  /** Taken back once it was sent, what stood there before is said again. */
  async function set(name: string, value: object): Promise<Recorded | undefined> {
    if (!id.value) return undefined;
    const of = { t: "household", id: id.value };
    const before = group(name);
    return record(store, [{ ...of, set: { [name]: value } }], [{ ...of, set: { [name]: before } }]);
  }
  return {
    loaded: store.loaded("household"),
    place: computed(() => group("place") as Place),
    climate: computed(() => group("climate") as Climate),
    forecast: computed(() => group("forecast")["forecast"] === true),
    known: computed(() => {
      const { latitude_deg, longitude_deg } = group("place") as Place;
      return latitude_deg !== undefined && longitude_deg !== undefined;
    }),
    savePlace: ({ latitude_deg, longitude_deg, ...more }: Place) =>
      set("place", {
        ...(latitude_deg === undefined ? {} : { latitude_deg: rounded(latitude_deg) }),
        ...(longitude_deg === undefined ? {} : { longitude_deg: rounded(longitude_deg) }),
        ...more,
      }),
    saveClimate: (climate: Climate) => set("climate", climate),
  };
}

export type PlaceModel = ReturnType<typeof createPlace>;

const PLACE: FormWords = {
  title: "Place",
  says: "Kept to 0.1°, about 7 miles (11 km). Nobody can tell your address from it.",
  save: "Save the place",
  saved: "Place saved.",
  fields: {
    latitude_deg: { hint: "South of the equator: -", missing: "Enter the latitude, such as 41.6." },
    longitude_deg: {
      hint: "West of London: -",
      missing: "Enter the longitude, such as -70.1.",
      beside: true,
    },
    elevation_m: { hint: "Optional. Helps to work out drying." },
  },
};

export const placeForm = (parts: SchemaParts, place: PlaceModel) =>
  createSchemaForm(parts, {
    key: "household-form:place",
    t: "household",
    group: "place",
    words: PLACE,
    from: () => ({ ...place.place.peek() }),
    amends: true,
    write: (value) => place.savePlace(value),
  });
