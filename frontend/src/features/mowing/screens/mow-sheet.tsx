/** A mow with its details: what the grass should be cut to, beside what is written down of the cut. */
import { useState } from "preact/hooks";
import { height } from "../../../format";
import { dayOfMoment } from "../../../format/moment";
import type { Filled } from "../../../forms/fields";
import type { SchemaForm } from "../../../forms/schema-form";
import { useEngine } from "../../../platform/engine";
import { today as day } from "../../../platform/session/clock";
import { units } from "../../../platform/session/session";
import type { FieldInputProps } from "../../../ui/form/field-input";
import { SchemaSheet } from "../../../ui/form/schema-sheet";
import { Button, CheckField, ChoiceField } from "../../../ui/parts";
import { KeepOffNotices } from "../../today";
import { mowers, mowing, mows, nights, zones } from "../model";
import { type Lawn, lawnOf, turfOf } from "../model/lawns";
import { alongWith, byEye, createMowForm, lastCutMm, type MowStart, overNotchArgs } from "../model/mow-form";
import { DIRECTIONS, type Direction } from "../model/mows";
import { ExceptionField, heightsIn, ThirdCheck } from "./one-third";
import { useRecent } from "./use-recent";
import { ZoneAdvice } from "./zone-advice";

interface MowSheetProps extends MowStart {
  open: boolean;
  onClose: () => void;
}

const zoneIdsIn = ({ form }: SchemaForm) => (form.value?.["zone_ids"] ?? []) as readonly string[];
const mowerIn = ({ form }: SchemaForm) => mowers.named(form.value?.["mower_id"]);

const lawnsIn = (form: SchemaForm): Lawn[] =>
  zones.value.filter(({ id }) => zoneIdsIn(form).includes(id)).map(lawnOf);

/** The one season of all the zones chosen. */
function turfIn(form: SchemaForm) {
  const seasons = new Set(lawnsIn(form).map(turfOf));
  return seasons.size === 1 ? [...seasons][0] : undefined;
}

const third = (form: SchemaForm) => ({ form, mower: mowerIn(form), turf: turfIn(form), system: units.value });

const also = (name: string, value: Filled, form: SchemaForm) => alongWith(mowers, name, value, form);

const INSTEAD = {
  height_before_by: () => null,
  notch: (form: SchemaForm, input: FieldInputProps) => <NotchField form={form} input={input} />,
  exception: (form: SchemaForm) => <ExceptionField {...third(form)} />,
};

export function MowSheet({ open, onClose, zoneIds, add }: MowSheetProps) {
  const [drought, setDrought] = useState(false);
  const below = {
    zone_ids: (form: SchemaForm) => <KeepOffNotices zoneIds={zoneIdsIn(form)} />,
    height_before_mm: (form: SchemaForm) => (
      <>
        <ByEye form={form} />
        <CheckField label="Wilted or gone brown from drought" checked={drought} onInput={setDrought} />
        {lawnsIn(form).map((lawn) => (
          <Advice key={lawn.id} form={form} lawn={lawn} drought={drought} />
        ))}
      </>
    ),
    exception: (form: SchemaForm) => <ThirdCheck {...third(form)} />,
    direction: (form: SchemaForm) => <LastWay form={form} />,
  };
  return (
    <SchemaSheet
      open={open}
      onClose={onClose}
      make={() => createMowForm(mowing, { zoneIds, add })}
      below={below}
      instead={INSTEAD}
      also={also}
    />
  );
}

/** Its notches with their measured heights; one sets the height cut to. */
function NotchField({ form, input }: { form: SchemaForm; input: FieldInputProps }) {
  const mower = mowerIn(form);
  if (!mower?.notches.length) return null;
  const choices = mower.notches.map(({ label, measured_mm }) => ({
    value: label,
    label: `${label} (${height(measured_mm, units.value).text})`,
  }));
  return (
    <ChoiceField
      label="Notch"
      look="list"
      value={String(input.value)}
      onInput={input.onInput}
      choices={[{ value: "", label: "Not recorded" }, ...choices]}
      error={input.error}
    />
  );
}

/** With no ruler at hand: the grass beside the lever, against the last cut. */
function ByEye({ form }: { form: SchemaForm }) {
  const zoneIds = zoneIdsIn(form);
  const args = overNotchArgs(mows, mowerIn(form), zoneIds);
  const { answer } = useEngine("mowing.look", args);
  const last = lastCutMm(mows, zoneIds);
  if (!answer?.value || last === undefined) return null;
  const { height_mm, error_mm } = answer.value;
  const eye = form.form.value?.["height_before_by"] === "over_notch";
  return (
    <div class="stack stack--tight">
      <p class="quiet">
        Last cut to {height(last, units.value).text}.
        {eye ? ` By eye, ± ${height(error_mm, units.value).text}.` : ""}
      </p>
      <div>
        <Button pressed={eye} onClick={() => form.change(byEye(height_mm, form, mowing.system))}>
          About one notch over
        </Button>
      </div>
    </div>
  );
}

function Advice({ form, lawn, drought }: { form: SchemaForm; lawn: Lawn; drought: boolean }) {
  const cut = mows.lastCut(lawn.id);
  const mm = cut?.body["cut_height_mm"] as number | undefined;
  return (
    <ZoneAdvice
      lawn={lawn}
      before_mm={heightsIn(form).before_mm}
      lastCut={cut && mm !== undefined ? { mm, day: dayOfMoment(cut.at) } : undefined}
      mower={mowerIn(form)}
      conditions={{ drought, recent: useRecent(), today: day() }}
      nights={nights()}
      today={day()}
      system={units.value}
    />
  );
}

/** Each mow another way than the last. */
function LastWay({ form }: { form: SchemaForm }) {
  const last = mows.lastSaying(zoneIdsIn(form), "direction")?.body["direction"] as Direction | undefined;
  return last ? <p class="quiet">Last time: {DIRECTIONS[last].toLowerCase()}.</p> : null;
}
