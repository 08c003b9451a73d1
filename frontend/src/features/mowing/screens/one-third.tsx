/** The one-third rule on the height before and the cut chosen, and the two cuts that may take more. */
import { height, percent, type System } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import type { SchemaForm } from "../../../forms/schema-form";
import { useEngine } from "../../../platform/engine";
import type { Args } from "../../../platform/engine/types";
import { given } from "../../../records/entries";
import { ChoiceField, Figure, Notice } from "../../../ui/parts";
import { EXCEPTIONS } from "../entries/mow-words";
import type { Turf } from "../model/lawns";
import type { Mower } from "../model/mowers";
import { reachOf } from "../model/mowers";

type Heights = { before_mm?: number; cut_mm?: number };

export function heightsIn({ read }: SchemaForm): Heights {
  const { height_before_mm, cut_height_mm } = read.value?.value ?? {};
  return given({
    before_mm: height_before_mm as number | undefined,
    cut_mm: cut_height_mm as number | undefined,
  });
}

interface ThirdProps {
  form: SchemaForm;
  mower: Mower | undefined;
  /** Of all the zones chosen; undefined where they differ or it is not known. */
  turf: Turf | undefined;
  system: System;
}

function cutArgs({ form, mower, turf }: ThirdProps, exception: string): Args<"mowing.cut"> | null {
  const { before_mm, cut_mm } = heightsIn(form);
  if (before_mm === undefined || cut_mm === undefined) return null;
  const { highest_mm } = reachOf(mower);
  const named = exception as "dormant_warm" | "renovation" | "";
  return {
    height_mm: before_mm,
    target_mm: cut_mm,
    ...given({ highest_mm, turf, exception: named }),
  } as Args<"mowing.cut">;
}

const chosen = (form: SchemaForm): string => String(form.form.value?.["exception"] ?? "");

/** Offered where the cut takes more than a third, and while one is chosen; the low spring cut for warm-season grass only. */
export function ExceptionField(props: ThirdProps) {
  const { form, turf } = props;
  const { answer } = useEngine("mowing.cut", cutArgs(props, ""));
  const now = chosen(form);
  const over = answer?.value && !answer.value.allowed && !answer.value.too_short;
  if (!over && !now) return null;
  const fits = Object.entries(EXCEPTIONS).filter(
    ([name]) => name !== "dormant_warm" || turf === "warm" || now === name,
  );
  return (
    <ChoiceField
      label="More than a third on purpose?"
      value={now}
      onInput={(exception) => form.change({ exception })}
      choices={[{ value: "", label: "No" }, ...fits.map(([value, label]) => ({ value, label }))]}
      error={form.errors.value["exception"]}
    />
  );
}

export function ThirdCheck(props: ThirdProps) {
  const { form, mower, system } = props;
  const { cut_mm } = heightsIn(form);
  const asked = cutArgs(props, chosen(form));
  const { answer } = useEngine("mowing.cut", asked);
  const { highest_mm } = reachOf(mower);
  if (mower && cut_mm !== undefined && highest_mm !== undefined && cut_mm > highest_mm)
    return (
      <Notice kind="warn" title="Higher than this mower cuts">
        <p>
          {mower.name} cuts at {height(highest_mm, system).text} at most. Check the height.
        </p>
      </Notice>
    );
  if (!asked) return <p class="quiet">Enter both heights to check the one-third rule.</p>;
  if (!answer) return <p aria-busy="true">Checking …</p>;
  if (answer.error) return <Notice kind="bad">{sayRefusal(answer.error, system)}</Notice>;
  const { allowed, cut_to_mm, removed_share, straight_share, too_short, beyond_mower, exception } =
    answer.value;
  if (too_short)
    return (
      <Notice kind="warn" title="Nothing to cut">
        <p>The grass is no taller than the mowing height. Check both heights.</p>
      </Notice>
    );
  return (
    <div aria-live="polite" class="stack">
      {exception ? (
        <Notice kind="warn" title="More than a third, on purpose">
          <p>{EXCEPTIONS[exception as keyof typeof EXCEPTIONS] ?? exception}. Do this once only.</p>
        </Notice>
      ) : allowed ? (
        <Notice kind="good">
          <p>Within the one-third rule.</p>
        </Notice>
      ) : (
        <Notice kind="warn" title="More than a third of the blade">
          {beyond_mower ? (
            <p>
              Too tall for {mower?.name ?? "a mower"}. Trim off a third by hand first, then again every few
              days.
            </p>
          ) : (
            <p>Don’t cut below {height(cut_to_mm, system).text} now. Go lower in a few days.</p>
          )}
        </Notice>
      )}
      <Figure
        label="Share of the blade cut"
        value={percent(straight_share).text}
        note={
          allowed ? undefined : `At ${height(cut_to_mm, system).text} it is ${percent(removed_share).text}.`
        }
        working={answer.working}
      />
    </div>
  );
}
