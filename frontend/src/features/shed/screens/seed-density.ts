/** What seed weighs: the table's ranges as they stand. No single figure holds for seed, so none is offered. */
import table from "../../../../../fixtures/published/bulk_density.json";
import { density, range, type System } from "../../../format";

const SEED = table.rows.filter(({ product }) => product.endsWith(" seed"));

/** "Kentucky bluegrass seed 11–22 lb/ft³; …"; nothing for other sorts of product. */
export function saySeedDensity(sort: string, system: System): string | undefined {
  if (sort !== "seed") return undefined;
  const found = SEED.map(({ product, low_kg_m3, high_kg_m3 }) => {
    return `${product} ${range(density(low_kg_m3, system), density(high_kg_m3, system)).text}`;
  });
  return `Seed varies widely. From memory: ${found.join("; ")}. Weigh yours.`;
}
