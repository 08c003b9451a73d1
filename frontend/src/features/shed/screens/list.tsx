import { Plus } from "lucide-preact";
import { Link } from "wouter-preact";
import { area, mass, showTyped } from "../../../format";
import { units } from "../../../platform/session/session";
import { type Product, type Spreader, sortAndAnalysis, writeDial } from "../../../records/products";
import { Button, Empty, Page, PlaceActions } from "../../../ui/parts";
import { Mowers } from "../../mowing";
import { shed } from "../model";

export function ShedPage() {
  const { products, spreaders, loaded } = shed;
  return (
    <Page title="Shed" actions={<PlaceActions />}>
      <section class="section" aria-labelledby="products">
        <div class="shed__head">
          <h2 id="products">Products</h2>
          <Button href="/shed/product/new">
            <Plus aria-hidden="true" size={20} />
            Add a product
          </Button>
        </div>
        {products.value.length ? (
          <ul class="lines">
            {products.value.map((product) => (
              <ProductLine key={product.id} product={product} />
            ))}
          </ul>
        ) : loaded.value ? (
          <Empty title="No product yet">
            <p>
              Copy three things from a bag: net weight, coverage, the three numbers. You then see bags, rate
              and cost for each zone.
            </p>
          </Empty>
        ) : null}
      </section>
      <section class="section" aria-labelledby="spreaders">
        <div class="shed__head">
          <h2 id="spreaders">Spreaders</h2>
          <Button href="/shed/spreader/new">
            <Plus aria-hidden="true" size={20} />
            Add a spreader
          </Button>
        </div>
        {spreaders.value.length ? (
          <ul class="lines">
            {spreaders.value.map((spreader) => (
              <SpreaderLine key={spreader.id} spreader={spreader} />
            ))}
          </ul>
        ) : loaded.value ? (
          <Empty title="No spreader yet">
            <p>You need three numbers from its dial: lowest, highest and one click.</p>
          </Empty>
        ) : null}
      </section>
      <Mowers />
    </Page>
  );
}

/** Net weight as typed, what one bag covers, what is left by the last count. */
function ProductLine({ product }: { product: Product }) {
  const left = shed.leftKg(product.id);
  const net = product.net_typed ? showTyped(product.net_typed) : mass(product.net_kg, units.value).text;
  const covers = product.coverage_typed
    ? showTyped(product.coverage_typed)
    : product.coverage_m2 && area(product.coverage_m2, units.value).text;
  return (
    <li>
      <Link class="line" href={`/shed/product/${product.id}`}>
        <span class="line__main">
          <span class="line__title">{product.name}</span>
          <span class="line__facts">
            <SortOf product={product} /> · {net}
            {covers ? ` covers ${covers}` : ""}
          </span>
        </span>
        <span class="line__end">
          {left === undefined ? null : left === null ? (
            <span class="quiet small">not counted</span>
          ) : (
            `${mass(left, units.value).text} left`
          )}
        </span>
      </Link>
    </li>
  );
}

/** The three numbers stay together on one line. */
function SortOf({ product }: { product: Product }) {
  const [sort, numbers] = sortAndAnalysis(product);
  return (
    <>
      {sort}
      {numbers ? <span class="unbroken"> {numbers}</span> : null}
    </>
  );
}

function SpreaderLine({ spreader }: { spreader: Spreader }) {
  const { lowest, highest, step } = spreader.dial;
  const write = (n: number) => writeDial(n, step);
  return (
    <li>
      <Link class="line" href={`/shed/spreader/${spreader.id}`}>
        <span class="line__main">
          <span class="line__title">{spreader.name}</span>
          <span class="line__facts">
            {spreader.sort === "drop" ? "Drop" : "Rotary"} · dial {write(lowest)} to {write(highest)} by{" "}
            {write(step)}
          </span>
        </span>
      </Link>
    </li>
  );
}
