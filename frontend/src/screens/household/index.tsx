/** The household: people, where entries stand, this phone's choices, and the way out. */
import { household } from "../../models";
import { Page, Standing } from "../../parts";
import { Cautions } from "./cautions";
import { Choices } from "./choices";
import { Conflicts } from "./conflicts";
import { Entries } from "./entries";
import { Installing } from "./installing";
import { Invite } from "./invite";
import { Export, Leave } from "./leave";
import { Members } from "./members";

export default function Household() {
  return (
    <Page
      title={household.household.value.name || "Household"}
      back="/"
      backLabel="Back to Today"
      actions={<Standing />}
      wide
    >
      <Conflicts />
      <div class="columns">
        <div class="stack stack--wide">
          <Entries />
          <Members />
          <Invite />
        </div>
        <div class="stack stack--wide">
          <Choices />
          <Installing />
          <Export />
          <Cautions />
          <Leave />
        </div>
      </div>
    </Page>
  );
}
