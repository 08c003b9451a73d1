/** A mower's page: what each notch cuts at, and how long ago its blade was sharpened. */
import { useMemo, useState } from "preact/hooks";
import { count, date, daysAgo, height, hours, showTyped } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import { useEngine } from "../../../platform/engine";
import type { Value } from "../../../platform/engine/types";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import { Button, Figure, Notice, orUndo, Page, PlaceActions } from "../../../ui/parts";
import { TakeOut } from "../../../ui/parts/take-out";
import { mowers, mows } from "../model";
import { type Mower, mowerOf, sharpenArgs } from "../model/mowers";
import { HeightCheck } from "./height-check";
import { sayReach } from "./mowers";
import { NoMower } from "./no-mower";
import { BLADE_SAFETY } from "./text";

const BACK = { back: "/shed", backLabel: "Back to the shed" };

export function MowerPage({ id }: { id: string }) {
  const row = useMemo(() => mowers.row(id), [id]).value;
  const gone = mowers.loaded.value && (!row || row.groups["deleted"]?.value?.deleted === true);
  if (gone) return <NoMower {...BACK} />;
  if (!row)
    return (
      <Page title="Mower" {...BACK}>
        {null}
      </Page>
    );
  const mower = mowerOf(row);
  return (
    <Page title={mower.name} {...BACK} actions={<PlaceActions />}>
      <Notches mower={mower} />
      <Blade mower={mower} />
      <TakeOut name={mower.name} takeOut={() => mowers.takeOut(mower.id)} />
    </Page>
  );
}

function Notches({ mower }: { mower: Mower }) {
  const [checking, setChecking] = useState(false);
  const some = mower.notches.length > 0;
  return (
    <section class="section" aria-labelledby="notches">
      <h2 id="notches">Cutting heights</h2>
      {some ? (
        <NotchTable mower={mower} />
      ) : (
        <p>{sayReach(mower, units.value) || "Not measured yet. A ruler and a flat path are enough."}</p>
      )}
      <div class="row">
        {some ? <Button onClick={() => setChecking(true)}>Height check</Button> : null}
        <Button href={`/shed/mower/${mower.id}/edit`} tone={some ? "plain" : "signal"}>
          Edit
        </Button>
      </div>
      {some ? <HeightCheck mower={mower} open={checking} onClose={() => setChecking(false)} /> : null}
    </section>
  );
}

function NotchTable({ mower: { notches } }: { mower: Mower }) {
  return (
    <table class="table">
      <thead>
        <tr>
          <th scope="col">Notch</th>
          <th scope="col" class="num">
            Measured
          </th>
        </tr>
      </thead>
      <tbody>
        {notches.map(({ label, measured_mm, measured_typed }) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td class="num">
              {measured_typed ? showTyped(measured_typed) : height(measured_mm, units.value).text}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Blade({ mower }: { mower: Mower }) {
  const only = mowers.all.value.length === 1;
  const args = mows.loaded.value ? sharpenArgs(mower, mows.all.value, only, day()) : null;
  const { answer } = useEngine("mowing.sharpen", args);
  const since = mower.sharpened_on;
  return (
    <section class="section" aria-labelledby="blade">
      <h2 id="blade">Blade</h2>
      <p>{since ? `Sharpened ${daysAgo(since, day())} (${date(since)}).` : "Sharpening not on record."}</p>
      {answer?.error ? <Notice kind="bad">{sayRefusal(answer.error, units.value)}</Notice> : null}
      {answer?.value ? <Hours said={answer.value} working={answer.working} /> : null}
      <Notice kind="warn" title="Blade off limits while it can start">
        <p>{BLADE_SAFETY}</p>
      </Notice>
      <div>
        <Button
          tone={answer?.value?.due ? "signal" : "plain"}
          onClick={() => orUndo(() => mowers.sharpened(mower), "Sharpening logged.")}
        >
          Sharpened today
        </Button>
      </div>
    </section>
  );
}

const DUE: Record<Value<"mowing.sharpen">["why"], string> = {
  hours: "Sharpen it now: its hours are up.",
  season: "Sharpen it now: it has been half a year.",
  not_due: "",
};

interface HoursProps {
  said: Value<"mowing.sharpen">;
  working: Parameters<typeof Figure>[0]["working"];
}

function sayNext({ due, hours_left, due_on }: Value<"mowing.sharpen">): string {
  if (due) return "";
  const by = due_on ? `, or by ${date(due_on)}` : "";
  return `Sharpen in ${hours(hours_left).text} of mowing${by}.`;
}

function Hours({ said, working }: HoursProps) {
  const { why, untimed } = said;
  const open = count(untimed, "mow has", "mows have").text;
  return (
    <>
      {DUE[why] ? (
        <p>
          <span class="tag tag--due tag--long">{DUE[why]}</span>
        </p>
      ) : null}
      <Figure
        label="Hours since sharpening"
        value={hours(said.hours).text}
        note={[sayNext(said), untimed ? `${open} no minutes.` : ""].filter(Boolean).join(" ")}
        working={working}
      />
    </>
  );
}
