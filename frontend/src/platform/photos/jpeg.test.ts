import { describe, expect, it } from "vitest";
import { bare } from "./jpeg";

const text = (words: string) => [...new TextEncoder().encode(words)];
const segment = (marker: number, content: number[]) => [
  0xff,
  marker,
  (content.length + 2) >> 8,
  (content.length + 2) & 255,
  ...content,
];
const SOI = [0xff, 0xd8];
const EOI = [0xff, 0xd9];
const JFIF = segment(0xe0, [...text("JFIF\0"), 1, 1, 0, 0, 1, 0, 1, 0, 0]);
const COLOURS = segment(0xe2, text("ICC_PROFILE\0colours"));
const TABLE = segment(0xdb, [0, 1, 2, 3]);
const FRAME = segment(0xc0, [8, 0, 3, 0, 4, 1, 1, 17, 0]);
// Coded data with a stuffed 0xFF, two restart markers, a fill byte before the end, and bytes that look like notes.
const SCAN = [...segment(0xda, [1, 1, 0, 0, 63, 0]), 7, 0xff, 0, 0xe1, 0xff, 0xd0, 9, 0xff, 0xd7, 0xe1, 0, 4];
const NOTES = [
  segment(0xe1, text("Exif\0\0MM\0*GPS 41.6 N 93.6 W")),
  segment(0xe1, text("http://ns.adobe.com/xap/1.0/\0<place/>")),
  segment(0xe0, text("JFXX\0thumbnail")),
  segment(0xe0, [...text("JFIF\0"), 1, 1, 0, 0, 1, 0, 1, 1, 1, 9, 9, 9]),
  segment(0xe2, text("MPF\0another picture")),
  segment(0xed, text("Photoshop 3.0\0words")),
  segment(0xfe, text("a comment")),
];
const of = (...parts: number[][]) => Uint8Array.from(parts.flat());
const PLAIN = of(SOI, JFIF, COLOURS, TABLE, FRAME, SCAN, EOI);

describe("S19 a picture without its place", () => {
  it("loses every note beside the picture and keeps the picture byte for byte", () => {
    const noted = of(SOI, ...NOTES, JFIF, COLOURS, ...NOTES, TABLE, FRAME, SCAN, ...NOTES, SCAN, EOI);
    expect(bare(noted)).toEqual(of(SOI, JFIF, COLOURS, TABLE, FRAME, SCAN, SCAN, EOI));
    expect(bare(PLAIN)).toEqual(PLAIN);
  });

  it("loses what stands behind the picture", () => {
    expect(bare(of([...PLAIN], text("<script>")))).toEqual(PLAIN);
  });

  it("is refused where it breaks off, at whatever byte", () => {
    for (let length = 0; length < PLAIN.length; length += 1)
      expect(() => bare(PLAIN.slice(0, length)), String(length)).toThrow(TypeError);
  });

  it("is refused where it is no JPEG or its parts do not follow one another", () => {
    expect(() => bare(of(text("\u0089PNG")))).toThrow(/not a JPEG/);
    expect(() => bare(of(SOI, TABLE, [0], FRAME, SCAN, EOI))).toThrow(/damaged/);
    expect(() => bare(of(SOI, [0xff, 0xdb, 0, 1], FRAME, SCAN, EOI))).toThrow(/breaks off/);
  });
});
