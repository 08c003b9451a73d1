/** The names of this phone's book. */
import { store } from "../live";
import { createNames } from "./names";

export const { nameOf, named, sayZones } = createNames(store);
