/** Season: the plan of the year, what was put down in it, soil tests, the rules of the place. */

import { useEffect } from "preact/hooks";
import { keepSolver } from "../../../platform/solver/keep";
import { Page, PlaceActions } from "../../../ui/parts";
import { Coming } from "./coming";
import { Nitrogen } from "./ledger";
import { PlanYear } from "./plan";
import { RulesLink } from "./rules/link";
import { YearSheet } from "./sheet";
import { ShoppingWay } from "./shopping/way";
import { SoilTests } from "./soil-tests";

export default function Season() {
  useEffect(() => void keepSolver(), []);
  return (
    <Page title="Season" actions={<PlaceActions />}>
      <PlanYear />
      <Coming />
      <ShoppingWay />
      <YearSheet />
      <Nitrogen />
      <SoilTests />
      <RulesLink />
    </Page>
  );
}
