/** Requests to the server: one answer shape, never an exception, never a redirect followed. */

export interface Failure {
  ok: false;
  /** HTTP status; 0 when no answer came (no network, time-out, captive portal). */
  status: number;
  code: string;
  message: string;
  fields?: Record<string, string>;
  retryAfterS?: number;
}

export type Outcome<V> = { ok: true; status: number; value: V } | Failure;

export interface Wire {
  fetch: typeof fetch;
  timeoutMs: number;
}

export const WIRE: Wire = { fetch: (...args) => globalThis.fetch(...args), timeoutMs: 30_000 };

const NO_ANSWER = "The server could not be reached. What you entered stays on this phone.";
const ODD_ANSWER = "Something other than the Evenfall server answered. What you entered stays on this phone.";

/** What came was no answer of ours. */
export const ODD: Failure = { ok: false, status: 0, code: "odd_answer", message: ODD_ANSWER };

/** One JSON request to /api/v1/<path>. Only a parsed JSON 2xx of our own origin counts as an answer. */
export async function request<V>(
  method: "GET" | "POST",
  path: string,
  body?: unknown,
  wire: Wire = WIRE,
): Promise<Outcome<V>> {
  try {
    const response = await wire.fetch(`/api/v1/${path}`, {
      method,
      ...(body === undefined ? {} : await encode(body)),
      credentials: "same-origin",
      cache: "no-store",
      redirect: "manual",
      signal: AbortSignal.timeout(wire.timeoutMs),
    });
    return await read<V>(response);
  } catch {
    return noAnswer();
  }
}

export const noAnswer = (): Failure => ({ ok: false, status: 0, code: "no_answer", message: NO_ANSWER });

const GZIP_ABOVE_BYTES = 2048;

/** JSON, gzipped above 2 kB where the browser can. */
async function encode(body: unknown): Promise<{ headers: Record<string, string>; body: BodyInit }> {
  const text = JSON.stringify(body);
  const headers = { "Content-Type": "application/json", Accept: "application/json" };
  if (text.length <= GZIP_ABOVE_BYTES || typeof CompressionStream === "undefined")
    return { headers, body: text };
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream("gzip"));
  const bytes = await new Response(stream).arrayBuffer();
  return { headers: { ...headers, "Content-Encoding": "gzip" }, body: bytes };
}

/** What an answer says: a parsed JSON 2xx, or why it is none. */
export async function read<V>(response: Response): Promise<Outcome<V>> {
  const { status } = response;
  const json = await parsed(response);
  if (status === 204) return { ok: true, status, value: undefined as V };
  if (status >= 200 && status < 300 && json !== undefined) return { ok: true, status, value: json as V };
  if (status === 0 || (status >= 200 && status < 400)) {
    return ODD;
  }
  return { ...refusal(status, json), ...retryAfter(response) };
}

/** The body when it is JSON and says so; a portal's HTML is nothing. Lines of JSON become a list. */
async function parsed(response: Response): Promise<unknown> {
  const type = response.headers.get("Content-Type") ?? "";
  if (!type.includes("json")) return undefined;
  if (!type.includes("ndjson")) return response.json();
  const lines = (await response.text()).split("\n").filter((line) => line !== "");
  return lines.map((line) => JSON.parse(line) as unknown);
}

function refusal(status: number, json: unknown): Failure {
  const said = (typeof json === "object" && json !== null ? json : {}) as Partial<Failure>;
  const message = said.message ?? `The server answered ${status}. What you entered stays on this phone.`;
  const failure: Failure = { ok: false, status, code: said.code ?? `http_${status}`, message };
  return said.fields ? { ...failure, fields: said.fields } : failure;
}

/** Retry-After in seconds, whether it came as seconds or as a date. */
function retryAfter(response: Response): { retryAfterS?: number } {
  const said = response.headers.get("Retry-After");
  if (!said) return {};
  const seconds = /^\d+$/.test(said) ? Number(said) : (Date.parse(said) - Date.now()) / 1000;
  return Number.isFinite(seconds) && seconds > 0 ? { retryAfterS: seconds } : {};
}
