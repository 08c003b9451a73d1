/** What the form of a mow asks for. */
import type { FormWords } from "../../../forms/schema-form";
import { DIRECTIONS } from "../model/mows";

export const CLIPPINGS = { left: "Left", collected: "Collected" };

export const EXCEPTIONS = {
  dormant_warm: "The one low cut in spring, grass still brown",
  renovation: "Renovation: the ground is sown again",
};

export const MOW_FORM: FormWords = {
  title: "Log a mow",
  save: "Save the mow",
  saved: "Mow logged.",
  fields: {
    zone_ids: { missing: "Choose at least one zone." },
    occurred_at: { label: "When" },
    mower_id: { none: "Not recorded" },
    height_before_mm: { hint: "A ruler in the grass, before you mow." },
    height_before_by: { none: "" },
    notch: {},
    cut_height_mm: {},
    exception: { label: "More than a third on purpose?", none: "No", choices: EXCEPTIONS },
    direction: { none: "Not recorded", choices: DIRECTIONS },
    double_cut: {},
    minutes: { hint: "Adds up the hours since sharpening." },
    clippings: { none: "Not recorded", choices: CLIPPINGS },
    height_after_mm: { label: "Height after, if you measured it" },
    note: {},
  },
};
