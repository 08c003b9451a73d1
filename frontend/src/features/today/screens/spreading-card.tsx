import { Footprints } from "lucide-preact";
import { today } from "../../../app/models";
import { store } from "../../../platform/store";
import { Button, Notice } from "../../../ui/parts";
import { onFoot } from "./on-foot";
import { sayWhere } from "./where";

/** The walk under way first; otherwise the way into one, once there is something to walk with. */
export function WalkCard() {
  const walk = onFoot.value;
  if (walk) {
    const names = today.zones.value
      .filter((row) => walk.zone_ids.includes(row.id))
      .map((row) => row.groups["name"]?.value?.name);
    const finished = store.row("entry", walk.id).value !== undefined;
    const says = finished
      ? "Clean-up is not finished."
      : `${sayWhere(walk)} Everything so far is saved on this phone.`;
    return (
      <Notice title={finished ? "Spreading is saved" : "Spreading in progress"}>
        <p>
          {names.length ? `${names.join(", ")}. ` : ""}
          {says}
        </p>
        <Button tone={finished ? "plain" : "signal"} wide href="/walk">
          <Footprints aria-hidden="true" size={20} />
          {finished ? "Finish clean-up" : "Continue"}
        </Button>
      </Notice>
    );
  }
  const ready = today.zones.value.length && today.products.value.length && today.spreaders.value.length;
  if (!ready) return null;
  return (
    <Button wide href="/walk">
      <Footprints aria-hidden="true" size={20} />
      Start spreading
    </Button>
  );
}
