/** The models of this feature as this phone uses them. */

import { session } from "../../../platform/session/session";
import { store } from "../../../records/live";
import { createPhotos } from "./photos";

export const photos = createPhotos({
  store,
  wire: () => {
    const household = session.value?.household.id;
    return household
      ? import("../../../platform/photos/wire").then(({ photoWire }) => photoWire(household))
      : undefined;
  },
  take: () => import("../../../platform/photos/take").then(({ take }) => take),
  nameOf: (bytes) =>
    import("../../../platform/photos/take").then(({ nameOf }) => nameOf(new Uint8Array(bytes))),
});
