import { createSchemaForm } from "../../../../forms/schema-form";
import { forming } from "../../../../records/live";
import { SchemaSheet } from "../../../../ui/form/schema-sheet";
import { household } from "../../model";

export type Naming = "" | "me" | "household";

const OF = {
  me: {
    t: "member",
    title: "Your name",
    start: () => household.me.value?.name ?? "",
    write: household.setName,
  },
  household: {
    t: "household",
    title: "Name of the household",
    start: () => household.household.value.name,
    write: household.renameHousehold,
  },
};

function nameForm(which: Exclude<Naming, "">) {
  const { t, title, start, write } = OF[which];
  return createSchemaForm(forming, {
    key: `${t}-name-form`,
    t,
    group: "name",
    words: { title, save: "Save the name", saved: "Saved.", fields: { name: { label: "Name" } } },
    from: () => ({ name: start() }),
    amends: true,
    write: (value) => write(String(value["name"] ?? "")),
  });
}

export function NameSheet({ which, onClose }: { which: Naming; onClose: () => void }) {
  const make = () => nameForm(which === "" ? "me" : which);
  return <SchemaSheet open={which !== ""} onClose={onClose} make={make} />;
}
