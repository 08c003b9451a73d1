/**
 * Bare numbers as people write them, read without waking the engine. The same grammar as the engine's
 * (lawn/engine/units/number.py), which reads all that has a unit; both are held to fixtures/units_vectors.json.
 */

export const ALLOWED = "Enter a number such as 12, 5,000, 0.5 or 1 1/2.";

export type NumberCode = "empty" | "not_a_number" | "grouping" | "comma" | "point" | "zero_division";
export type NumberRead = { ok: true; value: number } | { ok: false; code: NumberCode; message: string };

const SPACES = /[\s\u00a0\u2007\u2009\u202f]+/g;
const VULGAR: Record<string, string> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

const MIXED = /^(\d+)[ -](\d+)\/(\d+)$/;
const FRACTION = /^(\d+)\/(\d+)$/;
const PLAIN = /^(?:\d+\.?\d*|\.\d+)$/;
const EITHER = /^[1-9]\d{0,2}\.\d\d0$/;
const GROUPED = /^(?:[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?|[1-9]\d{0,2}(?: \d{3})+(?:\.\d+)?)$/;
const COMMA = /^(?:\d+|[1-9]\d{0,2}(?: \d{3})+),\d+$/;

/** One kind of space, one kind of minus, printed fractions spelled out. */
export function tidy(text: string): string {
  return text
    .replace(/[½¼¾⅓⅔⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`)
    .replace(/\u2212/g, "-")
    .replace(/\u2044/g, "/")
    .replace(SPACES, " ")
    .trim();
}

/**
 * The number written in `text`. `comma`: a decimal comma is usual here (metric units). A comma before
 * exactly three digits always groups thousands, except after a lone zero ("0,500"). There a point before three
 * digits that end in 0 ("1.000") can mean either, and is refused.
 */
export function readNumber(text: string, comma = false): NumberRead {
  const written = tidy(text);
  if (written === "") return bad("empty", `Nothing is written here. ${ALLOWED}`);
  const negative = written.startsWith("-");
  const read = unsigned(written.replace(/^[+-]/, "").trim(), text, comma);
  return read.ok && negative ? { ok: true, value: -read.value } : read;
}

function unsigned(body: string, text: string, comma: boolean): NumberRead {
  const mixed = MIXED.exec(body);
  if (mixed) return ratio(Number(mixed[1]), Number(mixed[2]), Number(mixed[3]), text);
  const fraction = FRACTION.exec(body);
  if (fraction) return ratio(0, Number(fraction[1]), Number(fraction[2]), text);
  if (comma && EITHER.test(body)) return eitherWay(body, text);
  if (PLAIN.test(body)) return { ok: true, value: Number(body) };
  if (GROUPED.test(body)) return { ok: true, value: Number(body.replace(/[, ]/g, "")) };
  if (COMMA.test(body)) return decimalComma(body, text, comma);
  return unreadable(body, text);
}

function ratio(whole: number, top: number, bottom: number, text: string): NumberRead {
  if (bottom === 0) return bad("zero_division", `“${text}” divides by zero. ${ALLOWED}`);
  return { ok: true, value: (whole * bottom + top) / bottom };
}

function decimalComma(body: string, text: string, comma: boolean): NumberRead {
  const [whole = "", decimals = ""] = body.split(",");
  if (/^0+$/.test(whole) || (comma && decimals.length !== 3)) {
    return { ok: true, value: Number(`${whole.replace(/ /g, "")}.${decimals}`) };
  }
  return bad(
    "comma",
    `“${text}” can be read two ways. Enter decimals with a point (22.7) and thousands as 5,000.`,
  );
}

function eitherWay(body: string, text: string): NumberRead {
  const small = body.replace(/\.?0+$/, "");
  return bad("point", `“${text}” can be read two ways. Enter ${small} or ${body.replace(".", ",")}.`);
}

function unreadable(body: string, text: string): NumberRead {
  if (/^[\d., ]+$/.test(body)) {
    return bad("grouping", `“${text}” is grouped in a way that cannot be read. ${ALLOWED}`);
  }
  return bad("not_a_number", `“${text}” is not a number. ${ALLOWED}`);
}

function bad(code: NumberCode, message: string): NumberRead {
  return { ok: false, code, message };
}
