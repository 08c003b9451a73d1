/** Bags that came into the shed, in words. */
import { mass, money } from "../../../format";
import type { Entry } from "../../../records/entries";
import { named } from "../../../records/log/named";
import type { Words } from "../../../records/log/registry";
import { joined, thingsOf, weight, words } from "../../../records/log/words";

const FOR = { each: "Each bag", all: "All of it" };

type Body = Entry["body"];

const bagsOf = ({ bags }: Body): string | undefined =>
  typeof bags === "number" ? `${bags} ${bags === 1 ? "bag" : "bags"}` : undefined;

/** As it was paid: each bag, or all of it. */
const paid = ({ price, price_for }: Body): string | undefined =>
  typeof price === "number" ? `${money(price).text}${price_for === "each" ? " each" : ""}` : undefined;

export const bought: Words = {
  brief: ({ body }, system) =>
    joined([
      named(body["product_id"], "a product"),
      bagsOf(body) ?? (typeof body["bought_kg"] === "number" ? mass(body["bought_kg"], system).text : ""),
      paid(body) ?? "",
    ]),
  facts: ({ body }, system) => [
    ...thingsOf(body),
    ...words(bagsOf(body), "Bags"),
    ...weight(body["net_kg"], body["net_typed"], "Net weight of a bag", system),
    ...weight(body["bought_kg"], body["bought_typed"], "Weight", system),
    ...words(paid(body), "Price paid"),
    ...words(body["where"], "Where"),
  ],
  form: {
    title: "Add what you bought",
    save: "Save it",
    saved: "Added to the shed.",
    fields: {
      bags: { label: "Bags", hint: "Whole bags of this product." },
      bought_kg: { label: "Or its weight", hint: "For loose product. It counts instead of the bags." },
      price: { label: "Price paid" },
      price_for: { label: "The price is for", choices: FOR },
      where: { label: "Where" },
      occurred_at: { label: "When" },
      note: { label: "Note", lines: true },
    },
    again: ["price_for", "where"],
  },
};
