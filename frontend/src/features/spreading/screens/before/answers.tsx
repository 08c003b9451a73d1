/** What a warning asks for before the job goes on. */
import { ChoiceField } from "../../../../ui/parts";

export const MISSING = "Answer this, wait, or skip these zones.";

const PHOSPHATE = [
  { value: "", label: "Neither" },
  { value: "soil_test", label: "A soil test from the last 3 years says so" },
  { value: "seeding", label: "I am seeding here" },
] as const;

interface WhyProps {
  given: string;
  set: (answer: string) => void;
  error: string | undefined;
}

export function WhyPhosphate({ given, set, error }: WhyProps) {
  return (
    <ChoiceField
      label="Why phosphate here?"
      value={given as (typeof PHOSPHATE)[number]["value"]}
      choices={PHOSPHATE}
      onInput={set}
      error={error}
    />
  );
}
