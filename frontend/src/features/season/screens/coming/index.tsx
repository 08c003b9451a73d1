/** What is next by the plan: when, where, with what, and what speaks against it. */
import { useState } from "preact/hooks";
import { useLocation } from "wouter-preact";
import { date, rate } from "../../../../format";
import { sayRefusal } from "../../../../forms/refusal";
import { today as day } from "../../../../platform/session/clock";
import { units } from "../../../../platform/session/session";
import type { Breach } from "../../../../records/limits/check";
import { breachFigures, breachSource, breachTitle } from "../../../../records/limits/say";
import { sayZones } from "../../../../records/log/named";
import { Button, Notice, orSay, Sheet, Working } from "../../../../ui/parts";
import { beginStep } from "../../../spreading";
import { coming, products, steps } from "../../model";
import type { ComingStep } from "../../model/coming/coming";
import { sayJob } from "../jobs";

export function Coming() {
  const found = coming.value;
  const next = steps.value;
  if (!next.length) return null;
  return (
    <section class="section" aria-labelledby="coming">
      <h2 id="coming">Coming up</h2>
      {found?.error ? <Notice kind="bad">{sayRefusal(found.error, units.value)}</Notice> : null}
      <ul class="lines">
        {next.map((step) => (
          <Step key={step.id} step={step} broken={found?.value?.get(step.id) ?? []} />
        ))}
      </ul>
      <Why />
    </section>
  );
}

const productName = (id: string | undefined): string | undefined =>
  products.value.find((one) => one.id === id)?.name;

function sayWhen({ from, to }: ComingStep): string {
  if (to < day()) return `Overdue since ${date(to)}`;
  return from === to ? date(from) : `${date(from)} to ${date(to)}`;
}

const SPREADS = ["feed", "pre_emergent", "lime", "overseed"];

function Step({ step, broken }: { step: ComingStep; broken: readonly Breach[] }) {
  const [, go] = useLocation();
  const { id, title, job, zoneIds, productId, rate_kg_m2 } = step;
  const name = sayJob({ job, title });
  const with_ = [productName(productId), rate_kg_m2 && rate(rate_kg_m2, units.value).text].filter(Boolean);
  async function start(): Promise<void> {
    if (productId && (await orSay(() => beginStep({ id, zoneIds, productId })))) go("/spread");
  }
  return (
    <li class="line">
      <div class="line__main">
        <span class="line__title">{name}</span>
        <span>{sayWhen(step)}</span>
        {zoneIds.length ? <span class="line__facts">{sayZones(zoneIds)}</span> : null}
        {with_.length ? <span class="line__facts">{with_.join(", ")}</span> : null}
        <Against broken={broken} />
        {productId && SPREADS.includes(job) ? (
          <div class="row">
            <Button label={`Start the job of ${date(step.from)}`} onClick={start}>
              Start
            </Button>
          </div>
        ) : null}
      </div>
    </li>
  );
}

/** Each rule once, with what is allowed and who says so. */
function Against({ broken }: { broken: readonly Breach[] }) {
  const kinds = [...new Set(broken.map(({ kind }) => kind))];
  return (
    <>
      {kinds.map((kind) => {
        const one = broken.find((each) => each.kind === kind);
        if (!one) return null;
        return (
          <Notice key={kind} kind="warn" title={breachTitle(kind)}>
            <p>{one.says}</p>
            {one.right_from ? <p>Right from {date(one.right_from)}.</p> : null}
            <p>{[breachFigures(one, units.value), breachSource(one)].filter(Boolean).join(" ")}</p>
          </Notice>
        );
      })}
    </>
  );
}

function Why() {
  const [open, setOpen] = useState(false);
  const working = coming.value?.working ?? [];
  if (!working.length) return null;
  return (
    <div>
      <Button tone="quiet" onClick={() => setOpen(true)}>
        How the rules are checked
      </Button>
      <Sheet open={open} onClose={() => setOpen(false)} title="How the rules are checked">
        <Working steps={working} />
      </Sheet>
    </div>
  );
}
