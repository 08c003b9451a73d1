import { orUndo } from "../../../ui/parts";
import { mayMow } from "../keep-off";
import { today } from "../model";

/** Notes a mow at one tap, says so, and offers the way back; false when it was not. */
export async function noteMow(zoneIds: readonly string[], what: string): Promise<boolean> {
  if (!(await mayMow(zoneIds))) return false;
  return (await orUndo(() => today.mow(zoneIds), `${what}: mow logged.`)) !== undefined;
}
