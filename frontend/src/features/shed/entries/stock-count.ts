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
};
