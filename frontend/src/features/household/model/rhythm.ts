/** The form of the household's mowing nights. */
import { record } from "../../../forms/recorded";
import { createSchemaForm, type FormWords, type SchemaParts } from "../../../forms/schema-form";
import { groupOf } from "../../../records/groups";
import { NIGHTS } from "../../../records/mowing/rhythm";

const WORDS: FormWords = {
  title: "Mowing nights",
  says: "Today lists what cannot wait for the next one.",
  save: "Save the nights",
  saved: "Mowing nights saved.",
  fields: Object.fromEntries(NIGHTS.map((name) => [name, {}])),
};

export function rhythmForm(parts: SchemaParts, id: string) {
  const { store } = parts;
  const now = () => {
    const row = store.row("household", id).peek();
    return row ? groupOf("household", row, "rhythm") : {};
  };
  return createSchemaForm(parts, {
    key: "household-form:rhythm",
    t: "household",
    group: "rhythm",
    words: WORDS,
    from: () => ({ ...now() }),
    amends: true,
    write: (value) => {
      const of = { t: "household", id };
      return record(store, [{ ...of, set: { rhythm: value } }], [{ ...of, set: { rhythm: { ...now() } } }]);
    },
  });
}
