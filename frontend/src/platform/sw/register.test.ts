// @vitest-environment happy-dom
import { beforeEach, describe, expect, it, vi } from "vitest";

type Worker = EventTarget & { state: string; postMessage: (message: unknown) => void };
type Registration = EventTarget & { waiting: Worker | null; installing: Worker | null };

const worker = (state: string): Worker => Object.assign(new EventTarget(), { state, postMessage: vi.fn() });
const registration = (waiting: Worker | null): Registration =>
  Object.assign(new EventTarget(), {
    waiting,
    installing: null as Worker | null,
    update: async () => undefined,
  });

function turn(one: Worker, state: string): void {
  one.state = state;
  one.dispatchEvent(new Event("statechange"));
}

function found(at: Registration): Worker {
  const fresh = worker("installing");
  at.installing = fresh;
  at.dispatchEvent(new Event("updatefound"));
  return fresh;
}

let register: typeof import("./register");
const watch = (at: Registration, served: boolean) =>
  register.watchForBuilds(at as unknown as ServiceWorkerRegistration, served);

beforeEach(async () => {
  vi.resetModules();
  // The first worker claims the page at any moment: who controls it now says nothing about who served it.
  vi.stubGlobal("navigator", {
    serviceWorker: Object.assign(new EventTarget(), { controller: worker("activated") }),
  });
  register = await import("./register");
});

describe("S18 a new build", () => {
  it("is not offered on a first visit, though its worker already claims the page", () => {
    const at = registration(worker("installed"));
    watch(at, false);
    turn(found(at), "installed");
    expect(register.newBuild.value).toBe(false);
  });

  it("is offered once it waits behind the build that served this page", () => {
    const at = registration(null);
    watch(at, true);
    const fresh = found(at);
    expect(register.newBuild.value).toBe(false);
    turn(fresh, "installed");
    expect(register.newBuild.value).toBe(true);
    register.takeNewBuild();
    expect(navigator.serviceWorker.controller?.postMessage).toHaveBeenCalledWith({ type: "GIVE_WAY" });
    expect(fresh.postMessage).toHaveBeenCalledWith({ type: "TAKE_OVER" });
  });

  it("is offered when it waited before the page was opened, until it no longer waits", () => {
    const old = worker("installed");
    watch(registration(old), true);
    expect(register.newBuild.value).toBe(true);
    turn(old, "activating");
    expect(register.newBuild.value).toBe(false);
  });

  it("says once that the server has switched the worker off, to a page the worker served", () => {
    const told = new MessageEvent("message", { data: { type: "SWITCHED_OFF" } });
    register.watchForSwitch(false);
    navigator.serviceWorker.dispatchEvent(told);
    expect(register.switchedOff.value).toBe(false);
    register.watchForSwitch(true);
    navigator.serviceWorker.dispatchEvent(new MessageEvent("message", { data: "other" }));
    expect(register.switchedOff.value).toBe(false);
    navigator.serviceWorker.dispatchEvent(told);
    expect(register.switchedOff.value).toBe(true);
  });

  it("is not offered when it took over by itself before it could be", () => {
    watch(registration(worker("activated")), true);
    expect(register.newBuild.value).toBe(false);
  });
});
