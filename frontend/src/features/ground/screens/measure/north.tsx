import { CheckField, Field } from "../../../../ui/parts";

interface NorthFieldProps {
  /** Degrees clockwise from up; null where north is not known. */
  north: number | null;
  onInput: (north: number | null) => void;
}

/** The north mark, turned by hand; it may be left out. */
export function NorthField({ north, onInput }: NorthFieldProps) {
  return (
    <div class="stack stack--tight">
      <CheckField
        label="Show where north is"
        checked={north !== null}
        onInput={(known) => onInput(known ? 0 : null)}
      />
      {north === null ? null : (
        <Field
          label="Turn the north mark"
          hint={`${north}° clockwise from up. The mark is in the corner of the drawing.`}
        >
          {(wiring) => (
            <input
              {...wiring}
              class="turn"
              type="range"
              min={0}
              max={359}
              step={1}
              value={north}
              onInput={(event) => onInput(Number(event.currentTarget.value))}
            />
          )}
        </Field>
      )}
    </div>
  );
}
