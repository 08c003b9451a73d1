/** Season: the plan comes later; the nitrogen already put down stands here now. */

import { useEffect } from "preact/hooks";
import { keepSolver } from "../../../platform/solver/keep";
import { Button, Empty, Page, PlaceActions } from "../../../ui/parts";
import { Nitrogen } from "./ledger";
import { RulesLink } from "./rules/link";
import { ShoppingWay } from "./shopping/way";
import { SoilTests } from "./soil-tests";

export default function Season() {
  useEffect(() => void keepSolver(), []);
  return (
    <Page title="Season" actions={<PlaceActions />}>
      <ShoppingWay />
      <Nitrogen />
      <SoilTests />
      <RulesLink />
      <Empty title="No season plan yet" action={<Button href="/">Go to Today</Button>}>
        <p>Season planning is not ready yet. Today shows what needs mowing.</p>
      </Empty>
    </Page>
  );
}
