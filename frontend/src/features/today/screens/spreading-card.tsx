import { Footprints } from "lucide-preact";
import { store } from "../../../platform/store";
import { Button, Notice } from "../../../ui/parts";
import { today } from "../model";
import { onFoot } from "./on-foot";
import { sayWhere } from "./where";

/** The job under way first; otherwise the way into one, once there is something to walk with. */
export function SpreadCard() {
  const spreading = onFoot.value;
  if (spreading) {
    const names = today.zones.value
      .filter((row) => spreading.zone_ids.includes(row.id))
      .map((row) => row.groups["name"]?.value?.name);
    const finished = store.row("entry", spreading.id).value !== undefined;
    const says = finished
      ? "Clean-up is not finished."
      : `${sayWhere(spreading)} Everything so far is saved on this phone.`;
    return (
      <Notice title={finished ? "Spreading is saved" : "Spreading in progress"}>
        <p>
          {names.length ? `${names.join(", ")}. ` : ""}
          {says}
        </p>
        <Button tone={finished ? "plain" : "signal"} wide href="/spread">
          <Footprints aria-hidden="true" size={20} />
          {finished ? "Finish clean-up" : "Continue"}
        </Button>
      </Notice>
    );
  }
  const has = today.has.value;
  if (!has?.zones || !has.products || !has.spreaders) return null;
  return (
    <Button wide href="/spread">
      <Footprints aria-hidden="true" size={20} />
      Start spreading
    </Button>
  );
}
