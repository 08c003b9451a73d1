/** The models of this feature as this phone uses them. */
import { day, engine, forming } from "../../../records/live";
import { createMowing } from "./mowing";

export const { mowers, mows, mowing, nights, zones } = createMowing({ ...forming, engine, day });
