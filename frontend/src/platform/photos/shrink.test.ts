import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Drawable, FULL, fitted, made, THUMB } from "./shrink";

/** A picture whose JPEG takes so many bytes a pixel at full quality, fewer in proportion below. */
function busy(width: number, height: number, bytesPerPx: number): Drawable & { drawn: string[] } {
  const drawn: string[] = [];
  return {
    width,
    height,
    drawn,
    async jpeg(size, quality) {
      drawn.push(`${size.width}x${size.height}@${quality}`);
      return new Uint8Array(Math.ceil(size.width * size.height * bytesPerPx * quality));
    },
  };
}

describe("S19 small enough", () => {
  it("keeps the sides within 1,600 px in their proportion, and enlarges nothing", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20_000 }),
        fc.integer({ min: 1, max: 20_000 }),
        (width, height) => {
          const size = fitted({ width, height }, 1600);
          expect(Math.max(size.width, size.height)).toBeLessThanOrEqual(1600);
          expect(Math.min(size.width, size.height)).toBeGreaterThanOrEqual(1);
          expect(size.width).toBeLessThanOrEqual(width);
          expect(size.height).toBeLessThanOrEqual(height);
          const share = Math.max(size.width, size.height) / Math.max(width, height);
          expect(
            Math.abs(Math.min(size.width, size.height) - Math.min(width, height) * share),
          ).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it("takes the first quality that fits, and a smaller size only after the last", async () => {
    const plain = busy(3200, 2400, 0.1);
    expect(await made(plain, FULL)).toMatchObject({ width: 1600, height: 1200 });
    expect(plain.drawn).toEqual(["1600x1200@0.85"]);
    const noisy = busy(3200, 2400, 2);
    expect(await made(noisy, FULL)).toMatchObject({ width: 1200, height: 900 });
    expect(noisy.drawn.at(-1)).toBe("1200x900@0.55");
  });

  it("makes a thumbnail of at most 8 kB of any picture, and a record of at most 11,000 letters", async () => {
    for (const bytesPerPx of [0.05, 0.3, 1, 3, 20]) {
      const { bytes } = await made(busy(4000, 3000, bytesPerPx), THUMB);
      expect(bytes.length).toBeLessThanOrEqual(8192);
      expect(Math.ceil(bytes.length / 3) * 4).toBeLessThanOrEqual(11_000);
    }
  });

  it("says so where nothing fits", async () => {
    await expect(made(busy(40, 30, 1e6), FULL)).rejects.toThrow(RangeError);
  });
});
