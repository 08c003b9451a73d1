/**
 * Who holds this phone. The session is remembered on the phone, so that the app opens offline and
 * an expired cookie never shuts anyone out of their own book (S21). The store opened is the one of
 * this person and this household.
 */
import { batch, computed, effect, type ReadonlySignal, signal } from "@preact/signals";
import type { components } from "../api";
import { chooseBookFor, closeBook, loaded, openBookFor, row, save, standing } from "../store";
import { type Outcome, request } from "../sync/http";
import { keepForGood, recall, recallKept, recallSurely, remember } from "./memory";

type Schemas = components["schemas"];
export type Person = Schemas["PersonOut"];
export type Membership = Schemas["MyHouseholdOut"];
export type Me = Schemas["MeOut"];
export type SignUp = Schemas["SignUpInRequest"];
export type Join = Schemas["JoinInRequest"];
export type Units = Schemas["UnitsEnum"];

export interface Session {
  person: Person;
  household: { id: string; name: string };
  member_id: string;
  role: "keeper" | "member";
  /** All households of the person; the present one among them. */
  households: Membership[];
}

/** As remembered: who, or nobody since a sign-out, and when that was written (ms since 1970). */
interface Kept {
  session: Session | null;
  at: number;
}

const KEY = "evenfall.session";
const SIGN_OUT_KEY = "evenfall.sign-out-owed";
const LEFT_KEY = "evenfall.left";
/** When somebody signed out here last: what the database still holds from before is nobody's. */
const SIGNED_OUT_KEY = "evenfall.signed-out";

/** What somebody who signed out on this phone left in their book here, unsent. */
export interface Left {
  person: string;
  name: string;
  entries: number;
  photos: number;
}

const current = signal<Session | null>(null);
export const session: ReadonlySignal<Session | null> = current;

/** True once the server said that this person is no longer in the household of the open book (S22). */
export const former: ReadonlySignal<boolean> = computed(() => {
  const now = current.value;
  return now !== null && !now.households.some((household) => household.id === now.household.id);
});

/** What of the phone's storage did not let go of who signed out: local storage, the database, or both. */
export type Uncleared = "memory" | "database";
const unclearedNow = signal<readonly Uncleared[]>([]);
export const uncleared: ReadonlySignal<readonly Uncleared[]> = unclearedNow;

const signedInTimes = signal(0);
/** Counts sign-ins, so that what waited for one goes on at once. */
export const signIns: ReadonlySignal<number> = signedInTimes;

const lookingNow = signal(false);
/** True while nobody is remembered at once, and it is being looked up whether somebody is. */
export const looking: ReadonlySignal<boolean> = lookingNow;

const longNow = signal(false);
/** True once that takes longer than anybody waits for without a word. The door is not shown for it: storage is only slow. */
export const lookingLong: ReadonlySignal<boolean> = longNow;

/** The person would rather sign in than wait. What is found later still counts, unless somebody has signed in by then. */
export function stopLooking(): void {
  batch(() => {
    lookingNow.value = false;
    longNow.value = false;
  });
}

/** At start: the remembered session chooses its book, network or none; `openChosen` opens it after the first paint. */
export function startSession(): void {
  const kept = recalled();
  if (kept) enter(kept.session, kept.at, chooseBookFor);
  else void lookUp();
}

/** For what is drawn in advance (`app/frames`): who is remembered, read anew with all that hangs on it; opens nothing. */
export function recallSession(): void {
  const kept = recalled();
  current.value = kept ? { ...kept.session } : null;
}

function recalled(): (Kept & { session: Session }) | undefined {
  return readable(recall(KEY));
}

function readable(kept: unknown): (Kept & { session: Session }) | undefined {
  const { session: who, at } = (kept ?? {}) as Partial<Kept>;
  return who?.person?.id && who.household?.id ? { session: who, at: at ?? 0 } : undefined;
}

/** A database that refused to be told of a sign-out still names who was here before it. */
const isEnded = ({ at }: Kept): boolean => Number(recall(SIGNED_OUT_KEY) ?? Number.NEGATIVE_INFINITY) >= at;

/** Local storage forgets what a killed browser had not yet written; then the database knows. */
async function lookUp(): Promise<void> {
  lookingNow.value = true;
  const before = signedInTimes.value;
  const late = () => {
    longNow.value = lookingNow.value;
  };
  const kept = readable(await recallSurely(KEY, late));
  batch(() => {
    const mayEnter = kept && !isEnded(kept) && !current.value && signedInTimes.value === before;
    if (mayEnter) enter(kept.session, kept.at);
    stopLooking();
  });
}

/** After the first paint: a sign-out that local storage had not yet written when the browser was killed still counts. */
export async function heedSignOut(): Promise<void> {
  const kept = (await recallKept(KEY)) as Kept | undefined;
  const mine = recalled();
  if (!current.value || !mine || !kept || kept.session || kept.at <= mine.at) return;
  leave();
  oweSignOut(true);
}

export async function signIn(email: string, password: string): Promise<Outcome<Me>> {
  return admitted(await request<Me>("POST", "accounts/sign-in", { email, password }));
}

export async function signUp(details: SignUp): Promise<Outcome<Me>> {
  return admitted(await request<Me>("POST", "accounts/sign-up", details));
}

/** Joins a household by invitation: as a new person, or as the one already signed in. */
export async function join(details: Join): Promise<Outcome<Me>> {
  const before = new Set(current.value?.households.map((household) => household.id));
  const outcome = await request<Me>("POST", "accounts/join", details);
  const joined = outcome.ok
    ? outcome.value.households.find((household) => !before.has(household.id))
    : undefined;
  return admitted(outcome, joined?.id);
}

/**
 * Signs out. What waits in the outbox stays on the phone and is sent after the next sign-in of the
 * same person (S21); a screen asks first when `standing.waiting` is not 0. Works offline: the
 * server is told as soon as it can be reached. Storage that is gone or refuses ends nothing of it;
 * `uncleared` tells what did not let go.
 */
export async function signOut(): Promise<void> {
  // Later than the sign-in it ends, whatever the clock did meanwhile.
  const at = Math.max(Date.now(), (recalled()?.at ?? 0) + 1);
  noteLeft();
  const memory = leave() && remember(SIGNED_OUT_KEY, at);
  oweSignOut(true);
  const database = await keepForGood(KEY, { session: null, at } satisfies Kept);
  unclearedNow.value = [...(memory ? [] : ["memory" as const]), ...(database ? [] : ["database" as const])];
  await settleSignOut();
}

/** What local storage could not keep is owed as long as the app is open. Only then: another tab may sign in meanwhile. */
let owed = false;

function oweSignOut(owing: boolean): void {
  const kept = remember(SIGN_OUT_KEY, owing ? true : undefined);
  owed = owing && !kept;
}

/** Who else has something unsent on this phone: said at the entrance, so that nobody forgets it. */
export function leftHere(): Left[] {
  const kept = recall(LEFT_KEY);
  return Array.isArray(kept) ? (kept as Left[]) : [];
}

function noteLeft(): void {
  const who = current.value?.person;
  if (!who) return;
  const { waiting: sending, parked, photosWaiting: photos } = standing.value;
  const entries = sending + parked.length;
  const left = entries + photos ? [{ person: who.id, name: who.name, entries, photos }] : [];
  remember(LEFT_KEY, [...leftHere().filter(({ person }) => person !== who.id), ...left]);
}

function forgetLeft(person: string): void {
  const others = leftHere().filter((left) => left.person !== person);
  if (others.length < leftHere().length) remember(LEFT_KEY, others.length ? others : undefined);
}

/** Tells the server of a sign-out it has not heard of yet. */
export async function settleSignOut(): Promise<void> {
  if (current.value || !(owed || recall(SIGN_OUT_KEY) === true)) return;
  const outcome = await request("POST", "accounts/sign-out", {});
  if (outcome.ok || outcome.status === 401) oweSignOut(false);
}

/** Opens another household of the same person. */
export function switchHousehold(id: string): void {
  const now = current.value;
  if (!now) return;
  const next = { session: sessionFor(now, id), at: Date.now() } satisfies Kept;
  enter(next.session, next.at);
  void keepForGood(KEY, next);
}

/**
 * Asks the server who is signed in, and brings names, roles and memberships up to date. Returns
 * "same", "other" (another person's cookie: nothing of this store may be sent), or "unknown".
 */
export async function confirmSession(): Promise<"same" | "other" | "unknown"> {
  const outcome = await request<Me>("GET", "accounts/me");
  const now = current.value;
  if (!outcome.ok || !now) return "unknown";
  if (outcome.value.person.id !== now.person.id) return "other";
  // Of a household that is no longer theirs the book stays open as it is: what waits in it must stay reachable.
  const still = outcome.value.households.some((household) => household.id === now.household.id);
  bringUpToDate(
    still
      ? sessionFor(outcome.value, now.household.id)
      : { ...now, person: outcome.value.person, households: outcome.value.households },
  );
  return "same";
}

async function admitted(outcome: Outcome<Me>, household?: string): Promise<Outcome<Me>> {
  if (!outcome.ok) return outcome;
  oweSignOut(false);
  unclearedNow.value = [];
  const last = recalled()?.session.household.id;
  if (outcome.value.households.length > 0) await enterForGood(sessionFor(outcome.value, household ?? last));
  signedInTimes.value += 1;
  return outcome;
}

function sessionFor(me: Me, wanted?: string): Session {
  const membership = me.households.find((household) => household.id === wanted) ?? me.households[0];
  if (!membership) throw new Error("a person without a household has no book to open");
  return {
    person: me.person,
    household: { id: membership.id, name: membership.name },
    member_id: membership.member_id,
    role: membership.role,
    households: me.households,
  };
}

/** Kept for good first: once the book is open, no sudden end of the browser forgets whose it is. */
async function enterForGood(next: Session): Promise<void> {
  const at = Date.now();
  await keepForGood(KEY, { session: next, at } satisfies Kept);
  enter(next, at);
  forgetLeft(next.person.id);
}

function bringUpToDate(next: Session): void {
  if (JSON.stringify(next) === JSON.stringify(current.value)) return;
  const at = Date.now();
  keep(next, at);
  void keepForGood(KEY, { session: next, at } satisfies Kept);
}

function keep(next: Session, at: number): void {
  if (JSON.stringify(next) !== JSON.stringify(current.value)) current.value = next;
  remember(SIGNED_OUT_KEY, undefined);
  remember(KEY, { session: next, at } satisfies Kept);
}

/** Session and book change together: nobody may see the one with another's of the other. */
function enter(next: Session, at: number, choose = openBookFor): void {
  batch(() => {
    choose(next.person.id, next.household.id);
    keep(next, at);
  });
}

/** Whether local storage let go of who was here. */
function leave(): boolean {
  return batch(() => {
    current.value = null;
    const forgot = remember(KEY, undefined);
    closeBook();
    return forgot;
  });
}

const UNITS_KEY = "evenfall.units";

/** What the member record of this person says, once it is read. */
const chosenUnits = computed<unknown>(() => {
  const id = current.value?.member_id;
  return id ? row("member", id).value?.groups["units"]?.value?.units : undefined;
});

/** What it said when it was last read on this phone: there before any database is opened. */
function unitsRemembered(): unknown {
  const kept = recall(UNITS_KEY) as { member_id?: unknown; units?: unknown } | undefined;
  return kept && kept.member_id === current.value?.member_id ? kept.units : undefined;
}

/** Units of the signed-in person, from their member record, else as this phone last read it; US until known. */
export const units: ReadonlySignal<Units> = computed(() =>
  (chosenUnits.value ?? unitsRemembered()) === "metric" ? "metric" : "us",
);

const FETCHING = new Set(["saved", "sending", "waiting"]);

/**
 * Whether those units are the person's own. A form that opened before would keep its first boxes in lb and ft². Where
 * their record is not on this phone, it may still be on its way; without signal nobody is kept waiting for it.
 */
export const unitsKnown: ReadonlySignal<boolean> = computed(() => {
  if (!current.value || (chosenUnits.value ?? unitsRemembered()) !== undefined) return true;
  if (!loaded("member").value) return false;
  const { lastSync, state } = standing.value;
  return lastSync !== undefined || !FETCHING.has(state);
});

/** Resolves when forms may open. */
export function whenUnitsKnown(): Promise<void> {
  if (unitsKnown.value) return Promise.resolve();
  return new Promise((done) => {
    const stop = effect(() => {
      if (!unitsKnown.value) return;
      queueMicrotask(() => stop());
      done();
    });
  });
}

/** Remembers the units as the record says them, for the next cold start. */
export function followUnits(): () => void {
  return effect(() => {
    const [member_id, said] = [current.value?.member_id, chosenUnits.value];
    if (member_id && said !== undefined) remember(UNITS_KEY, { member_id, units: said });
  });
}

export async function setUnits(choice: Units): Promise<void> {
  const id = current.value?.member_id;
  if (id) await save([{ t: "member", id, set: { units: { units: choice } } }]);
}

/** How many entries a sign-out would leave waiting on this phone. */
export const waiting: ReadonlySignal<number> = computed(() => standing.value.waiting);

export { setTheme, type Theme, theme } from "./theme";
