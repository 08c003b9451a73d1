import { describe, expect, it } from "vitest";
import {
  accuracyWord,
  canClose,
  closed,
  createGpsWatch,
  type Fix,
  type GpsForm,
  NO_WALK,
  paused,
  takenBack,
  walking,
  withFix,
} from "./gps-trace";

const fix = (lat: number, accuracy_m = 4): Fix => ({ lat, lon: -93.1, accuracy_m });

function walked(count: number, from: GpsForm = walking(NO_WALK)): GpsForm {
  let form = from;
  for (let k = 0; k < count; k += 1) form = withFix(form, fix(41 + form.fixes.length / 1000));
  return form;
}

/** A phone's location service that says what the test tells it to. */
function fakeGeo() {
  const heard: { ok?: PositionCallback; bad?: PositionErrorCallback | null; options?: PositionOptions } = {};
  const cleared: number[] = [];
  return {
    cleared,
    heard,
    watchPosition(ok: PositionCallback, bad?: PositionErrorCallback | null, options?: PositionOptions) {
      Object.assign(heard, { ok, bad, options });
      return 7;
    },
    clearWatch: (id: number) => void cleared.push(id),
    say: (lat: number, timestamp: number, accuracy = 4) =>
      heard.ok?.({ coords: { latitude: lat, longitude: -93.1, accuracy }, timestamp } as GeolocationPosition),
    fail: (code: number) => heard.bad?.({ code, message: "" } as GeolocationPositionError),
  };
}

describe("walking the edge", () => {
  it("keeps every fix while walking, rough ones too, and none while paused", () => {
    const form = withFix(withFix(walking(NO_WALK), fix(41)), fix(41.001, 80));
    expect(form.fixes).toHaveLength(2);
    expect(withFix(paused(form), fix(41.002)).fixes).toHaveLength(2);
  });

  it("keeps a place to the centimetre: seven decimals of a degree", () => {
    // One degree of latitude is about 111 km (common knowledge), so the seventh decimal is 1.1 cm.
    const [kept] = withFix(walking(NO_WALK), {
      lat: 41.123456789,
      lon: -93.987654321,
      accuracy_m: 4.26,
    }).fixes;
    expect(kept).toEqual({ lat: 41.1234568, lon: -93.9876543, accuracy_m: 4.3 });
  });

  it("takes back what came since the last pause", () => {
    const form = walked(4, walking(paused(walked(20))));
    const back = takenBack(form);
    expect(back.fixes).toHaveLength(20);
    expect(back.state).toBe("paused");
  });

  it("takes back ten fixes at most, and more at the next tap", () => {
    const back = takenBack(walked(25));
    expect(back.fixes).toHaveLength(15);
    expect(takenBack(back).fixes).toHaveLength(5);
    expect(takenBack(takenBack(back)).fixes).toHaveLength(0);
  });

  it("goes on with a new stretch after a pause, once", () => {
    const form = walking(walking(paused(walked(5))));
    expect(form.marks).toEqual([0, 5]);
  });

  it("closes a ring of three fixes or more", () => {
    expect(canClose(walked(2))).toBe(false);
    expect(canClose(walked(3))).toBe(true);
    expect(closed(walked(3)).state).toBe("closed");
  });

  it("lets go of fixes that do not count only where there are too many to send", () => {
    const out = [{ index: 0 }, { index: 2 }];
    expect(closed(walked(30), out).fixes).toHaveLength(30);
    const long = closed(walked(2001), out);
    expect(long.fixes).toHaveLength(1999);
    expect(long.fixes[0]?.lat).toBeCloseTo(41.001, 9);
  });

  it("says in a word how good a fix is", () => {
    expect([3, 5, 8, 10, 11].map(accuracyWord)).toEqual([
      "good",
      "good",
      "fair",
      "fair",
      "too rough, not used",
    ]);
  });
});

describe("the watch", () => {
  function watching(geo: ReturnType<typeof fakeGeo> | undefined, secure = true) {
    const fixes: Fix[] = [];
    const watch = createGpsWatch({ geo: () => geo, secure, onFix: (one) => fixes.push(one) });
    return { fixes, watch };
  }

  it("asks for the best the phone has and hands on every fix", () => {
    const geo = fakeGeo();
    const { fixes, watch } = watching(geo);
    watch.start();
    expect(watch.state.value).toBe("asking");
    expect(geo.heard.options).toMatchObject({ enableHighAccuracy: true, maximumAge: 0 });
    geo.say(41, 1000);
    geo.say(41.001, 2000);
    expect(watch.state.value).toBe("on");
    expect(fixes.map(({ lat }) => lat)).toEqual([41, 41.001]);
  });

  it("drops a place said twice", () => {
    const geo = fakeGeo();
    const { fixes, watch } = watching(geo);
    watch.start();
    geo.say(41, 1000);
    geo.say(41, 1000);
    expect(fixes).toHaveLength(1);
  });

  it("ends when refused, and can be started again", () => {
    const geo = fakeGeo();
    const { watch } = watching(geo);
    watch.start();
    geo.fail(1);
    expect(watch.trouble.value).toBe("refused");
    expect(watch.state.value).toBe("off");
    expect(geo.cleared).toEqual([7]);
    watch.start();
    expect(watch.trouble.value).toBeUndefined();
    expect(watch.state.value).toBe("asking");
  });

  it("stays on where no fix comes yet, and forgets the trouble when one does", () => {
    const geo = fakeGeo();
    const { watch } = watching(geo);
    watch.start();
    geo.fail(3);
    expect(watch.trouble.value).toBe("late");
    geo.say(41, 1000);
    expect(watch.trouble.value).toBeUndefined();
    expect(watch.state.value).toBe("on");
  });

  it("asks nothing on an insecure page or a device without the service", () => {
    const geo = fakeGeo();
    const insecure = watching(geo, false).watch;
    insecure.start();
    expect(insecure.trouble.value).toBe("insecure");
    expect(geo.heard.ok).toBeUndefined();
    const absent = watching(undefined).watch;
    absent.start();
    expect(absent.trouble.value).toBe("absent");
  });

  it("hears nothing more once stopped", () => {
    const geo = fakeGeo();
    const { fixes, watch } = watching(geo);
    watch.start();
    watch.stop();
    geo.say(41, 1000);
    expect(fixes).toEqual([]);
  });
});
