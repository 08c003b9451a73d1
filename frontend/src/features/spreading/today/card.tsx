import { Footprints } from "lucide-preact";
import { store } from "../../../platform/store";
import { nameOf } from "../../../records/log/named";
import type { CardProps } from "../../../records/log/registry";
import { Button, Notice } from "../../../ui/parts";
import { onFoot } from "./on-foot";
import { sayWhere } from "./where";

/** The job under way first; otherwise the way into one, once there is something to walk with. */
export function SpreadCard({ has }: CardProps) {
  const spreading = onFoot.value;
  if (spreading) {
    const names = spreading.zone_ids.flatMap((id) => nameOf(id) ?? []);
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
  if (!has?.zones || !has.products || !has.spreaders) return null;
  return (
    <Button wide href="/spread">
      <Footprints aria-hidden="true" size={20} />
      Start spreading
    </Button>
  );
}
