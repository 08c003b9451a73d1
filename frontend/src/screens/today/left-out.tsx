import type { Sick } from "../../models/sick";
import { Button, Notice } from "../../parts";

const WHAT: Record<string, string> = {
  zone: "Zone",
  product: "Product",
  spreader: "Spreader",
  entry: "Entry",
};
const WHERE: Record<string, (id: string) => string> = {
  zone: (id) => `/ground/${id}`,
  product: (id) => `/shed/product/${id}`,
  spreader: (id) => `/shed/spreader/${id}`,
  entry: (id) => `/log/${id}`,
};

/** Records that cannot be used as they are: what is wrong with each, and the way to it. Everything else counts. */
export function LeftOut({ records }: { records: readonly Sick[] }) {
  if (!records.length) return null;
  return (
    <Notice kind="warn" title="Not counted yet">
      <ul class="stack stack--tight">
        {records.map(({ t, id, name, fields }) => (
          <li key={`${t}:${id}`}>
            {WHAT[t] ?? t} {name.replaceAll("_", " ")}: {fields.join(", ")} can’t be used.{" "}
            <Button href={WHERE[t]?.(id) ?? "/log"}>Open it</Button>
          </li>
        ))}
      </ul>
    </Notice>
  );
}
