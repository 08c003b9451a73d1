/** The shopping list: bags, weight, cost and the day each is needed by; ticked off into the shed. */
import { useState } from "preact/hooks";
import { Link } from "wouter-preact";
import { count, dayMonth, mass, money, nitrogenPrice } from "../../../../format";
import { sayRefusal } from "../../../../forms/refusal";
import type { Value } from "../../../../platform/engine/types";
import { units } from "../../../../platform/session/session";
import { named } from "../../../../records/log/named";
import {
  Button,
  Empty,
  Figure,
  Notice,
  orUndo,
  Page,
  PlaceActions,
  type WorkingStep,
} from "../../../../ui/parts";
import { BuySheet } from "../../../shed";
import type { Listed } from "../../model/shopping";
import { shopping } from "../../model/shopping-live";
import "./style.css";

type List = Value<"season.shopping">;

export default function ShoppingPage() {
  const answer = shopping.list.value;
  const list = answer?.value;
  return (
    <Page title="Shopping list" back="/season" backLabel="Back to Season" actions={<PlaceActions />}>
      {answer?.error ? <Notice kind="bad">{sayRefusal(answer.error, units.value)}</Notice> : null}
      {!shopping.loaded.value ? (
        <p class="quiet">…</p>
      ) : !shopping.wanted.value ? (
        <Empty title="Nothing to buy" action={<Button href="/season">Go to Season</Button>}>
          <p>Steps of your plan that need a product show here.</p>
        </Empty>
      ) : list ? (
        <Lines list={list} working={answer.working ?? []} />
      ) : (
        <p class="quiet">…</p>
      )}
    </Page>
  );
}

function Lines({ list, working }: { list: List; working: readonly WorkingStep[] }) {
  const unpriced = list.unpriced.map((id) => named(id, "a product"));
  return (
    <div class="stack stack--wide shopping">
      {list.products.length ? (
        <ul class="lines" aria-label="To buy">
          {list.products.map((row) => (
            <Line key={row.id} row={row} working={working.filter(({ of }) => of === row.id)} />
          ))}
        </ul>
      ) : null}
      <Figure
        label="All bags"
        value={money(list.cost).text}
        note={unpriced.length ? `without ${unpriced.join(", ")}: no price yet` : undefined}
        working={working.filter(({ what }) => what === "Cost" || what === "Cost of the list")}
      />
      <Lacking list={list} />
      <Nitrogen list={list} />
      <div class="shopping__screen">
        <Button onClick={() => window.print()}>Print the list</Button>
      </div>
    </div>
  );
}

function Line({ row, working }: { row: Listed; working: readonly WorkingStep[] }) {
  const [open, setOpen] = useState(false);
  const system = units.value;
  const name = named(row.id, "a product");
  const bags = count(row.bags, "bag").text;
  const cost = row.cost === null ? [] : [money(row.cost).text];
  const by = row.by ? [`needed by ${dayMonth(row.by)}`] : [];
  const buy = () => orUndo(() => shopping.bought(row), `Bought ${bags}: ${name}.`);
  return (
    <li class="line shopping__line">
      <span class="shopping__box" aria-hidden="true" />
      <span class="line__main">
        <Link className="line__title" href={`/shed/product/${row.id}`}>
          {name}
        </Link>
        <span class="line__facts">
          {row.bags
            ? [mass(row.bags_kg, system).text, ...cost, ...by].join(" · ")
            : "All of it is in the shed."}
        </span>
        <span class="line__facts">{sayShed(row)}</span>
      </span>
      <Figure label="To buy" value={bags} working={working} />
      {row.bags ? (
        <span class="row">
          <Button onClick={buy} label={`Bought ${bags} of ${name}`}>
            Bought
          </Button>
          <Button tone="quiet" onClick={() => setOpen(true)} label={`Enter details of ${name}`}>
            Enter details
          </Button>
        </span>
      ) : null}
      <BuySheet open={open} onClose={() => setOpen(false)} id={row.id} bags={row.bags} />
    </li>
  );
}

/** What the steps take, and how much of it is there. */
function sayShed({ id, need_kg, shed_kg }: Listed): string {
  const need = `Steps need ${mass(need_kg, units.value).text}`;
  if (!shopping.counted(id)) return `${need}. Stock not counted.`;
  return shed_kg > 0
    ? `${need}, ${mass(shed_kg, units.value).text} from the shed.`
    : `${need}. None in the shed.`;
}

const LACKS: Record<List["lacking"][number]["lacks"], string> = {
  product: "its product is not in the shed",
  net_kg: "its product has no net weight",
  rate_kg_m2: "it has no rate",
  zones: "it has no zone",
  area_m2: "a zone is not measured",
};

function Lacking({ list }: { list: List }) {
  if (!list.lacking.length) return null;
  const why = [...new Set(list.lacking.map(({ lacks }) => LACKS[lacks]))];
  return (
    <Notice kind="warn" title={`${count(list.lacking.length, "step").text} not on the list`}>
      <p>Why: {why.join(", ")}.</p>
    </Notice>
  );
}

/** Nitrogen compared, the cheapest first: of one there is nothing to compare. */
function Nitrogen({ list }: { list: List }) {
  if (list.nitrogen.length < 2) return null;
  return (
    <section class="section" aria-labelledby="nitrogen-price">
      <h2 id="nitrogen-price">Price of nitrogen</h2>
      <ul class="lines">
        {list.nitrogen.map((one) => (
          <li class="line" key={one.id}>
            <span class="line__main">
              <span class="line__title">{named(one.id, "a product")}</span>
            </span>
            <span class="line__end">{nitrogenPrice(one.price_per_kg_n, units.value).text}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
