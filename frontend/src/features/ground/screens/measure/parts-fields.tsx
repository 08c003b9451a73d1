import { useRef } from "preact/hooks";
import { unitsFor } from "../../../../format";
import { units } from "../../../../platform/session/session";
import { newId } from "../../../../platform/store";
import { Button, ChoiceField, NumberField, UnitField } from "../../../../ui/parts";
import { blankSizes, newPart, type PartForm, SHAPES, type ShapeKey } from "../../model/zone-form";
import { SHAPE_CHOICES, shownErrors, type WayProps } from "./shown";

/** Several shapes make one zone: some added, some cut out. */
export function PartsFields({ editor, measures, set }: WayProps) {
  const errors = shownErrors(editor);
  const list = useRef<HTMLOListElement>(null);
  const put = (next: PartForm) =>
    set({ parts: measures.parts.map((part) => (part.key === next.key ? next : part)) });
  function more(add: boolean): void {
    set({ parts: [...measures.parts, newPart(newId(), units.value, add)] });
    // The new part is drawn by then; the focus goes to its first choice.
    setTimeout(() => list.current?.querySelector<HTMLElement>(":scope > li:last-child select")?.focus(), 0);
  }
  return (
    <div class="stack">
      <ol class="stack" ref={list}>
        {measures.parts.map((part, at) => (
          <li key={part.key}>
            <PartFields
              part={part}
              number={at + 1}
              errors={errors}
              onInput={put}
              onRemove={
                measures.parts.length > 1
                  ? () => set({ parts: measures.parts.filter(({ key }) => key !== part.key) })
                  : undefined
              }
            />
          </li>
        ))}
      </ol>
      <div class="row">
        <Button onClick={() => more(true)}>Add a shape</Button>
        <Button onClick={() => more(false)}>Subtract a shape</Button>
      </div>
      <details>
        <summary>How sure are the lengths?</summary>
        <NumberField
          label="Likely error of one length"
          unit="%"
          hint="Leave blank for 2% (tape or wheel). Pacing is less exact."
          value={measures.lengthError}
          onInput={(lengthError) => set({ lengthError })}
          error={errors["lengthError"]}
        />
      </details>
    </div>
  );
}

interface PartProps {
  part: PartForm;
  number: number;
  errors: Record<string, string>;
  onInput: (part: PartForm) => void;
  onRemove: (() => void) | undefined;
}

function PartFields({ part, number, errors, onInput, onRemove }: PartProps) {
  const unit = Object.values(part.sizes)[0]?.unit ?? "m";
  return (
    <fieldset class={part.add ? "part" : "part part--cut"}>
      <legend class="row">
        {number}. {part.add ? "Shape added" : "Shape subtracted"}
      </legend>
      <ChoiceField
        label="Shape"
        look="list"
        value={part.shape}
        onInput={(shape) =>
          onInput({
            ...part,
            shape: shape as ShapeKey,
            sizes: { ...blankSizes(shape as ShapeKey, unit), ...kept(part, shape as ShapeKey) },
          })
        }
        choices={SHAPE_CHOICES}
      />
      <div class="fields-2">
        {SHAPES[part.shape].sizes.map(([field, label]) => (
          <UnitField
            key={field}
            label={label}
            units={unitsFor("length", units.value)}
            words
            value={part.sizes[field] ?? { amount: "", unit }}
            onInput={(typed) => onInput({ ...part, sizes: { ...part.sizes, [field]: typed } })}
            error={errors[`parts.${part.key}.${field}`]}
          />
        ))}
      </div>
      {onRemove ? (
        <Button tone="quiet" onClick={onRemove} label={`Remove shape ${number}`}>
          Remove
        </Button>
      ) : null}
    </fieldset>
  );
}

/** Lengths that mean the same under the new shape stay as typed. */
function kept(part: PartForm, shape: ShapeKey): PartForm["sizes"] {
  const fields = SHAPES[shape].sizes.map(([field]) => field);
  return Object.fromEntries(Object.entries(part.sizes).filter(([field]) => fields.includes(field)));
}
