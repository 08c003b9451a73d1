import { Check } from "lucide-preact";
import type { Has } from "../../../records/look";
import { Button, Empty } from "../../../ui/parts";

interface Step {
  done: boolean;
  says: string;
  action: string;
  href: string;
}

/** The way from a blank book to the first job; gone once it has been gone. */
export function FirstSteps({ has }: { has: Has }) {
  const steps: Step[] = [
    {
      done: has.zones,
      says: "Measure a zone",
      action: "Measure a zone",
      href: "/ground/new",
    },
    {
      done: has.products,
      says: "Add a bag from its label",
      action: "Add a product",
      href: "/shed/product/new",
    },
    {
      done: has.spreaders,
      says: "Add your spreader",
      action: "Add a spreader",
      href: "/shed/spreader/new",
    },
  ];
  const next = steps.find((step) => !step.done);
  if (!next) return null;
  const blank = steps.every((step) => !step.done);
  return (
    <Empty
      title={blank ? "Set up in 3 steps" : "Before you spread"}
      action={
        <Button tone="signal" href={next.href}>
          {next.action}
        </Button>
      }
    >
      {blank ? <p>Measure a zone, add a bag, add your spreader. Then the app works out the rest.</p> : null}
      <ol class="stack stack--tight">
        {steps.map((step, at) => (
          <li key={step.href} class="step">
            {step.done ? <Check aria-hidden="true" size={20} /> : <span class="num">{at + 1}.</span>}
            <span class={step.done ? "quiet" : step === next ? "line__title" : undefined}>{step.says}</span>
            {step.done ? <span class="sr">done</span> : null}
          </li>
        ))}
      </ol>
    </Empty>
  );
}
