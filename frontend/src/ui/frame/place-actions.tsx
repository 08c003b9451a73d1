import { Users } from "lucide-preact";
import { Button } from "../parts/button";
import { Standing } from "./standing";

/** What stands at the right of each place's head: how entries stand, and the way to the household. */
export function PlaceActions() {
  return (
    <>
      <Standing />
      <Button tone="quiet" href="/household" label="Household">
        <Users aria-hidden="true" />
      </Button>
    </>
  );
}
