/** The names of this phone's book. */
import { session } from "../../platform/session/session";
import { store } from "../live";
import { createNames } from "./names";

const holder = () => {
  const now = session.value;
  return now ? { id: now.member_id, name: now.person.name } : undefined;
};

export const { nameOf, named, sayZones } = createNames(store, holder);
