/** On a mow's page: what it took off, and the cuts still to come where the grass is on its way down. */
import { height, percent } from "../../../format";
import { dayOfMoment } from "../../../format/moment";
import { useEngine } from "../../../platform/engine";
import type { Args } from "../../../platform/engine/types";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import type { Entry } from "../../../records/entries";
import { Figure } from "../../../ui/parts";
import { mowers, mows, nights, zones } from "../model";
import { type Lawn, lawnOf } from "../model/lawns";
import { heightArgs, wayDownArgs } from "../model/target";
import { useRecent } from "./use-recent";
import { WayDown } from "./way-down";
import { sinceDays } from "./zone-advice";

function takenArgs({ body }: Entry): Args<"mowing.cut"> | null {
  const { height_before_mm: height_mm, cut_height_mm: target_mm } = body;
  return height_mm === undefined || target_mm === undefined ? null : { height_mm, target_mm };
}

export function MowDetail({ entry }: { entry: Entry }) {
  const { answer } = useEngine("mowing.cut", takenArgs(entry));
  const here = zones.value.filter(({ id }) => entry.zoneIds.includes(id)).map(lawnOf);
  const last = here.filter(({ id }) => mows.lastCut(id)?.id === entry.id);
  const taken = answer?.value && !answer.value.too_short ? answer.value.straight_share : undefined;
  if (taken === undefined && !last.length) return null;
  return (
    <section class="section" aria-labelledby="cut">
      <h2 id="cut">The cut</h2>
      {taken === undefined ? null : (
        <Figure label="Share of the blade cut" value={percent(taken).text} working={answer?.working} />
      )}
      {entry.struck ? null : last.map((lawn) => <ToCome key={lawn.id} entry={entry} lawn={lawn} />)}
    </section>
  );
}

/** From what was really cut, not from what was planned. */
function ToCome({ entry, lawn }: { entry: Entry; lawn: Lawn }) {
  const { cut_height_mm, height_after_mm, mower_id } = entry.body;
  const recent = useRecent();
  const height_mm: number = height_after_mm ?? cut_height_mm;
  const { answer } = useEngine("mowing.height", heightArgs(lawn, { drought: false, recent, today: day() }));
  const target_mm = answer?.value?.target_mm ?? lawn.own_mm;
  const today = day();
  const since = sinceDays(dayOfMoment(entry.at), today);
  const args = wayDownArgs(height_mm, target_mm, lawn, mowers.named(mower_id), since, {
    nights: nights(),
    today,
  });
  if (!args || target_mm === undefined || height_mm <= target_mm) return null;
  const system = units.value;
  return (
    <WayDown
      name={lawn.name}
      args={args}
      from={today}
      today={today}
      system={system}
      says={`Still above ${height(target_mm, system).text}. Next:`}
    />
  );
}
