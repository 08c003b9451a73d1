import { Check } from "lucide-preact";
import { today } from "../../models";
import { Button, Empty } from "../../parts";

interface Step {
  done: boolean;
  says: string;
  action: string;
  href: string;
}

/** The way from a blank book to the first walk; gone once it has been gone. */
export function FirstSteps() {
  const steps: Step[] = [
    {
      done: today.zones.value.length > 0,
      says: "Measure the first zone",
      action: "Measure a zone",
      href: "/ground/new",
    },
    {
      done: today.products.value.length > 0,
      says: "Read a label into the shed",
      action: "Add a product",
      href: "/shed/product/new",
    },
    {
      done: today.spreaders.value.length > 0,
      says: "Describe the spreader and its dial",
      action: "Add a spreader",
      href: "/shed/spreader/new",
    },
  ];
  const next = steps.find((step) => !step.done);
  if (!next) return null;
  const blank = steps.every((step) => !step.done);
  return (
    <Empty
      title={blank ? "A blank book" : "Before the first walk"}
      action={
        <Button tone="signal" href={next.href}>
          {next.action}
        </Button>
      }
    >
      {blank ? (
        <p>Three things make the numbers work: the ground, a label, a spreader. Start with the ground.</p>
      ) : null}
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
