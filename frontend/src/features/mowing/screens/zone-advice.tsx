/** What a zone is to be cut to now: its height, the notch for it, and the way there where it has grown too long. */
import { daysBetween, height, type System } from "../../../format";
import { useEngine } from "../../../platform/engine";
import { given } from "../../../records/entries";
import { Button, Figure, Notice } from "../../../ui/parts";
import type { Lawn } from "../model/lawns";
import type { Mower } from "../model/mowers";
import { notchRows, reachOf } from "../model/mowers";
import { type Conditions, heightArgs, wayDownArgs } from "../model/target";
import { WayDown } from "./way-down";

interface ZoneAdviceProps {
  lawn: Lawn;
  /** As typed; undefined where it was not measured. */
  before_mm: number | undefined;
  /** What it was last cut to, and that day. */
  lastCut: { mm: number; day: string } | undefined;
  mower: Mower | undefined;
  conditions: Conditions;
  /** The household's mowing nights, Monday 1; none where it has not said them. */
  nights: number[];
  today: string;
  system: System;
}

const WHY: Record<string, string> = {
  usual: "usual for this grass",
  heat: "higher in heat",
  shade: "higher in shade",
  drought: "higher in drought",
};

export function ZoneAdvice(props: ZoneAdviceProps) {
  const { lawn, before_mm, lastCut, mower, conditions, today, system } = props;
  const { answer } = useEngine("mowing.height", heightArgs(lawn, conditions));
  const target_mm = answer?.value?.target_mm ?? lawn.own_mm;
  const long = before_mm ?? lastCut?.mm;
  const { highest_mm } = reachOf(mower);
  const asked =
    long === undefined || target_mm === undefined
      ? null
      : { height_mm: long, target_mm, ...given({ highest_mm }) };
  const { answer: cut } = useEngine("mowing.cut", asked as Parameters<typeof useEngine<"mowing.cut">>[1]);
  if (target_mm === undefined)
    return answer === undefined && heightArgs(lawn, conditions) ? null : <NoHeight lawn={lawn} />;
  const since = before_mm === undefined && lastCut ? sinceDays(lastCut.day, today) : undefined;
  const down = wayDownArgs(long, target_mm, lawn, mower, since, { nights: props.nights, today });
  const over = cut?.value && !cut.value.allowed;
  const unfinished = before_mm === undefined && lastCut && cut?.value && !cut.value.too_short;
  return (
    <>
      <Target {...props} target_mm={target_mm} why={answer?.value?.why[0]} working={answer?.working ?? []} />
      {answer?.value?.rest ? (
        <Notice kind="warn" title="Don’t mow wilted grass">
          <p>Wait for rain, or water first. Mowing it now sets it back.</p>
        </Notice>
      ) : null}
      {down && (over || unfinished) ? (
        <WayDown
          name={lawn.name}
          args={down}
          from={today}
          today={today}
          system={system}
          says={unfinished ? sayLast(lastCut.mm, system) : "Too long for one cut. Take a third at a time."}
        />
      ) : null}
    </>
  );
}

/** A mow noted a day ahead is one of today. */
export const sinceDays = (cut: string, today: string): number => Math.max(0, daysBetween(cut, today));

const sayLast = (mm: number, system: System): string =>
  `Last cut to ${height(mm, system).text}, still on its way down. Next:`;

function NoHeight({ lawn }: { lawn: Lawn }) {
  return (
    <Notice title={`${lawn.name}: no mowing height yet`}>
      <p>{lawn.grass ? "Places differ for this grass." : "Its grass is not set."} Set the height you want.</p>
      <Button href={`/ground/${lawn.id}/edit`}>Set the height</Button>
    </Notice>
  );
}

interface TargetProps extends ZoneAdviceProps {
  target_mm: number;
  why: string | undefined;
  working: NonNullable<Parameters<typeof Figure>[0]["working"]>;
}

function Target({ lawn, mower, target_mm, why, working, system }: TargetProps) {
  const rows = mower?.notches.length ? notchRows(mower) : null;
  const { answer } = useEngine("mowing.notch", rows ? { height_mm: target_mm, notches: rows } : null);
  const set = answer?.value;
  const at = set?.name ? `: notch ${set.name}` : "";
  const cuts = set?.notch_mm ? height(set.notch_mm, system).text : "";
  const real = cuts && cuts !== height(target_mm, system).text ? `Notch ${set?.name} cuts at ${cuts}. ` : "";
  const none = set && set.name === null ? "Every notch cuts lower. Use the highest. " : "";
  const own = why === undefined || (why === "usual" && lawn.own_mm !== undefined);
  return (
    <Figure
      label={`${lawn.name}: mowing height`}
      value={`${height(target_mm, system).text}${at}`}
      note={`${real}${none}${own ? "As set for this zone." : `${sentence(WHY[why ?? ""] ?? "")}.`}`}
      working={[...working, ...(answer?.working ?? [])]}
    />
  );
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
