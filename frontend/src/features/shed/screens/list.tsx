import { Link } from "wouter-preact";
import { area, mass, showTyped } from "../../../format";
import { units } from "../../../platform/session/session";
import { type Product, type Spreader, sortAndAnalysis, writeDial } from "../../../records/products";
import { ListSection, Page, PlaceActions } from "../../../ui/parts";
import { Mowers } from "../../mowing";
import { shed } from "../model";

export function ShedPage() {
  const { products, spreaders, loaded } = shed;
  return (
    <Page title="Shed" actions={<PlaceActions />}>
      <ListSection
        id="products"
        title="Products"
        add={["/shed/product/new", "Add a product"]}
        rows={products.value}
        loaded={loaded.value}
        none={[
          "No product yet",
          "Copy three things from a bag: net weight, coverage, the three numbers. You then see bags, rate and cost for each zone.",
        ]}
      >
        {(product) => <ProductLine key={product.id} product={product} />}
      </ListSection>
      <ListSection
        id="spreaders"
        title="Spreaders"
        add={["/shed/spreader/new", "Add a spreader"]}
        rows={spreaders.value}
        loaded={loaded.value}
        none={["No spreader yet", "You need three numbers from its dial: lowest, highest and one click."]}
      >
        {(spreader) => <SpreaderLine key={spreader.id} spreader={spreader} />}
      </ListSection>
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
