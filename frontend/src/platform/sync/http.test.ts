// @vitest-environment node
import { gunzipSync } from "node:zlib";
import { describe, expect, it, vi } from "vitest";
import { json } from "./fake/server";
import { request } from "./http";

const wire = (answer: () => Response | Promise<Response>) => {
  const fetch = vi.fn(async (_address: string | URL | Request, _init?: RequestInit) => answer());
  return { fetch, timeoutMs: 60_000 };
};

describe("a request", () => {
  it("is JSON to our own origin, with the session, never from a cache, never following a redirect", async () => {
    const fake = wire(() => json(200, {}));
    await request("POST", "accounts/sign-in", { email: "a" }, fake);
    const [address, init] = fake.fetch.mock.calls[0] ?? [];
    expect(address).toBe("/api/v1/accounts/sign-in");
    expect(init).toMatchObject({
      credentials: "same-origin",
      cache: "no-store",
      redirect: "manual",
      body: '{"email":"a"}',
    });
    expect(init?.headers).toMatchObject({ "Content-Type": "application/json" });
  });

  it("is gzipped above 2 kB and says so", async () => {
    const fake = wire(() => json(200, {}));
    const body = { text: "x".repeat(3000) };
    await request("POST", "households/h/sync", body, fake);
    const init = fake.fetch.mock.calls[0]?.[1];
    expect(init?.headers).toMatchObject({ "Content-Encoding": "gzip" });
    const text = gunzipSync(new Uint8Array(init?.body as ArrayBuffer)).toString();
    expect(JSON.parse(text)).toEqual(body);
  });

  it("gives the server's words for what is wrong, field by field", async () => {
    const said = {
      code: "invalid",
      message: "Some of it cannot be used.",
      fields: { email: "Not an address." },
    };
    expect(
      await request(
        "POST",
        "x",
        {},
        wire(() => json(400, said)),
      ),
    ).toEqual({ ok: false, status: 400, ...said });
  });

  it("reads Retry-After in seconds and as a date (F20)", async () => {
    const asked = async (value: string) => {
      const outcome = await request(
        "GET",
        "x",
        undefined,
        wire(() => json(503, {}, { "Retry-After": value })),
      );
      return outcome.ok ? undefined : outcome.retryAfterS;
    };
    expect(await asked("120")).toBe(120);
    const inAMinute = await asked(new Date(Date.now() + 60_000).toUTCString());
    expect(inAMinute).toBeGreaterThan(50);
    expect(inAMinute).toBeLessThanOrEqual(60);
    expect(await asked("soon")).toBeUndefined();
  });

  it("takes 204 for done", async () => {
    const outcome = await request(
      "POST",
      "accounts/sign-out",
      {},
      wire(() => new Response(null, { status: 204 })),
    );
    expect(outcome).toMatchObject({ ok: true, status: 204 });
  });
});
