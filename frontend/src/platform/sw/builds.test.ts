import { describe, expect, it } from "vitest";
import { buildsKept, toForget } from "./builds";

const at = (path: string) => `https://book.example${path}`;
const build = (n: number) => [at(`/assets/first-${n}.js`), at(`/assets/shed-${n}.js`)];
const shell = (n: number) => at(`/?__WB_REVISION__=${n}`);

describe("S18 hashed assets of three builds stay", () => {
  it("the present one's and the two before, newest first", () => {
    let noted: readonly string[][] = [];
    for (const n of [1, 2, 3, 4]) noted = buildsKept([shell(n), ...build(n)], noted, []);
    expect(noted).toEqual([build(4), build(3), build(2)]);
  });

  it("a build that becomes active again (F43: the server was rolled back) does not count twice", () => {
    const noted = [build(3), build(2)];
    expect(buildsKept(build(2), noted, [])).toEqual([build(2), build(3)]);
    expect(buildsKept(build(3), noted, [])).toEqual([build(3), build(2)]);
  });

  it("what a build that noted nothing had cached counts as the one before", () => {
    const cached = [shell(1), ...build(1), ...build(2)];
    expect(buildsKept(build(2), [], cached)).toEqual([build(2), build(1)]);
  });

  it("older ones go, and shells and icons of all but the present build", () => {
    const cached = [shell(1), shell(4), ...[1, 2, 3, 4].flatMap(build)];
    const kept = [build(4), build(3), build(2)];
    expect(toForget(cached, [shell(4), ...build(4)], kept)).toEqual([shell(1), ...build(1)]);
  });
});
