/** A count of what is in the shed, in words. */
import { mass } from "../../../format";
import { named } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import { joined, thingsOf, weight } from "../../../records/log/words";

export const stockCount: Words = {
  brief: ({ body }, system) =>
    joined([
      named(body["product_id"], "a product"),
      `${mass(body["left_kg"] ?? 0, system).text} in the shed`,
    ]),
  facts: ({ body }, system) => [
    ...thingsOf(body),
    ...weight(body["left_kg"], body["left_typed"], "In the shed", system),
  ],
  form: {
    title: "Count stock",
    save: "Save the count",
    saved: "Stock saved.",
    fields: {
      product_id: {
        first: {
          says: "No product in the shed yet",
          does: "Add a product first. Then you can count it.",
          href: "/shed/product/new",
          button: "Add a product",
        },
      },
      left_kg: {
        label: "In the shed now",
        hint: "All bags together. Estimate open bags. 0 if none is left.",
        missing: "Enter how much is left. 0 if none is.",
      },
    },
  },
};
