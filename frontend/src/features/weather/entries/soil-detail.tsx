import type { Entry } from "../../../records/entries";
import { Button } from "../../../ui/parts/button";

/** On the page of a soil reading: the way to what it changes. */
export function SoilDetail({ entry: { body, struck } }: { entry: Entry }) {
  if (body["measures"] !== "soil" || struck) return null;
  return (
    <div>
      <Button href="/weather/soil">Show soil warmth</Button>
    </div>
  );
}
