import { useState } from "preact/hooks";
import { length, percent, unitsFor } from "../../../../format";
import { sayRefusal } from "../../../../forms/refusal";
import { type Answer, useEngine } from "../../../../platform/engine";
import { units } from "../../../../platform/session/session";
import type { Row } from "../../../../platform/store/types";
import { TrayOverlap, UnevennessChart } from "../../../../ui/drawing";
import { Button, ChoiceField, Figure, Notice, offerUndo, orSay, UnitField } from "../../../../ui/parts";
import { trays } from "../../model";
import type { TrayAnswer, TrayForm, TrayRead, TrayTest } from "../../model/trays";
import { Lopsided } from "./lopsided";

/** The engine's word on the form as it stands. */
export function useTrayAnswer(test: TrayTest) {
  return useEngine("swath.tray_test", test.read.value?.args ?? null);
}

interface ResultProps {
  test: TrayTest;
  row: Row;
  answer: Answer<TrayAnswer> | undefined;
  /** Whether the answer is still that to older catches. */
  busy: boolean;
}

/** The widest swath, the pattern it makes, and every other distance beside it. */
export function TrayResult({ test, row, answer, busy }: ResultProps) {
  const form = test.form.value;
  if (!form) return null;
  const found = answer?.value;
  return (
    <section class="section" aria-labelledby="says">
      <h2 id="says">Result</h2>
      {answer?.error ? <p role="status">{sayRefusal(answer.error, units.value)}</p> : null}
      {found ? (
        <>
          <Widest found={found} answer={answer} form={form} busy={busy} />
          <Overlap test={test} found={found} form={form} row={row} busy={busy} />
          <Lopsided share={found.lopsided_share} working={answer?.working} busy={busy} />
        </>
      ) : answer?.error ? null : (
        <p class="quiet">Enter the spacing and every tray to see the widest swath.</p>
      )}
    </section>
  );
}

interface WidestProps extends Pick<ResultProps, "answer" | "busy"> {
  found: TrayAnswer;
  form: TrayForm;
}

function Widest({ found, answer, form, busy }: WidestProps) {
  const limit = percent(form.limit_share).text;
  if (found.cut_off)
    return (
      <Notice kind="warn" title="Add trays at both ends">
        <p>An end tray caught too much. The throw goes past the row. Set out more trays and test again.</p>
      </Notice>
    );
  if (found.widest_m === null)
    return (
      <Notice kind="warn" title={`No distance stays within ${limit}`}>
        <p>
          Look for a tray that was knocked or misread. Take lumps out of the hopper. Then test again. Until
          then keep strips close and the rate low.
        </p>
      </Notice>
    );
  const { working } = answer ?? {};
  return (
    <div class="figures">
      <Figure
        label={`Widest swath within ${limit}`}
        value={length(found.widest_m, units.value).text}
        working={working}
        busy={busy}
        size="big"
      />
      <Figure
        label="Unevenness there"
        value={found.cv_at_widest === null ? "not known" : percent(found.cv_at_widest).text}
        working={working}
        busy={busy}
        note={found.touchy ? "Keep exactly to this distance." : undefined}
      />
      {found.half_catch_m ? (
        <Figure
          label="By the half-catch rule"
          value={length(found.half_catch_m, units.value).text}
          working={working}
          busy={busy}
        />
      ) : null}
    </div>
  );
}

interface OverlapProps {
  test: TrayTest;
  found: TrayAnswer;
  form: TrayForm;
  row: Row;
  busy: boolean;
}

/** Distances past the widest stay to be looked at; the engine says which is the widest. */
function isOffered(spacing_m: number, { widest_m, by_spacing }: TrayAnswer): boolean {
  return widest_m !== null && spacing_m <= widest_m && spacing_m !== by_spacing[0]?.spacing_m;
}

function sayAgainst(chosen: TrayAnswer["by_spacing"][number], found: TrayAnswer, form: TrayForm): string {
  if (found.cut_off) return "comes from a pattern that is cut off";
  if (chosen.cv_share > form.limit_share) return "is over the limit";
  return chosen.spacing_m > (found.widest_m ?? 0)
    ? "is wider than the half-catch swath"
    : "is too close to judge";
}

/** The distance looked at: the widest allowed until another is chosen. */
function Overlap({ test, found, form, row, busy }: OverlapProps) {
  const [picked, setPicked] = useState<number | undefined>(undefined);
  const system = units.value;
  const wanted = picked ?? found.widest_m ?? found.by_spacing[0]?.spacing_m;
  const at = found.by_spacing.findIndex((one) => one.spacing_m === wanted);
  const chosen = found.by_spacing[at];
  if (!chosen) return null;
  return (
    <>
      <ChoiceField
        label="Distance between strips"
        look="list"
        value={String(at)}
        choices={found.by_spacing.map((one, k) => ({
          value: String(k),
          label: `${length(one.spacing_m, system).text}: ${percent(one.cv_share).text} uneven${one.cv_share <= form.limit_share ? "" : ", over the limit"}`,
        }))}
        onInput={(k) => setPicked(found.by_spacing[Number(k)]?.spacing_m)}
      />
      <Together args={test.read.value?.args} apart={at + 1} chosen={chosen} />
      <p class="quiet small">Solid: total on the ground. Dashed: each strip. Dot-dash: average.</p>
      <UnevennessChart
        rows={found.by_spacing}
        limit_share={form.limit_share}
        chosen_m={chosen.spacing_m}
        write={(metres) => length(metres, system).number}
        unit={length(1, system).unit}
      />
      <UseSwath
        test={test}
        form={form}
        row={row}
        swath_m={chosen.spacing_m}
        within={isOffered(chosen.spacing_m, found)}
        why={sayAgainst(chosen, found, form)}
        busy={busy}
      />
    </>
  );
}

interface TogetherProps {
  args: TrayRead["args"] | undefined;
  /** Trays from one track to the next. */
  apart: number;
  chosen: TrayAnswer["by_spacing"][number];
}

/** The pattern at the distance looked at, as the engine adds it up. */
function Together({ args, apart, chosen }: TogetherProps) {
  const asked = args ? { ...args, trays_apart: apart } : null;
  const { answer, busy } = useEngine("swath.tray_test", asked);
  const pattern = answer?.value?.overlapped_g;
  // The answer to another distance would be drawn between the wrong tracks.
  if (busy || !args || !pattern?.length) return null;
  return (
    <TrayOverlap
      catches_g={args.catches_g}
      apart={apart}
      overlapped_g={pattern}
      mean_g={chosen.mean_g}
      mirrored={args.pattern === "back_and_forth"}
      distance={length(chosen.spacing_m, units.value).text}
      unevenness={percent(chosen.cv_share).text}
    />
  );
}

interface UseProps {
  test: TrayTest;
  form: TrayForm;
  row: Row;
  swath_m: number;
  within: boolean;
  /** What speaks against it where it is not offered. */
  why: string;
  busy: boolean;
}

/** Writes the distance as the spreader's swath. */
function UseSwath({ test, form, row, swath_m, within, why, busy }: UseProps) {
  const [wrong, setWrong] = useState<string | undefined>(undefined);
  const said = length(swath_m, units.value).text;
  const walking = row.groups["walking"]?.value ?? {};
  if (!within)
    return (
      <p class="quiet">
        {said} {why}, so don’t use it as the swath.
      </p>
    );
  if (walking.swath_m === swath_m) return <p role="status">{said} is this spreader's swath.</p>;
  async function use(): Promise<void> {
    const set = await orSay(() => trays.setSwath(row, form, swath_m));
    const { back, wrong: message } = set?.value ?? {};
    setWrong(message);
    if (back) offerUndo(`The swath is now ${said}.`, back);
  }
  return (
    <div class="stack">
      {typeof walking.speed_m_s === "number" ? null : (
        <UnitField
          label="Walking speed"
          hint="About 3 mph (4.8 km/h). Swath and speed are saved together."
          value={form.speed}
          units={unitsFor("speed", units.value)}
          onInput={(speed) => test.change({ speed })}
          error={wrong}
        />
      )}
      <div>
        <Button busy={busy} onClick={() => void use()}>
          Use {said} as the swath
        </Button>
      </div>
    </div>
  );
}
