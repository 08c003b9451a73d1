/** The way to the shopping list, with what it comes to. */
import { ChevronRight } from "lucide-preact";
import { Link } from "wouter-preact";
import { count, money } from "../../../../format";
import { shopping } from "../../model/shopping-live";

export function ShoppingWay() {
  if (!shopping.wanted.value) return null;
  const rows = shopping.list.value?.value?.products.filter(({ bags }) => bags > 0);
  const cost = shopping.list.value?.value?.cost;
  return (
    <section class="section" aria-labelledby="shopping">
      <h2 id="shopping">Shopping</h2>
      <ul class="lines">
        <li>
          <Link href="/season/shopping" className="line">
            <span class="line__main">
              <span class="line__title">Shopping list</span>
              <span class="line__facts">
                {!rows
                  ? "…"
                  : rows.length
                    ? `${count(rows.length, "product").text} to buy, ${money(cost ?? 0).text}`
                    : "All of it is in the shed"}
              </span>
            </span>
            <ChevronRight aria-hidden="true" size={20} />
          </Link>
        </li>
      </ul>
    </section>
  );
}
