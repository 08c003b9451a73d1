import { height, percent, type System } from "../../../format";
import { sayRefusal } from "../../../forms/refusal";
import type { SchemaForm } from "../../../forms/schema-form";
import { useEngine } from "../../../platform/engine";
import { units } from "../../../platform/session/session";
import { forming } from "../../../records/live";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Figure, Notice } from "../../../ui/parts";
import { KeepOffNotices } from "../keep-off";
import { today } from "../model";
import { mowForm } from "../model/forms";

const BELOW = {
  zone_ids: ({ form }: SchemaForm) => (
    <KeepOffNotices zoneIds={(form.value?.["zone_ids"] ?? []) as readonly string[]} />
  ),
  cut_height_mm: (form: SchemaForm) => <ThirdCheck form={form} system={units.value} />,
};

/** A mow with what else is known of it; the one-third check stands beside the heights. */
export function MowSheet({ open, onClose }: { open: boolean; onClose: () => void }) {
  return <SchemaSheet open={open} onClose={onClose} make={() => mowForm(forming, today)} below={BELOW} />;
}

/** The one-third rule on the two heights, as soon as both are written. */
function ThirdCheck({ form, system }: { form: SchemaForm; system: System }) {
  const { height_before_mm, cut_height_mm } = form.read.value?.value ?? {};
  const both = typeof height_before_mm === "number" && typeof cut_height_mm === "number";
  const asked = both ? { height_mm: height_before_mm, target_mm: cut_height_mm } : null;
  const { answer } = useEngine("mowing.cut", asked);
  if (!asked) return <p class="quiet">Enter both heights to check the one-third rule.</p>;
  if (!answer) return <p aria-busy="true">Checking …</p>;
  if (answer.error) return <Notice kind="bad">{sayRefusal(answer.error, system)}</Notice>;
  const { allowed, cut_to_mm, removed_share, too_short, beyond_mower } = answer.value;
  if (too_short)
    return (
      <Notice kind="warn" title="Nothing to cut">
        <p>The grass is no taller than the mowing height. Check both heights.</p>
      </Notice>
    );
  return (
    <div aria-live="polite" class="stack">
      {allowed ? (
        <Notice kind="good">
          <p>Within the one-third rule.</p>
        </Notice>
      ) : (
        <Notice kind="warn" title="More than a third of the blade">
          {beyond_mower ? (
            <p>Too tall for a mower. Trim off a third by hand first, then again every few days.</p>
          ) : (
            <p>Don’t cut below {height(cut_to_mm, system).text} now. Go lower in a few days.</p>
          )}
        </Notice>
      )}
      <Figure
        label={allowed ? "Share of the blade cut" : "Share cut at that height"}
        value={percent(removed_share).text}
        working={answer.working}
      />
    </div>
  );
}
