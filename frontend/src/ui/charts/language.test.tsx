import { afterEach, describe, expect, it } from "vitest";
import { soundLanguage } from "./language";

const told = (value: string) => Object.defineProperty(navigator, "language", { value, configurable: true });
const own = navigator.language;

afterEach(() => void told(own));

describe("the language a browser names", () => {
  it("is one that numbers can be written in before the chart's code asks", () => {
    told("C");
    expect(() => new Intl.NumberFormat(navigator.language)).toThrow();
    soundLanguage();
    expect(() => new Intl.NumberFormat(navigator.language)).not.toThrow();
  });

  it("stays where it is sound", () => {
    told("de-AT");
    soundLanguage();
    expect(navigator.language).toBe("de-AT");
  });
});
