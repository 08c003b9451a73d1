import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonical, plainCopy } from "./canonical";
import { sha256Hex } from "./sha256";
import { newId, uuid7 } from "./uuid7";

describe("S5 ids", () => {
  it("equals the worked example of RFC 9562, appendix A.6", () => {
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(uuid7(0x017f22e279b0, random)).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  });

  it("carries its moment, whatever the random part", () => {
    const moment = fc.integer({ min: 0, max: 2 ** 48 - 1 });
    const random = fc.uint8Array({ minLength: 10, maxLength: 10 });
    fc.assert(
      fc.property(moment, random, (ms, bytes) => {
        const id = uuid7(ms, bytes);
        expect(Number.parseInt(id.replaceAll("-", "").slice(0, 12), 16)).toBe(ms);
        expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
      }),
    );
  });

  it("does not repeat", () => {
    const ids = Array.from({ length: 5000 }, newId);
    expect(new Set(ids).size).toBe(5000);
  });
});

describe("content hash", () => {
  it("equals the printed SHA-256 examples (NIST, FIPS 180-4 examples, one and two blocks)", () => {
    expect(sha256Hex("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(sha256Hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    );
  });

  it("agrees with OpenSSL on any text", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), (text) => {
        expect(sha256Hex(text)).toBe(createHash("sha256").update(text, "utf8").digest("hex"));
      }),
    );
  });
});

describe("canonical JSON", () => {
  it("does not depend on the order in which members were written", () => {
    expect(canonical({ b: [1, { d: null, c: "x" }], a: 0.1 })).toBe('{"a":0.1,"b":[1,{"c":"x","d":null}]}');
  });

  it("says the same as what it was made from", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(JSON.parse(canonical(value))).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
  });

  it("refuses what JSON would silently change", () => {
    expect(() => plainCopy({ a: [1, Number.NaN] }, "m")).toThrow("m.a[1] is not a number");
    expect(() => plainCopy({ a: Number.POSITIVE_INFINITY }, "m")).toThrow("m.a is not a number");
  });

  it("drops members that are undefined, as JSON does", () => {
    expect(plainCopy({ a: undefined, b: 1 })).toEqual({ b: 1 });
  });
});
