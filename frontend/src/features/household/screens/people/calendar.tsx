/** The link by which one's own calendar shows the steps of the season. */
import { date } from "../../../../format";
import { Button, Notice, Page, Standing, TextField } from "../../../../ui/parts";
import type { KeptLink } from "../../model/calendar";
import { calendar } from "../../model/together";
import { Listed, useLook } from "../remote";
import { CopyLink } from "./copy-link";

export function CalendarPage() {
  useLook(calendar);
  const { made, problem } = calendar;
  const wrong = problem.value?.of ? problem.value : undefined;
  return (
    <Page title="Calendar link" back="/household" backLabel="Back to the household" actions={<Standing />}>
      <p>Your calendar app can show the season’s steps. Anyone with the link can read them.</p>
      {made.value ? <Made link={made.value} /> : null}
      <div aria-live="polite">
        {wrong ? (
          <Notice kind="bad" title={wrong.of === "off" ? "The link is still on" : "No link was made"}>
            <p>{wrong.says}</p>
          </Notice>
        ) : null}
      </div>
      <Listed of={calendar} needs="You need a signal to make a link.">
        {(kept) => <Kept kept={kept} />}
      </Listed>
    </Page>
  );
}

function Made({ link }: { link: string }) {
  return (
    <div class="stack">
      <TextField
        label="Link"
        value={link}
        onInput={() => undefined}
        hint="Shown only now. In your calendar app, subscribe to it."
      />
      <div class="row">
        <CopyLink link={link} />
      </div>
    </div>
  );
}

function Kept({ kept }: { kept: KeptLink }) {
  const { busy, make, turnOff } = calendar;
  return (
    <div class="stack">
      <p class="quiet" aria-live="polite">
        {kept.made_at ? `On since ${date(kept.made_at)}. A new link ends this one.` : "Your link is off."}
      </p>
      <div class="row">
        <Button onClick={make} busy={busy.value === "new"}>
          {kept.on ? "Make a new link" : "Make a link"}
        </Button>
        {kept.on ? (
          <Button onClick={turnOff} busy={busy.value === "off"}>
            Turn off the link
          </Button>
        ) : null}
      </div>
    </div>
  );
}
